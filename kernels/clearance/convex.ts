/** Gap between two convex pieces, as in src/measures/clearance/convex-gap.ts. */
import { barePoint, frameX, frameY, furthest, hullPoint, sectionReach } from './sections';
import { addCorner, clearSimplex, nearestX, nearestY, nearestZ } from './simplex';
import { V, first, point, pocketed, second } from './state';

export const TOLERANCE: f64 = 1e-4;
const MOST_STEPS = 40;

/** Direction in which the last bound was found. */
export let turnedX: f64 = 0;
export let turnedY: f64 = 0;
export let turnedZ: f64 = 0;

export function convexGap(
  shapeA: i32,
  stationA: i32,
  shapeB: i32,
  stationB: i32,
  ox: f64,
  oy: f64,
  cut: f64,
  vx: f64,
  vy: f64,
  vz: f64,
): f64 {
  clearSimplex();
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
    reachPiece(shapeA, stationA, dx, dy, dz);
    const ax = reachX;
    const ay = reachY;
    const az = reachZ;
    reachPiece(shapeB, stationB, -dx, -dy, -dz);
    const wx = reachX + ox - ax;
    const wy = reachY + oy - ay;
    const wz = reachZ - az;
    const bound = wx * dx + wy * dy + wz * dz;
    if (bound > best) {
      best = bound;
      turnedX = dx;
      turnedY = dy;
      turnedZ = dz;
    }
    if (best >= cut || length - best <= TOLERANCE) return best;
    if (addCorner(wx, wy, wz)) return Math.min(best, 0);
    x = nearestX();
    y = nearestY();
    z = nearestZ();
  }
  return best;
}

let reachX: f64 = 0;
let reachY: f64 = 0;
let reachZ: f64 = 0;

/** Furthest point of a piece in a direction. */
function reachPiece(shape: i32, station: i32, dx: f64, dy: f64, dz: f64): void {
  let i = <usize>station * V;
  let f = first + i;
  let s = second + i;
  let p = point + i;
  let k = station;
  let u = dx * load<f64>(f) + dy * load<f64>(f, 8) + dz * load<f64>(f, 16);
  let v = dx * load<f64>(s) + dy * load<f64>(s, 8) + dz * load<f64>(s, 16);
  const un = dx * load<f64>(f, 24) + dy * load<f64>(f, 32) + dz * load<f64>(f, 40);
  const vn = dx * load<f64>(s, 24) + dy * load<f64>(s, 32) + dz * load<f64>(s, 40);
  const here =
    dx * load<f64>(p) +
    dy * load<f64>(p, 8) +
    dz * load<f64>(p, 16) +
    sectionReach(shape, k, u, v);
  let found = load<u8>(pocketed + k) === 0 ? -1 : furthest;
  const next =
    dx * load<f64>(p, 24) +
    dy * load<f64>(p, 32) +
    dz * load<f64>(p, 40) +
    sectionReach(shape, k + 1, un, vn);
  if (next > here) {
    f += V;
    s += V;
    p += V;
    k++;
    u = un;
    v = vn;
    found = load<u8>(pocketed + k) === 0 ? -1 : furthest;
  }
  if (found < 0) barePoint(shape, k, u, v);
  else hullPoint(found);
  const x = frameX;
  const y = frameY;
  reachX = load<f64>(p) + x * load<f64>(f) + y * load<f64>(s);
  reachY = load<f64>(p, 8) + x * load<f64>(f, 8) + y * load<f64>(s, 8);
  reachZ = load<f64>(p, 16) + x * load<f64>(f, 16) + y * load<f64>(s, 16);
}
