/** Hypervolume in four and more dimensions (WFG), one buffer per depth. */
import { createSweepSpace, volumeOfFew } from './hypervolume-few.ts';
import type { SweepSpace } from './hypervolume-few.ts';
import { sortByObjective } from './sorting.ts';

/** Points and order of each depth; depth i works in m - i dimensions. */
interface VolumeSpace {
  readonly sets: readonly Float64Array[];
  readonly orders: readonly Int32Array[];
  readonly sweeping: SweepSpace;
}

export function createVolumeSpace(size: number, m: number): VolumeSpace {
  const depths = Array.from({ length: Math.max(0, m - 3) }, (_, i) => m - 1 - i);
  return {
    sets: depths.map((width) => new Float64Array(size * width)),
    orders: [m, ...depths].map(() => new Int32Array(size)),
    sweeping: createSweepSpace(size),
  };
}

/**
 * Volume of a set as the sum of what each point adds to those after it.
 *
 * Points go from worst to best in the last coordinate; all that come after a point then reach below
 * it in that coordinate, so what it adds is a slab: its height times the area, one dimension down,
 * that the rest limited to it leaves free.
 *
 * @param points all strictly inside the reference point [n x m], m >= 4.
 */
export function volumeOfMany(
  points: Float64Array,
  n: number,
  m: number,
  reference: ArrayLike<number>,
  space: VolumeSpace,
): number {
  return volumeAt(points, n, m, reference, space, 0);
}

function volumeAt(
  points: Float64Array,
  n: number,
  m: number,
  reference: ArrayLike<number>,
  space: VolumeSpace,
  depth: number,
): number {
  if (n <= 2) return volumeOfPair(points, n, m, reference);
  if (m <= 3) return volumeOfFew(points, n, m, reference, space.sweeping);
  const order = space.orders[depth];
  for (let i = 0; i < n; i++) order[i] = i;
  sortByObjective(space.sweeping.sorting, points, m, m - 1, order, 0, n);
  const limited = space.sets[depth];
  let volume = 0;
  for (let i = n - 1; i >= 0; i--) {
    const at = order[i] * m;
    let free = 1;
    for (let k = 0; k < m - 1; k++) free *= reference[k] - points[at + k];
    const left = limitTo(points, order, i, m, at, limited);
    if (left > 0) free -= volumeAt(limited, left, m - 1, reference, space, depth + 1);
    if (free > 0) volume += free * (reference[m - 1] - points[at + m - 1]);
  }
  return volume;
}

/** One box, or two boxes less what they share: most sets deep in the recursion are that small. */
function volumeOfPair(
  points: Float64Array,
  n: number,
  m: number,
  reference: ArrayLike<number>,
): number {
  if (n === 0) return 0;
  let first = 1;
  let second = n - 1;
  let shared = n - 1;
  for (let k = 0; k < m; k++) {
    const a = points[k];
    first *= reference[k] - a;
    if (n === 1) continue;
    const b = points[m + k];
    second *= reference[k] - b;
    shared *= reference[k] - (a > b ? a : b);
  }
  return first + second - shared;
}

/**
 * Writes the points order[0..count) raised to the point at `at`, without the last coordinate and
 * without those another one covers; returns how many are left.
 */
function limitTo(
  points: Float64Array,
  order: Int32Array,
  count: number,
  m: number,
  at: number,
  out: Float64Array,
): number {
  const width = m - 1;
  let left = 0;
  // Nearest in the last coordinate first: these cover most of the others.
  for (let i = count - 1; i >= 0; i--) {
    const from = order[i] * m;
    const to = left * width;
    for (let k = 0; k < width; k++) {
      const v = points[from + k];
      out[to + k] = v > points[at + k] ? v : points[at + k];
    }
    left = settleLast(out, left, width);
  }
  return left;
}

/** Drops covered points of a set in place, equal ones but for the first; returns how many are left. */
export function dropCovered(set: Float64Array, n: number, width: number): number {
  let left = 0;
  for (let i = 0; i < n; i++) {
    if (i !== left) set.copyWithin(left * width, i * width, (i + 1) * width);
    left = settleLast(set, left, width);
  }
  return left;
}

/** Row `left` joins the rows before it, none of which covers another; returns the new count. */
function settleLast(set: Float64Array, left: number, width: number): number {
  const last = left * width;
  let kept = 0;
  for (let j = 0; j < left; j++) {
    const side = compare(set, j * width, last, width);
    // Nothing has been dropped yet: a row that the last one covers could not cover this one.
    if (side > 0) return left;
    if (side < 0) continue;
    if (kept !== j) set.copyWithin(kept * width, j * width, (j + 1) * width);
    kept++;
  }
  if (kept !== left) set.copyWithin(kept * width, last, last + width);
  return kept + 1;
}

/** 1: the first point covers the second (equal counts); -1: the second covers the first; 0: neither. */
function compare(set: Float64Array, a: number, b: number, width: number): number {
  let aWorse = false;
  let bWorse = false;
  for (let k = 0; k < width; k++) {
    const difference = set[a + k] - set[b + k];
    if (difference > 0) aWorse = true;
    else if (difference < 0) bWorse = true;
    if (aWorse && bWorse) return 0;
  }
  return aWorse ? -1 : 1;
}
