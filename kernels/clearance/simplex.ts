/** Closest point of a simplex to the origin, as in src/measures/clearance/simplex.ts. */

/** Up to four corners; the fifth vector is the closest point, the sixth a trial. */
const corner = memory.data(24 * 9, 16);
const NEAREST: usize = 24 * 4;
const TRIAL: usize = 24 * 5;
const LIFTED: usize = 24 * 6;

let count: i32 = 0;

export function clearSimplex(): void {
  count = 0;
}

// @ts-ignore: decorator
@inline
export function nearestX(): f64 {
  return load<f64>(corner + NEAREST);
}
// @ts-ignore: decorator
@inline
export function nearestY(): f64 {
  return load<f64>(corner + NEAREST, 8);
}
// @ts-ignore: decorator
@inline
export function nearestZ(): f64 {
  return load<f64>(corner + NEAREST, 16);
}

/** Adds a corner and keeps those that carry the closest point; true when the origin is enclosed. */
export function addCorner(x: f64, y: f64, z: f64): bool {
  const at = corner + <usize>count * 24;
  store<f64>(at, x);
  store<f64>(at, y, 8);
  store<f64>(at, z, 16);
  count++;
  if (count === 1) {
    putCorner(0, NEAREST, 1);
    return false;
  }
  if (count === 2) {
    keep(nearestOnSegment(0, 24, NEAREST), 0, 24, 0);
    return false;
  }
  if (count === 3) {
    keep(nearestOnTriangle(0, 24, 48, NEAREST), 0, 24, 48);
    return false;
  }
  return reduceTetrahedron();
}

let best: f64 = Infinity;
let kept: i32 = 0;
let face0: usize = 0;
let face1: usize = 0;
let face2: usize = 0;
let found: bool = false;

function reduceTetrahedron(): bool {
  best = Infinity;
  found = false;
  tryFace(0, 24, 48, 72);
  tryFace(0, 48, 72, 24);
  tryFace(0, 72, 24, 48);
  tryFace(24, 72, 48, 0);
  if (!found) return true;
  keep(kept, face0, face1, face2);
  return false;
}

function tryFace(a: usize, b: usize, c: usize, d: usize): void {
  if (!outside(a, b, c, d)) return;
  const mask = nearestOnTriangle(a, b, c, TRIAL);
  const x = load<f64>(corner + TRIAL);
  const y = load<f64>(corner + TRIAL, 8);
  const z = load<f64>(corner + TRIAL, 16);
  const square = x * x + y * y + z * z;
  if (square < best) {
    best = square;
    kept = mask;
    face0 = a;
    face1 = b;
    face2 = c;
    found = true;
    store<f64>(corner + NEAREST, x);
    store<f64>(corner + NEAREST, y, 8);
    store<f64>(corner + NEAREST, z, 16);
  }
}

/** Whether the origin lies on the other side of face a b c than corner d, or d in its plane. */
function outside(ia: usize, ib: usize, ic: usize, id: usize): bool {
  const a = corner + ia;
  const b = corner + ib;
  const c = corner + ic;
  const d = corner + id;
  const ax = load<f64>(a);
  const ay = load<f64>(a, 8);
  const az = load<f64>(a, 16);
  const ux = load<f64>(b) - ax;
  const uy = load<f64>(b, 8) - ay;
  const uz = load<f64>(b, 16) - az;
  const vx = load<f64>(c) - ax;
  const vy = load<f64>(c, 8) - ay;
  const vz = load<f64>(c, 16) - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const origin = -(ax * nx + ay * ny + az * nz);
  const other =
    (load<f64>(d) - ax) * nx + (load<f64>(d, 8) - ay) * ny + (load<f64>(d, 16) - az) * nz;
  return origin * other <= 0;
}

/** Moves the corners of a mask (1 a, 2 b, 4 c) to the front. */
function keep(mask: i32, a: usize, b: usize, c: usize): void {
  let n: usize = 0;
  const lifted = corner + LIFTED;
  if (mask & 1) {
    memory.copy(lifted, corner + a, 24);
    n += 24;
  }
  if (mask & 2) {
    memory.copy(lifted + n, corner + b, 24);
    n += 24;
  }
  if (mask & 4) {
    memory.copy(lifted + n, corner + c, 24);
    n += 24;
  }
  memory.copy(corner, lifted, n);
  count = <i32>(n / 24);
}

function nearestOnSegment(ia: usize, ib: usize, out: usize): i32 {
  const a = corner + ia;
  const b = corner + ib;
  const ax = load<f64>(a);
  const ay = load<f64>(a, 8);
  const az = load<f64>(a, 16);
  const x = load<f64>(b) - ax;
  const y = load<f64>(b, 8) - ay;
  const z = load<f64>(b, 16) - az;
  const square = x * x + y * y + z * z;
  const along = -(ax * x + ay * y + az * z);
  if (along <= 0 || square === 0) return putCorner(ia, out, 1);
  if (along >= square) return putCorner(ib, out, 2);
  const share = along / square;
  const o = corner + out;
  store<f64>(o, ax + share * x);
  store<f64>(o, ay + share * y, 8);
  store<f64>(o, az + share * z, 16);
  return 3;
}

function putCorner(ia: usize, out: usize, mask: i32): i32 {
  const a = corner + ia;
  const o = corner + out;
  store<f64>(o, load<f64>(a));
  store<f64>(o, load<f64>(a, 8), 8);
  store<f64>(o, load<f64>(a, 16), 16);
  return mask;
}

function between(ia: usize, ib: usize, share: f64, out: usize, mask: i32): i32 {
  const a = corner + ia;
  const b = corner + ib;
  const o = corner + out;
  for (let d: usize = 0; d < 24; d += 8) {
    const from = load<f64>(a + d);
    store<f64>(o + d, from + share * (load<f64>(b + d) - from));
  }
  return mask;
}

function nearestOnTriangle(ia: usize, ib: usize, ic: usize, out: usize): i32 {
  const a = corner + ia;
  const b = corner + ib;
  const c = corner + ic;
  const ax = load<f64>(a);
  const ay = load<f64>(a, 8);
  const az = load<f64>(a, 16);
  const px = load<f64>(b);
  const py = load<f64>(b, 8);
  const pz = load<f64>(b, 16);
  const qx = load<f64>(c);
  const qy = load<f64>(c, 8);
  const qz = load<f64>(c, 16);
  const bx = px - ax;
  const by = py - ay;
  const bz = pz - az;
  const cx = qx - ax;
  const cy = qy - ay;
  const cz = qz - az;
  const d1 = -(bx * ax + by * ay + bz * az);
  const d2 = -(cx * ax + cy * ay + cz * az);
  if (d1 <= 0 && d2 <= 0) return putCorner(ia, out, 1);
  const d3 = -(bx * px + by * py + bz * pz);
  const d4 = -(cx * px + cy * py + cz * pz);
  if (d3 >= 0 && d4 <= d3) return putCorner(ib, out, 2);
  const vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return between(ia, ib, ratio(d1, d1 - d3), out, 3);
  const d5 = -(bx * qx + by * qy + bz * qz);
  const d6 = -(cx * qx + cy * qy + cz * qz);
  if (d6 >= 0 && d5 <= d6) return putCorner(ic, out, 4);
  const vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return between(ia, ic, ratio(d2, d2 - d6), out, 5);
  const va = d3 * d6 - d5 * d4;
  const e1 = d4 - d3;
  const e2 = d5 - d6;
  if (va <= 0 && e1 >= 0 && e2 >= 0) return between(ib, ic, ratio(e1, e1 + e2), out, 6);
  const sum = 1 / (va + vb + vc);
  const v = vb * sum;
  const w = vc * sum;
  const o = corner + out;
  store<f64>(o, ax + v * bx + w * cx);
  store<f64>(o, ay + v * by + w * cy, 8);
  store<f64>(o, az + v * bz + w * cz, 16);
  return 7;
}

// @ts-ignore: decorator
@inline
function ratio(part: f64, whole: f64): f64 {
  return whole === 0 ? 0 : part / whole;
}
