/** Closest point to the origin on a point, segment, triangle or tetrahedron, kept as a simplex. */

/** Up to four corners, x y z each. */
export interface Simplex {
  readonly corner: Float64Array; // [4 x 3]
  count: number;
  /** Closest point to the origin. */
  readonly nearest: Float64Array; // [3]
}

export function createSimplex(): Simplex {
  return { corner: new Float64Array(12), count: 0, nearest: new Float64Array(3) };
}

/**
 * Finds the point of the simplex nearest to the origin and drops the corners that do not carry it.
 *
 * @returns true when a tetrahedron encloses the origin.
 * Source: Voronoi regions after Ericson 2005, Real-Time Collision Detection, section 5.1.
 */
export function reduceSimplex(s: Simplex): boolean {
  if (s.count === 1) {
    putCorner(s.corner, 0, s.nearest, 1);
    return false;
  }
  if (s.count === 2) {
    keep(s, nearestOnSegment(s.corner, 0, 3, s.nearest), 0, 3, 0);
    return false;
  }
  if (s.count === 3) {
    keep(s, nearestOnTriangle(s.corner, 0, 3, 6, s.nearest), 0, 3, 6);
    return false;
  }
  return reduceTetrahedron(s);
}

const FACES = [0, 3, 6, 9, 0, 6, 9, 3, 0, 9, 3, 6, 3, 9, 6, 0] as const;
const trial = new Float64Array(3);

function reduceTetrahedron(s: Simplex): boolean {
  let best = Infinity;
  let kept = 0;
  let face = -1;
  for (let f = 0; f < 16; f += 4) {
    if (!outside(s.corner, FACES[f], FACES[f + 1], FACES[f + 2], FACES[f + 3])) continue;
    const mask = nearestOnTriangle(s.corner, FACES[f], FACES[f + 1], FACES[f + 2], trial);
    const square = trial[0] * trial[0] + trial[1] * trial[1] + trial[2] * trial[2];
    if (square < best) {
      best = square;
      kept = mask;
      face = f;
      s.nearest.set(trial);
    }
  }
  if (face < 0) return true;
  keep(s, kept, FACES[face], FACES[face + 1], FACES[face + 2]);
  return false;
}

/** Whether the origin lies on the other side of face a b c than corner d, or d in its plane. */
function outside(p: Float64Array, a: number, b: number, c: number, d: number): boolean {
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const vx = p[c] - p[a];
  const vy = p[c + 1] - p[a + 1];
  const vz = p[c + 2] - p[a + 2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const origin = -(p[a] * nx + p[a + 1] * ny + p[a + 2] * nz);
  const corner = (p[d] - p[a]) * nx + (p[d + 1] - p[a + 1]) * ny + (p[d + 2] - p[a + 2]) * nz;
  return origin * corner <= 0;
}

/** Moves the corners of a mask (1 a, 2 b, 4 c) to the front. */
function keep(s: Simplex, mask: number, a: number, b: number, c: number): void {
  const p = s.corner;
  let n = 0;
  // The corners may stand in any order, so they are lifted out before they are put down.
  for (let bit = 0; bit < 3; bit++) {
    if ((mask & (1 << bit)) === 0) continue;
    const from = bit === 0 ? a : bit === 1 ? b : c;
    lifted[3 * n] = p[from];
    lifted[3 * n + 1] = p[from + 1];
    lifted[3 * n + 2] = p[from + 2];
    n++;
  }
  for (let i = 0; i < 3 * n; i++) p[i] = lifted[i];
  s.count = n;
}

const lifted = new Float64Array(9);

function nearestOnSegment(p: Float64Array, a: number, b: number, out: Float64Array): number {
  const x = p[b] - p[a];
  const y = p[b + 1] - p[a + 1];
  const z = p[b + 2] - p[a + 2];
  const square = x * x + y * y + z * z;
  const along = -(p[a] * x + p[a + 1] * y + p[a + 2] * z);
  if (along <= 0 || square === 0) return putCorner(p, a, out, 1);
  if (along >= square) return putCorner(p, b, out, 2);
  const share = along / square;
  out[0] = p[a] + share * x;
  out[1] = p[a + 1] + share * y;
  out[2] = p[a + 2] + share * z;
  return 3;
}

function putCorner(p: Float64Array, a: number, out: Float64Array, mask: number): number {
  out[0] = p[a];
  out[1] = p[a + 1];
  out[2] = p[a + 2];
  return mask;
}

function between(
  p: Float64Array,
  a: number,
  b: number,
  share: number,
  out: Float64Array,
  mask: number,
): number {
  for (let d = 0; d < 3; d++) out[d] = p[a + d] + share * (p[b + d] - p[a + d]);
  return mask;
}

function nearestOnTriangle(
  p: Float64Array,
  a: number,
  b: number,
  c: number,
  out: Float64Array,
): number {
  const bx = p[b] - p[a];
  const by = p[b + 1] - p[a + 1];
  const bz = p[b + 2] - p[a + 2];
  const cx = p[c] - p[a];
  const cy = p[c + 1] - p[a + 1];
  const cz = p[c + 2] - p[a + 2];
  const d1 = -(bx * p[a] + by * p[a + 1] + bz * p[a + 2]);
  const d2 = -(cx * p[a] + cy * p[a + 1] + cz * p[a + 2]);
  if (d1 <= 0 && d2 <= 0) return putCorner(p, a, out, 1);
  const d3 = -(bx * p[b] + by * p[b + 1] + bz * p[b + 2]);
  const d4 = -(cx * p[b] + cy * p[b + 1] + cz * p[b + 2]);
  if (d3 >= 0 && d4 <= d3) return putCorner(p, b, out, 2);
  const vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return between(p, a, b, ratio(d1, d1 - d3), out, 3);
  const d5 = -(bx * p[c] + by * p[c + 1] + bz * p[c + 2]);
  const d6 = -(cx * p[c] + cy * p[c + 1] + cz * p[c + 2]);
  if (d6 >= 0 && d5 <= d6) return putCorner(p, c, out, 4);
  const vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return between(p, a, c, ratio(d2, d2 - d6), out, 5);
  const va = d3 * d6 - d5 * d4;
  const e1 = d4 - d3;
  const e2 = d5 - d6;
  if (va <= 0 && e1 >= 0 && e2 >= 0) return between(p, b, c, ratio(e1, e1 + e2), out, 6);
  const sum = 1 / (va + vb + vc);
  const v = vb * sum;
  const w = vc * sum;
  out[0] = p[a] + v * bx + w * cx;
  out[1] = p[a + 1] + v * by + w * cy;
  out[2] = p[a + 2] + v * bz + w * cz;
  return 7;
}

function ratio(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
