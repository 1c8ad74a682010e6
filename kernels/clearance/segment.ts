/** Solid between two pieces, as in src/measures/clearance/segment-gap.ts, where the rule is told. */
import { convexGap, turnedX, turnedY, turnedZ } from './convex';
import { reachTowards } from './sections';
import {
  ROUND,
  V,
  bend,
  bore,
  bulge,
  curvature,
  first,
  kind,
  pocketed,
  point,
  reach,
  spare,
  tangent,
} from './state';

const CONE: f64 = 0.05;

export let contactLean: f64 = 0;
export let contactX: f64 = 0;
export let contactY: f64 = 0;
export let contactZ: f64 = 0;

/** Direction from A to B that showed the last pair whose gap was no less than asked to be so. */
export let partingX: f64 = 0;
export let partingY: f64 = 0;
export let partingZ: f64 = 0;

export function clearParting(): void {
  partingX = 0;
  partingY = 0;
  partingZ = 0;
}

// @ts-ignore: decorator
@inline
function clamped(s: f64): f64 {
  return s < 0 ? 0 : s > 1 ? 1 : s;
}

// @ts-ignore: decorator
@inline
function greater(array: usize, at: usize): f64 {
  const here = load<f64>(array + at);
  const next = load<f64>(array + at, 8);
  return here > next ? here : next;
}

export function segmentGap(
  shapeA: i32,
  i: i32,
  shapeB: i32,
  j: i32,
  ox: f64,
  oy: f64,
  cut: f64,
  leanLimit: f64,
): f64 {
  const p = point + <usize>i * V;
  const q = point + <usize>j * V;
  const px = load<f64>(p);
  const py = load<f64>(p, 8);
  const pz = load<f64>(p, 16);
  const qx = load<f64>(q);
  const qy = load<f64>(q, 8);
  const qz = load<f64>(q, 16);
  const ux = load<f64>(p, 24) - px;
  const uy = load<f64>(p, 32) - py;
  const uz = load<f64>(p, 40) - pz;
  const vx = load<f64>(q, 24) - qx;
  const vy = load<f64>(q, 32) - qy;
  const vz = load<f64>(q, 40) - qz;
  const rx = px - qx - ox;
  const ry = py - qy - oy;
  const rz = pz - qz;
  const a = ux * ux + uy * uy + uz * uz;
  const e = vx * vx + vy * vy + vz * vz;
  const b = ux * vx + uy * vy + uz * vz;
  const c = ux * rx + uy * ry + uz * rz;
  const f = vx * rx + vy * ry + vz * rz;
  const denominator = a * e - b * b;
  let s = denominator > 1e-12 * a * e ? (b * f - c * e) / denominator : 0;
  s = clamped(s);
  let w = (b * s + f) / e;
  if (w < 0) {
    w = 0;
    s = clamped(-c / a);
  } else if (w > 1) {
    w = 1;
    s = clamped((b - c) / a);
  }
  let dx = vx * w - ux * s - rx;
  let dy = vy * w - uy * s - ry;
  let dz = vz * w - uz * s - rz;
  const distance = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const i8 = <usize>i << 3;
  const j8 = <usize>j << 3;
  const loose = load<f64>(spare + i8) + load<f64>(spare + j8);
  const reachA = greater(reach, i8);
  const reachB = greater(reach, j8);
  if (distance < 1e-9) {
    dx = uy * vz - uz * vy;
    dy = uz * vx - ux * vz;
    dz = ux * vy - uy * vx;
    let n = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (n < 1e-9) {
      const axis = first + <usize>i * V;
      dx = load<f64>(axis);
      dy = load<f64>(axis, 8);
      dz = load<f64>(axis, 16);
      n = Math.sqrt(dx * dx + dy * dy + dz * dz);
    }
    dx /= n;
    dy /= n;
    dz /= n;
  } else {
    const scale = 1 / distance;
    dx *= scale;
    dy *= scale;
    dz *= scale;
  }
  if (leanLimit < 1) {
    const lean = Math.max(leanAt(i, s, dx, dy, dz), leanAt(j, w, dx, dy, dz));
    if (lean > leanLimit) return Infinity;
    contactLean = lean;
  }
  const hollowA = hollow(i, dx, dy, dz);
  const hollowB = hollow(j, dx, dy, dz);
  const outA = hollowA < 0 ? -hollowA : 0;
  const outB = hollowB > 0 ? hollowB : 0;
  const bendA = greater(bend, i8);
  const bendB = greater(bend, j8);
  const capsules =
    distance - reachA - reachB - loose - outA * (1 + bendA * reachA) - outB * (1 + bendB * reachB);
  if (capsules >= cut) return capsules;
  const alongA = dx * ux + dy * uy + dz * uz;
  const alongB = dx * vx + dy * vy + dz * vz;
  const a0 = reachTowards(shapeA, i, dx, dy, dz) - s * alongA;
  const a1 = reachTowards(shapeA, i + 1, dx, dy, dz) + (1 - s) * alongA;
  const b0 = reachTowards(shapeB, j, -dx, -dy, -dz) + w * alongB;
  const b1 = reachTowards(shapeB, j + 1, -dx, -dy, -dz) - (1 - w) * alongB;
  const towardsB = a0 > a1 ? a0 : a1;
  const towardsA = b0 > b1 ? b0 : b1;
  const bulges = loose + outA * (1 + bendA * towardsB) + outB * (1 + bendB * towardsA);
  let gap = distance - towardsB - towardsA - bulges;
  if (gap < capsules) gap = capsules;
  if (gap >= cut) {
    partingX = dx;
    partingY = dy;
    partingZ = dz;
    return gap;
  }
  if (!(isPlain(shapeA, i) && isPlain(shapeB, j)) && distance > inner(i8) + inner(j8)) {
    const improved =
      convexGap(
        shapeA,
        i,
        shapeB,
        j,
        ox,
        oy,
        cut + bulges,
        dx * distance,
        dy * distance,
        dz * distance,
      ) - bulges;
    if (improved > gap) gap = improved;
    if (gap >= cut) {
      partingX = turnedX;
      partingY = turnedY;
      partingZ = turnedZ;
      return gap;
    }
  }
  const out = towardsB + 0.5 * (distance - towardsB - towardsA);
  contactX = px + s * ux + out * dx;
  contactY = py + s * uy + out * dy;
  contactZ = pz + s * uz + out * dz;
  return gap;
}

// @ts-ignore: decorator
@inline
function hollow(station: i32, dx: f64, dy: f64, dz: f64): f64 {
  const out = load<f64>(bulge + (<usize>station << 3));
  if (out === 0) return 0;
  const c = curvature + <usize>station * V;
  return (
    dx * ((load<f64>(c) + load<f64>(c, 24)) * out) +
    dy * ((load<f64>(c, 8) + load<f64>(c, 32)) * out) +
    dz * ((load<f64>(c, 16) + load<f64>(c, 40)) * out)
  );
}

function leanAt(station: i32, share: f64, dx: f64, dy: f64, dz: f64): f64 {
  const t = tangent + <usize>station * V;
  const tx = load<f64>(t);
  const ty = load<f64>(t, 8);
  const tz = load<f64>(t, 16);
  const x = tx + share * (load<f64>(t, 24) - tx);
  const y = ty + share * (load<f64>(t, 32) - ty);
  const z = tz + share * (load<f64>(t, 40) - tz);
  return Math.abs(x * dx + y * dy + z * dz) / Math.sqrt(x * x + y * y + z * z);
}

// @ts-ignore: decorator
@inline
export function isPlain(shape: i32, station: i32): bool {
  const b = bore + (<usize>station << 3);
  return (
    load<u8>(kind + shape) === ROUND &&
    load<u8>(pocketed + station) === 0 &&
    load<u8>(pocketed + station, 1) === 0 &&
    Math.abs(0.5 * load<f64>(b) - 0.5 * load<f64>(b, 8)) <= CONE
  );
}

// @ts-ignore: decorator
@inline
function inner(at: usize): f64 {
  const here = load<f64>(bore + at);
  const next = load<f64>(bore + at, 8);
  return 0.5 * (here < next ? here : next);
}
