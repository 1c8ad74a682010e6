/** Whether two triangles of a mesh pass through each other. */
import type { Mesh } from './mesh.ts';

/** Shortest common line that counts: rounding makes neighbours share up to some 1e-10 [mm]. */
const LEAST_MM = 1e-6;

/**
 * Whether two triangles of a mesh pass through each other along a line.
 *
 * Each must have corners on both sides of the other's plane, and the stretches in which they meet
 * the line common to both planes must overlap. A corner that both share lies on both planes by
 * definition, one that merely stands in the other's plane counts as above it: walls that coincide
 * edge by edge where they cross, as mirrored channels do, are thus found. Triangles that share an
 * edge can only lie flat upon each other, and that is not looked for.
 *
 * Differences of float32 coordinates and the first products are exact in float64, so that the
 * sides are right to some 1e-16 of the triangles' size.
 *
 * @param s row of one triangle, `t` of the other.
 * Source: Moller 1997, A fast triangle-triangle intersection test (the interval test; the rules for
 * shared corners are our own).
 */
export function trianglesCross(mesh: Mesh, s: number, t: number): boolean {
  const { vertices: v, triangles } = mesh;
  let a0 = triangles[3 * s];
  let a1 = triangles[3 * s + 1];
  let a2 = triangles[3 * s + 2];
  let b0 = triangles[3 * t];
  let b1 = triangles[3 * t + 1];
  let b2 = triangles[3 * t + 2];
  // Corners are turned so that a shared one comes first in both.
  let isShared = false;
  for (let k = 0; k < 3; k++) {
    const inB = a0 === b0 || a0 === b1 || a0 === b2;
    if (inB) {
      if (a1 === b0 || a1 === b1 || a1 === b2 || a2 === b0 || a2 === b1 || a2 === b2) return false;
      isShared = true;
      if (a0 === b1) [b0, b1, b2] = [b1, b2, b0];
      else if (a0 === b2) [b0, b1, b2] = [b2, b0, b1];
      break;
    }
    [a0, a1, a2] = [a1, a2, a0];
  }
  a0 *= 3;
  a1 *= 3;
  a2 *= 3;
  b0 *= 3;
  b1 *= 3;
  b2 *= 3;
  // Everything relative to the first corner of b.
  const ox = v[b0];
  const oy = v[b0 + 1];
  const oz = v[b0 + 2];
  const px = v[b1] - ox;
  const py = v[b1 + 1] - oy;
  const pz = v[b1 + 2] - oz;
  const qx = v[b2] - ox;
  const qy = v[b2 + 1] - oy;
  const qz = v[b2 + 2] - oz;
  const mx = py * qz - pz * qy;
  const my = pz * qx - px * qz;
  const mz = px * qy - py * qx;
  const bx = v[a1] - ox;
  const by = v[a1 + 1] - oy;
  const bz = v[a1 + 2] - oz;
  const cx = v[a2] - ox;
  const cy = v[a2 + 1] - oy;
  const cz = v[a2 + 2] - oz;
  const ax = v[a0] - ox;
  const ay = v[a0 + 1] - oy;
  const az = v[a0 + 2] - oz;
  const e0 = isShared ? 0 : mx * ax + my * ay + mz * az;
  const e1 = mx * bx + my * by + mz * bz;
  const e2 = mx * cx + my * cy + mz * cz;
  if (e1 < 0 === e2 < 0 && (isShared || e0 < 0 === e1 < 0)) return false;
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const wx = cx - ax;
  const wy = cy - ay;
  const wz = cz - az;
  const nx = uy * wz - uz * wy;
  const ny = uz * wx - ux * wz;
  const nz = ux * wy - uy * wx;
  const f0 = isShared ? 0 : -(nx * ax + ny * ay + nz * az);
  const f1 = nx * (px - ax) + ny * (py - ay) + nz * (pz - az);
  const f2 = nx * (qx - ax) + ny * (qy - ay) + nz * (qz - az);
  if (f1 < 0 === f2 < 0 && (isShared || f0 < 0 === f1 < 0)) return false;
  // Places along the line common to both planes, in units of the product of the two normals.
  const lx = ny * mz - nz * my;
  const ly = nz * mx - nx * mz;
  const lz = nx * my - ny * mx;
  const start = lx * ax + ly * ay + lz * az;
  stretch(
    [start, lx * bx + ly * by + lz * bz, lx * cx + ly * cy + lz * cz],
    [e0, e1, e2],
    isShared,
    SPAN_A,
  );
  stretch(
    [0, lx * px + ly * py + lz * pz, lx * qx + ly * qy + lz * qz],
    [f0, f1, f2],
    isShared,
    SPAN_B,
  );
  const common = Math.min(SPAN_A[1], SPAN_B[1]) - Math.max(SPAN_A[0], SPAN_B[0]);
  return common > LEAST_MM * Math.sqrt(lx * lx + ly * ly + lz * lz);
}

const SPAN_A = new Float64Array(2);
const SPAN_B = new Float64Array(2);

type Three = readonly [number, number, number];

/**
 * Where a triangle meets the common line, least place first.
 *
 * @param at places of its corners along the line.
 * @param side heights of its corners over the other plane.
 * @param isShared the first corner lies on the line.
 */
function stretch(at: Three, side: Three, isShared: boolean, out: Float64Array): void {
  // The corner alone on its side, from which both sides run through the plane.
  const isZeroOne = side[0] < 0 === side[1] < 0;
  const isZeroTwo = side[0] < 0 === side[2] < 0;
  const alone = isShared ? 1 : isZeroOne ? 2 : isZeroTwo ? 1 : 0;
  const p = (alone + 1) % 3;
  const q = (alone + 2) % 3;
  const one = meet(at[alone], side[alone], at[p], side[p]);
  const other = isShared ? at[0] : meet(at[alone], side[alone], at[q], side[q]);
  out[0] = Math.min(one, other);
  out[1] = Math.max(one, other);
}

function meet(from: number, fromSide: number, to: number, toSide: number): number {
  return from + (to - from) * (fromSide / (fromSide - toSide));
}
