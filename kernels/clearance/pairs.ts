/** Thinnest solid between two shapes, as in src/measures/clearance/pair-gap.ts. */
import { dropParted, isSimple } from './parting';
import {
  clearParting,
  contactX,
  contactY,
  contactZ,
  partingX,
  partingY,
  partingZ,
  segmentGap,
} from './segment';
import {
  BOX,
  F,
  block,
  blockBound,
  blockPair,
  blockSize,
  blocks,
  half,
  nearBound,
  nearPair,
  pointX,
  pointY,
  pointZ,
  stations,
  swell,
} from './state';

const ROUNDING: f64 = 1e-9;
const LEAST_LIST = 6;
const NEVER = 0x7fffffff;

/** Where the last pair found its thinnest wall, relative to A's offset, and between which pieces. */
export let nearestX: f64 = 0;
export let nearestY: f64 = 0;
export let nearestZ: f64 = 0;
export let stationA: i32 = 0;
export let stationB: i32 = 0;

// @ts-ignore: decorator
@inline
function spread(a0: f64, a1: f64, b0: f64, b1: f64): f64 {
  return b0 > a1 ? b0 - a1 : a0 > b1 ? a0 - b1 : 0;
}

export function pairGap(shapeA: i32, shapeB: i32, ox: f64, oy: f64, cut: f64): f64 {
  let count = 0;
  const firstB = block + <usize>(shapeB * blocks) * BOX;
  let p = block + <usize>(shapeA * blocks) * BOX;
  const none = f64x2.splat(0);
  const off = f64x2.replace_lane(f64x2.splat(ox), 1, oy);
  for (let i = 0; i < blocks; i++, p += BOX) {
    const low = f64x2.sub(v128.load(p), off);
    const high = f64x2.sub(v128.load(p, 24), off);
    const z0 = load<f64>(p, 16);
    const z1 = load<f64>(p, 40);
    const reachA = load<f64>(p, 48);
    let q = firstB;
    for (let j = 0; j < blocks; j++, q += BOX) {
      const reach = reachA + load<f64>(q, 48);
      const limit = cut + reach;
      const z = spread(z0, z1, load<f64>(q, 16), load<f64>(q, 40));
      if (z >= limit) continue;
      const beside = f64x2.pmax(
        none,
        f64x2.pmax(f64x2.sub(v128.load(q), high), f64x2.sub(low, v128.load(q, 24))),
      );
      const squares = f64x2.mul(beside, beside);
      const square = f64x2.extract_lane(squares, 0) + f64x2.extract_lane(squares, 1) + z * z;
      if (square >= limit * limit) continue;
      const least = Math.sqrt(square) - reach - ROUNDING;
      let n = count++;
      for (; n > 0; n--) {
        const before = blockBound + (<usize>n << 3);
        const bound = load<f64>(before - 8);
        if (!(bound > least)) break;
        store<f64>(before, bound);
        const pair = blockPair + (<usize>n << 2);
        store<i32>(pair, load<i32>(pair - 4));
      }
      store<f64>(blockBound + (<usize>n << 3), least);
      store<i32>(blockPair + (<usize>n << 2), (i << 16) | j);
    }
  }
  let best = cut;
  if (count === 0) return best;
  const parts = !(isSimple(shapeA) && isSimple(shapeB));
  clearParting();
  for (let n = 0; n < count; n++) {
    if (!(load<f64>(blockBound + (<usize>n << 3)) < best)) break;
    const pair = load<i32>(blockPair + (<usize>n << 2));
    best = blockGap(shapeA, pair >> 16, shapeB, pair & 0xffff, ox, oy, best, parts);
  }
  return best;
}

function blockGap(
  shapeA: i32,
  blockA: i32,
  shapeB: i32,
  blockB: i32,
  ox: f64,
  oy: f64,
  cut: f64,
  parts: bool,
): f64 {
  let count = listNear(shapeA, blockA, shapeB, blockB, ox, oy, cut);
  let best = cut;
  let next = parts && count >= LEAST_LIST ? 0 : NEVER;
  let parted = partingX === 0 && partingY === 0 && partingZ === 0 ? -1 : 0;
  for (let n = 0; n < count; n++) {
    if (parted >= next) {
      count = dropParted(
        shapeA,
        blockA,
        shapeB,
        blockB,
        ox,
        oy,
        best,
        n,
        count,
        partingX,
        partingY,
        partingZ,
      );
      next = count - n < LEAST_LIST ? NEVER : next === 0 ? 1 : 2 * next;
      if (n >= count) break;
    }
    if (load<f64>(nearBound + (<usize>n << 3)) >= best) continue;
    const pair = load<i32>(nearPair + (<usize>n << 2));
    const i = shapeA * stations + (pair >> 16);
    const j = shapeB * stations + (pair & 0xffff);
    const gap = segmentGap(shapeA, i, shapeB, j, ox, oy, best, 1);
    if (gap < best) {
      best = gap;
      nearestX = contactX;
      nearestY = contactY;
      nearestZ = contactZ;
      stationA = i;
      stationB = j;
    } else parted = parted < 0 ? 1 : parted + 1;
  }
  return best;
}

/** Lists the pairs of two blocks that may have a gap below `cut`, the likeliest first. */
function listNear(
  shapeA: i32,
  blockA: i32,
  shapeB: i32,
  blockB: i32,
  ox: f64,
  oy: f64,
  cut: f64,
): i32 {
  const halfA = load<f64>(half + (<usize>shapeA << 3));
  const halfB = load<f64>(half + (<usize>shapeB << 3));
  const lastA = min(stations - 1, (blockA + 1) * blockSize);
  const lastB = min(stations - 1, (blockB + 1) * blockSize);
  const startB = blockB * blockSize;
  const b = block + <usize>(shapeB * blocks + blockB) * BOX;
  const x0 = load<f64>(b);
  const y0 = load<f64>(b, 8);
  const z0 = load<f64>(b, 16);
  const x1 = load<f64>(b, 24);
  const y1 = load<f64>(b, 32);
  const z1 = load<f64>(b, 40);
  const most = cut + load<f64>(b, 48) + ROUNDING;
  let count = 0;
  let first = 0;
  let least = Infinity;
  const fromB = <usize>(shapeB * stations + startB) * F;
  const swellB = swell + fromB;
  const xs = pointX + fromB;
  const ys = pointY + fromB;
  const zs = pointZ + fromB;
  const countB = lastB - startB;
  const none = f64x2.splat(0);
  const halfOf = f64x2.splat(0.5);
  const lowest = f64x2.splat(-Infinity);
  let k = <usize>(shapeA * stations + blockA * blockSize) * F;
  for (let i = blockA * blockSize; i < lastA; i++, k += F) {
    const px = load<f64>(pointX + k);
    const py = load<f64>(pointY + k);
    const pz = load<f64>(pointZ + k);
    const sx = load<f64>(pointX + k, 8);
    const sy = load<f64>(pointY + k, 8);
    const sz = load<f64>(pointZ + k, 8);
    const x = 0.5 * (px + sx) - ox;
    const y = 0.5 * (py + sy) - oy;
    const z = 0.5 * (pz + sz);
    const wall = load<f64>(swell + k);
    const bx = spread(x, x, x0, x1);
    const by = spread(y, y, y0, y1);
    const bz = spread(z, z, z0, z1);
    const within = most + halfA + wall;
    if (bx * bx + by * by + bz * bz >= within * within || within <= 0) continue;
    const middleX = f64x2.splat(x);
    const middleY = f64x2.splat(y);
    const middleZ = f64x2.splat(z);
    const hx = f64x2.splat(0.5 * (sx - px));
    const hy = f64x2.splat(0.5 * (sy - py));
    const hz = f64x2.splat(0.5 * (sz - pz));
    const reaches = f64x2.splat(cut + halfA + wall + halfB);
    const walls = wall + ROUNDING;
    const wallsOf = f64x2.splat(walls);
    const worst = f64x2.splat(cut + walls);
    for (let n = 0; n < countB; n += 2) {
      const n8 = <usize>n << 3;
      const ax = v128.load(xs + n8);
      const ay = v128.load(ys + n8);
      const az = v128.load(zs + n8);
      const cx = v128.load(xs + n8, 8);
      const cy = v128.load(ys + n8, 8);
      const cz = v128.load(zs + n8, 8);
      const dx = f64x2.sub(f64x2.mul(halfOf, f64x2.add(ax, cx)), middleX);
      const dy = f64x2.sub(f64x2.mul(halfOf, f64x2.add(ay, cy)), middleY);
      const dz = f64x2.sub(f64x2.mul(halfOf, f64x2.add(az, cz)), middleZ);
      const other = v128.load(swellB + n8);
      const limit = f64x2.add(reaches, other);
      const square = dot(dx, dx, dy, dy, dz, dz);
      const isNear = v128.and(f64x2.lt(square, f64x2.mul(limit, limit)), f64x2.gt(limit, none));
      // Along the line between the middles a piece reaches by its half chord's share of it.
      const shares = f64x2.add(
        f64x2.abs(dot(dx, hx, dy, hy, dz, hz)),
        f64x2.mul(
          halfOf,
          f64x2.abs(dot(dx, f64x2.sub(cx, ax), dy, f64x2.sub(cy, ay), dz, f64x2.sub(cz, az))),
        ),
      );
      const far = f64x2.sqrt(square);
      const left = f64x2.sub(square, shares);
      const mask = i64x2.bitmask(
        v128.and(isNear, f64x2.lt(left, f64x2.mul(f64x2.add(worst, other), far))),
      );
      // Both are written, and stay when they count: a branch here is a coin's toss.
      const lower = f64x2.sub(f64x2.div(left, far), f64x2.add(wallsOf, other));
      const bounds = v128.bitselect(lower, lowest, f64x2.gt(far, none));
      note(count, f64x2.extract_lane(bounds, 0), i, startB + n);
      count += mask & 1;
      note(count, f64x2.extract_lane(bounds, 1), i, startB + n + 1);
      count += n + 1 < countB ? mask >> 1 : 0;
    }
  }
  for (let n = 0; n < count; n++) {
    const bound = load<f64>(nearBound + (<usize>n << 3));
    first = bound < least ? n : first;
    least = bound < least ? bound : least;
  }
  if (count > 0) {
    const boundAt = nearBound + (<usize>first << 3);
    store<f64>(boundAt, load<f64>(nearBound));
    store<f64>(nearBound, least);
    const pairAt = nearPair + (<usize>first << 2);
    const pair = load<i32>(pairAt);
    store<i32>(pairAt, load<i32>(nearPair));
    store<i32>(nearPair, pair);
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
function note(n: i32, bound: f64, i: i32, j: i32): void {
  store<f64>(nearBound + (<usize>n << 3), bound);
  store<i32>(nearPair + (<usize>n << 2), (i << 16) | j);
}
