/**
 * Gap between two convex pieces of channel, for sections whose furthest point towards the neighbour
 * does not lie on the line between the centrelines.
 *
 * Every direction d gives a safe bound, gap >= min over B of (p . d) - max over A of (p . d); the
 * search turns d until bound and distance agree within 0.1 um.
 * Source: Gilbert, Johnson & Keerthi 1988, IEEE J. Robotics and Automation 4:193.
 */
import type { Tubes } from './tubes.ts';
import { furthest } from './pocket-hulls.ts';
import { barePoint, sectionReach } from './section-reach.ts';
import { createSimplex, reduceSimplex } from './simplex.ts';

export const TOLERANCE_mm = 1e-4;
/** Direction in which the last bound was found. */
export const turned = new Float64Array(3);
const MOST_STEPS = 40;
const simplex = createSimplex();
const frame = new Float64Array(2);
const a = new Float64Array(3);
const b = new Float64Array(3);

/**
 * Greatest safe bound of the gap [mm]; negative when the pieces overlap.
 *
 * @param stationA first station of the piece of A; the piece runs to the next one.
 * @param ox,oy offset of B relative to A.
 * @param cut stop as soon as the bound reaches this.
 * @param vx,vy,vz vector between any two points of the pieces, from A to B, not zero.
 */
export function convexGap(
  t: Tubes,
  shapeA: number,
  stationA: number,
  shapeB: number,
  stationB: number,
  ox: number,
  oy: number,
  cut: number,
  vx: number,
  vy: number,
  vz: number,
): number {
  const { corner, nearest } = simplex;
  simplex.count = 0;
  let best = -Infinity;
  let x = vx;
  let y = vy;
  let z = vz;
  for (let step = 0; step < MOST_STEPS; step++) {
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length < 1e-9) return Math.min(best, 0);
    const dx = x / length;
    const dy = y / length;
    const dz = z / length;
    reachPiece(t, shapeA, stationA, dx, dy, dz, a);
    reachPiece(t, shapeB, stationB, -dx, -dy, -dz, b);
    const wx = b[0] + ox - a[0];
    const wy = b[1] + oy - a[1];
    const wz = b[2] - a[2];
    const bound = wx * dx + wy * dy + wz * dz;
    if (bound > best) {
      best = bound;
      turned[0] = dx;
      turned[1] = dy;
      turned[2] = dz;
    }
    if (best >= cut || length - best <= TOLERANCE_mm) return best;
    const at = 3 * simplex.count;
    corner[at] = wx;
    corner[at + 1] = wy;
    corner[at + 2] = wz;
    simplex.count++;
    if (reduceSimplex(simplex)) return Math.min(best, 0);
    x = nearest[0];
    y = nearest[1];
    z = nearest[2];
  }
  return best;
}

/** Furthest point of a piece in a direction. */
function reachPiece(
  t: Tubes,
  shape: number,
  station: number,
  dx: number,
  dy: number,
  dz: number,
  out: Float64Array,
): void {
  const { point, first, second } = t;
  let i = 3 * station;
  const m = i + 3;
  let k = station;
  let u = dx * first[i] + dy * first[i + 1] + dz * first[i + 2];
  let v = dx * second[i] + dy * second[i + 1] + dz * second[i + 2];
  const un = dx * first[m] + dy * first[m + 1] + dz * first[m + 2];
  const vn = dx * second[m] + dy * second[m + 1] + dz * second[m + 2];
  const here =
    dx * point[i] + dy * point[i + 1] + dz * point[i + 2] + sectionReach(t, shape, k, u, v);
  let found = t.pocketed[k] === 0 ? -1 : furthest.at;
  const next =
    dx * point[m] + dy * point[m + 1] + dz * point[m + 2] + sectionReach(t, shape, k + 1, un, vn);
  if (next > here) {
    i = m;
    k++;
    u = un;
    v = vn;
    found = t.pocketed[k] === 0 ? -1 : furthest.at;
  }
  if (found < 0) barePoint(t, shape, k, u, v, frame);
  else {
    frame[0] = t.hulls[found];
    frame[1] = t.hulls[found + 1];
  }
  const x = frame[0];
  const y = frame[1];
  out[0] = point[i] + x * first[i] + y * second[i];
  out[1] = point[i + 1] + x * first[i + 1] + y * second[i + 1];
  out[2] = point[i + 2] + x * first[i + 2] + y * second[i + 2];
}
