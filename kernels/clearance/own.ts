/** A channel against itself, as in src/measures/clearance/own-walls.ts, where the rule is told. */
import { contactLean, contactX, contactY, contactZ, segmentGap } from './segment';
import {
  BOX,
  F,
  box,
  half,
  lowest,
  nearBound,
  nearPair,
  offset,
  pointX,
  pointY,
  pointZ,
  stations,
  swell,
  turn,
} from './state';
import { SELF, noteWall, thinnest } from './tally';

const FACING: f64 = 0.75;
const LEAST_TURN: f64 = 1.44;
const ROUNDING: f64 = 1e-9;

export function visitSelf(shape: i32, channel: i32): f64 {
  const base = shape * stations;
  if (load<f64>(turn + (<usize>(base + stations - 1) << 3)) < LEAST_TURN) return 0;
  let depth: f64 = 0;
  const least = thinnest();
  let cut = least > 0 ? least : 0;
  const count = listFacing(shape, cut);
  for (let n = 0; n < count; n++) {
    if (load<f64>(nearBound + (<usize>n << 3)) >= cut) continue;
    const pair = load<i32>(nearPair + (<usize>n << 2));
    const i = base + (pair >> 16);
    const j = base + (pair & 0xffff);
    const gap = segmentGap(shape, i, shape, j, 0, 0, cut, FACING);
    if (gap >= cut) continue;
    const wall = gap > 0 ? gap / Math.sqrt(1 - contactLean * contactLean) : gap;
    if (-wall > depth) depth = -wall;
    if (wall < cut) cut = depth > 0 ? -depth : wall;
    const at = offset + (<usize>channel << 4);
    const x = load<f64>(at) + contactX;
    const y = load<f64>(at, 8) + contactY;
    noteWall(wall, SELF, x, y, contactZ, channel, channel);
  }
  return depth;
}

function listFacing(shape: i32, cut: f64): i32 {
  const at = <usize>(shape * stations) * F;
  const end = stations - 1;
  const swells = swell + at;
  const turns = turn + at;
  const xs = pointX + at;
  const ys = pointY + at;
  const zs = pointZ + at;
  fillLowest(zs, end);
  const total = load<f64>(turns + (<usize>end << 3));
  const halfStep = load<f64>(half + (<usize>shape << 3));
  const step = 2 * halfStep;
  const near2 = f64x2.splat(4 * step * step);
  const facing2 = f64x2.splat(FACING * FACING * step * step);
  const widest = halfStep + load<f64>(box + <usize>shape * BOX, 48);
  const none = f64x2.splat(0);
  const halfOf = f64x2.splat(0.5);
  const halves = f64x2.splat(halfStep);
  let count = 0;
  let from = 2;
  for (let i = 0; i < end - 2; i++) {
    const i8 = <usize>i << 3;
    const turned = load<f64>(turns + i8);
    if (total - turned < LEAST_TURN) break;
    if (from < i + 2) from = i + 2;
    while (load<f64>(turns + (<usize>from << 3), 8) - turned < LEAST_TURN) from++;
    const z0 = load<f64>(zs + i8);
    const z1 = load<f64>(zs + i8, 8);
    const pz = 0.5 * (z0 + z1);
    const reach = cut + (halfStep + load<f64>(swells + i8));
    const top = pz + (reach + widest);
    if (load<f64>(lowest + (<usize>from << 3)) >= top) continue;
    const x0 = load<f64>(xs + i8);
    const x1 = load<f64>(xs + i8, 8);
    const y0 = load<f64>(ys + i8);
    const y1 = load<f64>(ys + i8, 8);
    const middleX = f64x2.splat(0.5 * (x0 + x1));
    const middleY = f64x2.splat(0.5 * (y0 + y1));
    const middleZ = f64x2.splat(pz);
    const hx = f64x2.splat(x1 - x0);
    const hy = f64x2.splat(y1 - y0);
    const hz = f64x2.splat(z1 - z0);
    const reaches = f64x2.splat(reach);
    // Two at once; `lowest` never falls, so the first of the two decides.
    for (let j = from; j < end; j += 2) {
      const j8 = <usize>j << 3;
      if (load<f64>(lowest + j8) >= top) break;
      const ax = v128.load(xs + j8);
      const ay = v128.load(ys + j8);
      const az = v128.load(zs + j8);
      const bx = v128.load(xs + j8, 8);
      const by = v128.load(ys + j8, 8);
      const bz = v128.load(zs + j8, 8);
      const x = f64x2.sub(f64x2.mul(halfOf, f64x2.add(ax, bx)), middleX);
      const y = f64x2.sub(f64x2.mul(halfOf, f64x2.add(ay, by)), middleY);
      const z = f64x2.sub(f64x2.mul(halfOf, f64x2.add(az, bz)), middleZ);
      const limit = f64x2.add(reaches, f64x2.add(halves, v128.load(swells + j8)));
      const square = dot(x, x, y, y, z, z);
      const alongI = dot(x, hx, y, hy, z, hz);
      const alongJ = dot(x, f64x2.sub(bx, ax), y, f64x2.sub(by, ay), z, f64x2.sub(bz, az));
      const most = f64x2.mul(facing2, square);
      const faces = v128.and(
        f64x2.le(f64x2.mul(alongI, alongI), most),
        f64x2.le(f64x2.mul(alongJ, alongJ), most),
      );
      const mask = i64x2.bitmask(
        v128.and(
          v128.and(f64x2.lt(square, f64x2.mul(limit, limit)), f64x2.gt(limit, none)),
          v128.or(f64x2.le(square, near2), faces),
        ),
      );
      if (mask === 0) continue;
      if (mask & 1) {
        note(count++, i, j, f64x2.extract_lane(square, 0), f64x2.extract_lane(limit, 0), cut);
      }
      if (mask & 2 && j + 1 < end && load<f64>(lowest + j8, 8) < top) {
        note(count++, i, j + 1, f64x2.extract_lane(square, 1), f64x2.extract_lane(limit, 1), cut);
      }
    }
  }
  return count;
}

// @ts-ignore: decorator
@inline
function dot(ax: v128, bx: v128, ay: v128, by: v128, az: v128, bz: v128): v128 {
  return f64x2.add(f64x2.add(f64x2.mul(ax, bx), f64x2.mul(ay, by)), f64x2.mul(az, bz));
}

// @ts-ignore: decorator
@inline
function note(n: i32, i: i32, j: i32, square: f64, limit: f64, cut: f64): void {
  store<f64>(nearBound + (<usize>n << 3), Math.sqrt(square) - (limit - cut) - ROUNDING);
  store<i32>(nearPair + (<usize>n << 2), (i << 16) | j);
}

/** The least height of the middles of each piece and all that follow. */
function fillLowest(zs: usize, end: i32): void {
  let least = Infinity;
  let after = load<f64>(zs + (<usize>end << 3));
  for (let k = <isize>(end - 1) << 3; k >= 0; k -= 8) {
    const before = load<f64>(zs + k);
    const z = 0.5 * (before + after);
    if (z < least) least = z;
    store<f64>(lowest + k, least);
    after = before;
  }
}
