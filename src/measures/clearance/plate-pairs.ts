/** Walls between all neighbours of a plate: channels, mounting holes, inward corners. */
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { nearest, pairGap } from './pair-gap.ts';
import { noteWall } from './tally.ts';
import type { Tally, WallKind } from './tally.ts';

let order = new Int32Array(0);
// Sides of the boxes in that order.
let west = new Float64Array(0);
let east = new Float64Array(0);
let south = new Float64Array(0);
let north = new Float64Array(0);

/**
 * Visits every pair of placed shapes whose boxes come near and notes its thinnest wall; each
 * overlapping pair adds the depth of its deepest overlap.
 *
 * Pairs are found by a sweep along x. Pairs of equal shapes at equal relative offsets are computed
 * once (`seen`): on a lattice of one motif only a handful of neighbours differ.
 */
export function visitPairs(t: Tubes, tally: Tally): void {
  sortByWest(t);
  const repeats = t.placed > t.shapes;
  if (repeats) seen.clear();
  const { placed, channels } = t;
  for (let n = 0; n < placed; n++) {
    const i = order[n];
    const reach = east[n];
    const low = south[n];
    const high = north[n];
    for (let m = n + 1; m < placed; m++) {
      const cut = tally.thinnest_mm > 0 ? tally.thinnest_mm : 0;
      if (west[m] - reach >= cut) break;
      if (south[m] - high >= cut || low - north[m] >= cut) continue;
      const j = order[m];
      if (i >= channels && j >= channels) continue;
      // In ascending order of index a pair has one key whichever comes first in the sweep.
      if (i < j) visitPair(t, tally, i, j, cut, repeats);
      else visitPair(t, tally, j, i, cut, repeats);
    }
  }
}

function visitPair(
  t: Tubes,
  tally: Tally,
  i: number,
  j: number,
  cut: number,
  repeats: boolean,
): void {
  let a = i;
  let b = j;
  let ox = t.offset[2 * j] - t.offset[2 * i];
  let oy = t.offset[2 * j + 1] - t.offset[2 * i + 1];
  // The same two shapes the other way round: make the offset's first non-zero part positive.
  const sameShape = t.shapeOf[i] === t.shapeOf[j];
  if (t.shapeOf[i] > t.shapeOf[j] || (sameShape && (ox < -QUANTUM || (ox < QUANTUM && oy < 0)))) {
    a = j;
    b = i;
    ox = -ox;
    oy = -oy;
  }
  const shapeA = t.shapeOf[a];
  const shapeB = t.shapeOf[b];
  let gap: number;
  const slot = repeats ? seen.find(shapeA, shapeB, ox, oy) : -1;
  if (slot >= 0 && seen.isFilled(slot)) gap = seen.value(slot);
  else {
    gap = pairGap(t, shapeA, shapeB, ox, oy, cut);
    if (slot >= 0) seen.fill(slot, gap);
    if (gap < tally.thinnest_mm) {
      let kind = kindOf(t, a, b);
      if (kind === 'between' && nearPocket(t)) kind = 'pocket';
      const x = t.offset[2 * a] + nearest.x;
      noteWall(tally, gap, kind, x, t.offset[2 * a + 1] + nearest.y, nearest.z, i, j);
    }
  }
  if (gap < 0) tally.overlaps_mm[kindOf(t, a, b)] -= gap;
}

function kindOf(t: Tubes, a: number, b: number): WallKind {
  const post = a >= t.channels ? a : b >= t.channels ? b : -1;
  if (post < 0) return 'between';
  return post - t.channels < t.plate.holes.length ? 'hole' : 'edge';
}

/** Whether the last pair's thinnest wall stands at a pocket. */
function nearPocket(t: Tubes): boolean {
  const { stationA: a, stationB: b } = nearest;
  return t.pocketed[a] + t.pocketed[a + 1] + t.pocketed[b] + t.pocketed[b + 1] > 0;
}

/** Orders the placed shapes by the west side of their boxes, ties by index; notes all four sides. */
function sortByWest(t: Tubes): void {
  const { placed, box, shapeOf, offset } = t;
  if (order.length < placed) {
    order = new Int32Array(placed);
    west = new Float64Array(placed);
    east = new Float64Array(placed);
    south = new Float64Array(placed);
    north = new Float64Array(placed);
  }
  const size = BOX;
  for (let i = 0; i < placed; i++) {
    const p = shapeOf[i] * size;
    const x = box[p] + offset[2 * i] - box[p + 6];
    let n = i;
    // Insertion: placements come row by row, so runs are nearly in order.
    for (; n > 0 && west[n - 1] > x; n--) {
      west[n] = west[n - 1];
      order[n] = order[n - 1];
    }
    west[n] = x;
    order[n] = i;
  }
  for (let n = 0; n < placed; n++) {
    const i = order[n];
    const p = shapeOf[i] * size;
    const reach = box[p + 6];
    const y = offset[2 * i + 1];
    east[n] = box[p + 3] + offset[2 * i] + reach;
    south[n] = box[p + 1] + y - reach;
    north[n] = box[p + 4] + y + reach;
  }
}

/** Offsets closer than this count as one [mm]: far above rounding, far below any wall. */
const QUANTUM = 1e-9;

/** Gaps already known, by shapes and relative offset; open addressing, emptied by a new stamp. */
const seen = createMemory();

interface Memory {
  clear(): void;
  /** Slot of a pair, or -1 when the table is full enough. */
  find(shapeA: number, shapeB: number, ox: number, oy: number): number;
  isFilled(slot: number): boolean;
  value(slot: number): number;
  fill(slot: number, gap: number): void;
}

function createMemory(): Memory {
  const size = 4096;
  const most = 3000;
  const stamp = new Int32Array(size);
  const shapes = new Int32Array(2 * size);
  const key = new Float64Array(2 * size);
  const gap = new Float64Array(size);
  let now = 0;
  let count = 0;
  return {
    clear() {
      now++;
      count = 0;
      if (now === 0x7fffffff) {
        stamp.fill(0);
        now = 1;
      }
    },
    find(shapeA, shapeB, ox, oy) {
      const x = Math.round(ox / QUANTUM);
      const y = Math.round(oy / QUANTUM);
      let h = Math.imul(shapeA + 1, 0x9e3779b1) ^ Math.imul(shapeB + 1, 0x85ebca6b);
      h = Math.imul(h ^ (x | 0), 0xc2b2ae35);
      h = Math.imul(h ^ (h >>> 15) ^ (y | 0), 0x27d4eb2f);
      h ^= h >>> 13;
      for (let slot = h & (size - 1); ; slot = (slot + 1) & (size - 1)) {
        if (stamp[slot] !== now) {
          if (count >= most) return -1;
          key[2 * slot] = x;
          key[2 * slot + 1] = y;
          shapes[2 * slot] = shapeA;
          shapes[2 * slot + 1] = shapeB;
          gap[slot] = NaN;
          stamp[slot] = now;
          count++;
          return slot;
        }
        if (
          key[2 * slot] === x &&
          key[2 * slot + 1] === y &&
          shapes[2 * slot] === shapeA &&
          shapes[2 * slot + 1] === shapeB
        ) {
          return slot;
        }
      }
    },
    isFilled: (slot) => gap[slot] === gap[slot],
    value: (slot) => gap[slot],
    fill(slot, value) {
      gap[slot] = value;
    },
  };
}
