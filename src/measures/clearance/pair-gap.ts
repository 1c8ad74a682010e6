/** Thinnest solid between two shapes at a given offset. */
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { contact, parting, segmentGap } from './segment-gap.ts';
import { dropParted, isSimple } from './parting-planes.ts';

/** Where the last pair found its thinnest wall, relative to A's offset, and between which pieces. */
export const nearest = { x: 0, y: 0, z: 0, stationA: 0, stationB: 0 };

/** Allowance for rounding where a bound meets what it bounds [mm]. */
const ROUNDING_mm = 1e-9;

/**
 * Smallest gap between two placed shapes [mm], or `cut` when none is smaller.
 *
 * Blocks of segments are compared by their boxes, then segments with boxes, by the balls around them
 * and along the line between their middles; no bound exceeds what `segmentGap` returns, so the result
 * equals that of all pairs (experiments/bench/clearance shows what it saves).
 */
export function pairGap(
  t: Tubes,
  shapeA: number,
  shapeB: number,
  ox: number,
  oy: number,
  cut: number,
): number {
  const { block, blocks } = t;
  let count = 0;
  if (bound.length < blocks * blocks) {
    bound = new Float64Array(blocks * blocks);
    which = new Int32Array(blocks * blocks);
  }
  const size = BOX;
  const firstB = shapeB * blocks * size;
  for (let i = 0, p = shapeA * blocks * size; i < blocks; i++, p += size) {
    const x0 = block[p] - ox;
    const y0 = block[p + 1] - oy;
    const z0 = block[p + 2];
    const x1 = block[p + 3] - ox;
    const y1 = block[p + 4] - oy;
    const z1 = block[p + 5];
    const reachA = block[p + 6];
    for (let j = 0, q = firstB; j < blocks; j++, q += size) {
      const reach = reachA + block[q + 6];
      const limit = cut + reach;
      // Height first: most blocks of two channels that climb side by side part there.
      const z = spread(z0, z1, block[q + 2], block[q + 5]);
      if (z >= limit) continue;
      const x = spread(x0, x1, block[q], block[q + 3]);
      const y = spread(y0, y1, block[q + 1], block[q + 4]);
      const square = x * x + y * y + z * z;
      if (square >= limit * limit) continue;
      // Nearest blocks first: their walls cut off most of the others.
      const least = Math.sqrt(square) - reach - ROUNDING_mm;
      let n = count++;
      for (; n > 0 && bound[n - 1] > least; n--) {
        bound[n] = bound[n - 1];
        which[n] = which[n - 1];
      }
      bound[n] = least;
      which[n] = i * blocks + j;
    }
  }
  let best = cut;
  parts = !(isSimple(t, shapeA) && isSimple(t, shapeB));
  parting.fill(0);
  for (let n = 0; n < count && bound[n] < best; n++) {
    const i = Math.trunc(which[n] / blocks);
    best = blockGap(t, shapeA, i, shapeB, which[n] - i * blocks, ox, oy, best);
  }
  return best;
}

/** Fewest pairs that are worth two projections of blocks. */
const LEAST_LIST = 6;
/** Whether a plane may part what the line between centrelines does not. */
let parts = false;

let bound = new Float64Array(16);
let which = new Int32Array(16);

/** Distance between two intervals. */
function spread(a0: number, a1: number, b0: number, b1: number): number {
  return b0 > a1 ? b0 - a1 : a0 > b1 ? a0 - b1 : 0;
}

function blockGap(
  t: Tubes,
  shapeA: number,
  blockA: number,
  shapeB: number,
  blockB: number,
  ox: number,
  oy: number,
  cut: number,
): number {
  const { stations } = t;
  let count = listNear(t, shapeA, blockA, shapeB, blockB, ox, oy, cut);
  let best = cut;
  // First by what parted the last blocks, then by what parts the first, second, fourth ... of these.
  let next = parts && count >= LEAST_LIST ? 0 : Infinity;
  let parted = parting[0] === 0 && parting[1] === 0 && parting[2] === 0 ? -1 : 0;
  for (let n = 0; n < count; n++) {
    if (parted >= next) {
      count = dropParted(
        t,
        shapeA,
        blockA,
        shapeB,
        blockB,
        ox,
        oy,
        best,
        near,
        nearBound,
        n,
        count,
        parting,
      );
      next = count - n < LEAST_LIST ? Infinity : next === 0 ? 1 : 2 * next;
      if (n >= count) break;
    }
    if (nearBound[n] >= best) continue;
    const i = Math.trunc(near[n] / stations);
    const j = near[n] - i * stations;
    const gap = segmentGap(
      t,
      shapeA,
      shapeA * stations + i,
      shapeB,
      shapeB * stations + j,
      ox,
      oy,
      best,
    );
    if (gap < best) {
      best = gap;
      nearest.x = contact.x;
      nearest.y = contact.y;
      nearest.z = contact.z;
      nearest.stationA = shapeA * stations + i;
      nearest.stationB = shapeB * stations + j;
    } else parted = parted < 0 ? 1 : parted + 1;
  }
  return best;
}

/** Pairs of pieces that may stand nearer than asked, as i * stations + j, and bounds of their gaps. */
let near = new Int32Array(64);
let nearBound = new Float64Array(64);

/**
 * Fills `near` with the pairs of two blocks that may have a gap below `cut`, the likeliest first:
 * its gap cuts off most of the others.
 *
 * A loop of its own: the compiler keeps what it knows of the arrays only where nothing is called.
 */
function listNear(
  t: Tubes,
  shapeA: number,
  blockA: number,
  shapeB: number,
  blockB: number,
  ox: number,
  oy: number,
  cut: number,
): number {
  const { point, swell, stations, blockSize, block } = t;
  if (near.length < blockSize * blockSize) {
    near = new Int32Array(blockSize * blockSize);
    nearBound = new Float64Array(blockSize * blockSize);
  }
  const list = near;
  const bounds = nearBound;
  const rounding = ROUNDING_mm;
  const halfA = t.half[shapeA];
  const halfB = t.half[shapeB];
  const baseA = shapeA * stations;
  const baseB = shapeB * stations;
  const endA = baseA + Math.min(stations - 1, (blockA + 1) * blockSize);
  const endB = baseB + Math.min(stations - 1, (blockB + 1) * blockSize);
  const startB = baseB + blockB * blockSize;
  const b = (shapeB * t.blocks + blockB) * BOX;
  const x0 = block[b];
  const y0 = block[b + 1];
  const z0 = block[b + 2];
  const x1 = block[b + 3];
  const y1 = block[b + 4];
  const z1 = block[b + 5];
  const most = cut + block[b + 6] + rounding;
  let count = 0;
  let first = 0;
  let least = Infinity;
  for (let i = baseA + blockA * blockSize, p = 3 * i; i < endA; i++, p += 3) {
    const x = 0.5 * (point[p] + point[p + 3]) - ox;
    const y = 0.5 * (point[p + 1] + point[p + 4]) - oy;
    const z = 0.5 * (point[p + 2] + point[p + 5]);
    const wall = swell[i];
    // One ball against the whole other block.
    const bx = spread(x, x, x0, x1);
    const by = spread(y, y, y0, y1);
    const bz = spread(z, z, z0, z1);
    const within = most + halfA + wall;
    if (bx * bx + by * by + bz * bz >= within * within || within <= 0) continue;
    const hx = 0.5 * (point[p + 3] - point[p]);
    const hy = 0.5 * (point[p + 4] - point[p + 1]);
    const hz = 0.5 * (point[p + 5] - point[p + 2]);
    const reach = cut + halfA + wall + halfB;
    const walls = wall + rounding;
    const worst = cut + walls;
    let qx = point[3 * startB];
    let qy = point[3 * startB + 1];
    let qz = point[3 * startB + 2];
    for (let j = startB, q = 3 * startB + 3; j < endB; j++, q += 3) {
      const nx = point[q];
      const ny = point[q + 1];
      const nz = point[q + 2];
      const dx = 0.5 * (qx + nx) - x;
      const dy = 0.5 * (qy + ny) - y;
      const dz = 0.5 * (qz + nz) - z;
      const kx = nx - qx;
      const ky = ny - qy;
      const kz = nz - qz;
      qx = nx;
      qy = ny;
      qz = nz;
      const limit = reach + swell[j];
      const square = dx * dx + dy * dy + dz * dz;
      if (square >= limit * limit || limit <= 0) continue;
      // Along the line between the middles a piece reaches by its half chord's share of it.
      const shares =
        Math.abs(dx * hx + dy * hy + dz * hz) + 0.5 * Math.abs(dx * kx + dy * ky + dz * kz);
      const far = Math.sqrt(square);
      if (square - shares >= (worst + swell[j]) * far) continue;
      const lower = far > 0 ? (square - shares) / far - (walls + swell[j]) : -Infinity;
      if (lower < least) {
        least = lower;
        first = count;
      }
      bounds[count] = lower;
      list[count++] = (i - baseA) * stations + (j - baseB);
    }
  }
  if (count > 0) {
    bounds[first] = bounds[0];
    bounds[0] = least;
    const code = list[first];
    list[first] = list[0];
    list[0] = code;
  }
  return count;
}
