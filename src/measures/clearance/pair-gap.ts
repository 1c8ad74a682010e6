/** Thinnest solid between two shapes at a given offset. */
import { BOX, SEGMENT } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { contact, segmentGap } from './segment-gap.ts';

/** Where the last pair found its thinnest wall, relative to A's offset, and between which pieces. */
export const nearest = { x: 0, y: 0, z: 0, stationA: 0, stationB: 0 };

/**
 * Smallest gap between two placed shapes [mm], or `cut` when none is smaller.
 *
 * Blocks of segments are compared by their boxes, then segments by the balls around them; both
 * bounds never exceed what `segmentGap` returns, so the result equals that of all pairs
 * (experiments/bench/clearance shows what it saves).
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
  for (let i = 0; i < blocks; i++) {
    const p = (shapeA * blocks + i) * BOX;
    for (let j = 0; j < blocks; j++) {
      const q = (shapeB * blocks + j) * BOX;
      const reach = block[p + 6] + block[q + 6];
      const limit = cut + reach;
      if (limit <= 0) continue;
      const x = spread(block[p], block[p + 3], block[q] + ox, block[q + 3] + ox);
      const y = spread(block[p + 1], block[p + 4], block[q + 1] + oy, block[q + 4] + oy);
      const z = spread(block[p + 2], block[p + 5], block[q + 2], block[q + 5]);
      const square = x * x + y * y + z * z;
      if (square >= limit * limit) continue;
      // Nearest blocks first: their walls cut off most of the others.
      const least = Math.sqrt(square) - reach;
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
  for (let n = 0; n < count && bound[n] < best; n++) {
    const i = Math.trunc(which[n] / blocks);
    best = blockGap(t, shapeA, i, shapeB, which[n] - i * blocks, ox, oy, best);
  }
  return best;
}

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
  const { segment, stations, blockSize } = t;
  const baseA = shapeA * stations;
  const baseB = shapeB * stations;
  const endA = baseA + Math.min(stations - 1, (blockA + 1) * blockSize);
  const endB = baseB + Math.min(stations - 1, (blockB + 1) * blockSize);
  const startB = baseB + blockB * blockSize;
  let best = cut;
  for (let i = baseA + blockA * blockSize; i < endA; i++) {
    const p = i * SEGMENT;
    const x = segment[p] - ox;
    const y = segment[p + 1] - oy;
    const z = segment[p + 2];
    const r = segment[p + 3];
    for (let j = startB; j < endB; j++) {
      const q = j * SEGMENT;
      const dx = segment[q] - x;
      const dy = segment[q + 1] - y;
      const dz = segment[q + 2] - z;
      const limit = best + r + segment[q + 3];
      if (dx * dx + dy * dy + dz * dz >= limit * limit || limit <= 0) continue;
      const gap = segmentGap(t, shapeA, i, shapeB, j, ox, oy, best);
      if (gap < best) {
        best = gap;
        nearest.x = contact.x;
        nearest.y = contact.y;
        nearest.z = contact.z;
        nearest.stationA = i;
        nearest.stationB = j;
      }
    }
  }
  return best;
}
