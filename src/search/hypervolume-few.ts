/** Hypervolume in one, two and three dimensions by sweeping. */
import { createSortSpace, sortByObjective } from './sorting.ts';
import type { SortSpace } from './sorting.ts';

/** Buffers for sweeping up to `size` points. */
export interface SweepSpace {
  readonly sorting: SortSpace;
  readonly ids: Int32Array;
  /** Steps of the staircase, with a guard at each end. */
  readonly xs: Float64Array;
  readonly ys: Float64Array;
}

export function createSweepSpace(size: number): SweepSpace {
  return {
    sorting: createSortSpace(size),
    ids: new Int32Array(size),
    xs: new Float64Array(size + 2),
    ys: new Float64Array(size + 2),
  };
}

/** @param points all strictly inside the reference point [n x m], n >= 1, m 1..3. */
export function volumeOfFew(
  points: Float64Array,
  n: number,
  m: number,
  reference: ArrayLike<number>,
  space: SweepSpace,
): number {
  if (m === 1) {
    let least = points[0];
    for (let i = 1; i < n; i++) least = Math.min(least, points[i]);
    return reference[0] - least;
  }
  const { ids } = space;
  for (let i = 0; i < n; i++) ids[i] = i;
  sortByObjective(space.sorting, points, m, m - 1, ids, 0, n);
  if (m === 2) return sweepPlane(points, ids, n, reference[0], reference[1]);
  return sweepSpace(points, n, reference, space);
}

/** Area under points in order of their second coordinate: each that improves the first adds a strip. */
function sweepPlane(
  points: Float64Array,
  ids: Int32Array,
  n: number,
  reference0: number,
  reference1: number,
): number {
  let area = 0;
  let least = reference0;
  for (let i = 0; i < n; i++) {
    const x = points[ids[i] * 2];
    if (x >= least) continue;
    area += (least - x) * (reference1 - points[ids[i] * 2 + 1]);
    least = x;
  }
  return area;
}

/**
 * Volume of points in order of their third coordinate. The points passed leave a staircase in the
 * first two; its area times the step in the third is summed.
 */
function sweepSpace(
  points: Float64Array,
  n: number,
  reference: ArrayLike<number>,
  space: SweepSpace,
): number {
  // Steps rise in x and fall in y, between two guards that stand for the reference.
  const { ids, xs, ys } = space;
  xs[0] = Number.NEGATIVE_INFINITY;
  ys[0] = reference[1];
  xs[1] = reference[0];
  ys[1] = Number.NEGATIVE_INFINITY;
  let length = 2;
  let area = 0;
  let volume = 0;
  let level = points[ids[0] * 3 + 2];
  for (let i = 0; i < n; i++) {
    const at = ids[i] * 3;
    const x = points[at];
    const y = points[at + 1];
    if (points[at + 2] > level) {
      volume += area * (points[at + 2] - level);
      level = points[at + 2];
    }
    let low = 0;
    let high = length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (xs[middle] <= x) low = middle + 1;
      else high = middle;
    }
    // Step low-1 is the last with an x no greater: if its y is no greater either, nothing is new.
    if (ys[low - 1] <= y) continue;
    let left = low;
    if (xs[left - 1] === x) left--;
    let right = left;
    // Strips between the steps that the new one covers.
    let top = ys[left - 1];
    let from = x;
    while (ys[right] >= y) {
      area += (xs[right] - from) * (top - y);
      top = ys[right];
      from = xs[right];
      right++;
    }
    area += (xs[right] - from) * (top - y);
    const shift = 1 - (right - left);
    if (shift !== 0) {
      xs.copyWithin(left + 1, right, length);
      ys.copyWithin(left + 1, right, length);
    }
    xs[left] = x;
    ys[left] = y;
    length += shift;
  }
  return volume + area * (reference[2] - level);
}
