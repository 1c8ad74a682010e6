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
  V,
  block,
  blockBound,
  blockPair,
  blockSize,
  blocks,
  half,
  nearBound,
  nearPair,
  point,
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
  for (let i = 0; i < blocks; i++, p += BOX) {
    const x0 = load<f64>(p) - ox;
    const y0 = load<f64>(p, 8) - oy;
    const z0 = load<f64>(p, 16);
    const x1 = load<f64>(p, 24) - ox;
    const y1 = load<f64>(p, 32) - oy;
    const z1 = load<f64>(p, 40);
    const reachA = load<f64>(p, 48);
    let q = firstB;
    for (let j = 0; j < blocks; j++, q += BOX) {
      const reach = reachA + load<f64>(q, 48);
      const limit = cut + reach;
      const z = spread(z0, z1, load<f64>(q, 16), load<f64>(q, 40));
      if (z >= limit) continue;
      const x = spread(x0, x1, load<f64>(q), load<f64>(q, 24));
      const y = spread(y0, y1, load<f64>(q, 8), load<f64>(q, 32));
      const square = x * x + y * y + z * z;
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
  const baseB = <usize>(shapeB * stations + startB);
  const pointB = point + baseB * V;
  const swellB = swell + baseB * F;
  const baseA = <usize>(shapeA * stations + blockA * blockSize);
  let p = point + baseA * V;
  let wallAt = swell + baseA * F;
  for (let i = blockA * blockSize; i < lastA; i++, p += V, wallAt += F) {
    const px = load<f64>(p);
    const py = load<f64>(p, 8);
    const pz = load<f64>(p, 16);
    const sx = load<f64>(p, 24);
    const sy = load<f64>(p, 32);
    const sz = load<f64>(p, 40);
    const x = 0.5 * (px + sx) - ox;
    const y = 0.5 * (py + sy) - oy;
    const z = 0.5 * (pz + sz);
    const wall = load<f64>(wallAt);
    const bx = spread(x, x, x0, x1);
    const by = spread(y, y, y0, y1);
    const bz = spread(z, z, z0, z1);
    const within = most + halfA + wall;
    if (bx * bx + by * by + bz * bz >= within * within || within <= 0) continue;
    const hx = 0.5 * (sx - px);
    const hy = 0.5 * (sy - py);
    const hz = 0.5 * (sz - pz);
    const reach = cut + halfA + wall + halfB;
    const walls = wall + ROUNDING;
    const worst = cut + walls;
    let q = pointB;
    let swellAt = swellB;
    let qx = load<f64>(q);
    let qy = load<f64>(q, 8);
    let qz = load<f64>(q, 16);
    for (let j = startB; j < lastB; j++, swellAt += F) {
      q += V;
      const nx = load<f64>(q);
      const ny = load<f64>(q, 8);
      const nz = load<f64>(q, 16);
      const dx = 0.5 * (qx + nx) - x;
      const dy = 0.5 * (qy + ny) - y;
      const dz = 0.5 * (qz + nz) - z;
      const kx = nx - qx;
      const ky = ny - qy;
      const kz = nz - qz;
      qx = nx;
      qy = ny;
      qz = nz;
      const other = load<f64>(swellAt);
      const limit = reach + other;
      const square = dx * dx + dy * dy + dz * dz;
      if (square >= limit * limit || limit <= 0) continue;
      const shares =
        Math.abs(dx * hx + dy * hy + dz * hz) + 0.5 * Math.abs(dx * kx + dy * ky + dz * kz);
      const far = Math.sqrt(square);
      if (square - shares >= (worst + other) * far) continue;
      const lower = far > 0 ? (square - shares) / far - (walls + other) : -Infinity;
      if (lower < least) {
        least = lower;
        first = count;
      }
      store<f64>(nearBound + (<usize>count << 3), lower);
      store<i32>(nearPair + (<usize>count << 2), (i << 16) | j);
      count++;
    }
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
