/** Non-dominated sorting for one, two and three objectives: tails and staircases. */
import { isSameVector } from './sorting.ts';

/**
 * Fronts of rows with one or two objectives in lexicographic order.
 *
 * Among rows already seen, those of one front fall in the second objective, so a front dominates the
 * next row exactly when its last member does; these tails rise from front to front, and a binary
 * search over them finds the first front that does not dominate: O(n log n).
 *
 * @param ids rows in lexicographic order.
 * @param tails buffer of at least `count`.
 * @param fronts front of each row [rows], 0 = best; written at `ids[from..from+count)`.
 * @returns number of fronts.
 * Source: efficient non-dominated sort, Zhang et al. 2015, IEEE TEC 19:201; tails for two objectives as
 * in Jensen 2003, IEEE TEC 7:503.
 */
export function sortFrontsByTails(
  values: Float64Array,
  m: number,
  ids: Int32Array,
  count: number,
  tails: Float64Array,
  fronts: Int32Array,
): number {
  let found = 0;
  const last = m - 1;
  for (let i = 0; i < count; i++) {
    const id = ids[i];
    if (i > 0 && isSameVector(values, m, ids[i - 1], id)) {
      fronts[id] = fronts[ids[i - 1]];
      continue;
    }
    const y = values[id * m + last];
    let low = 0;
    let high = found;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (tails[middle] <= y) low = middle + 1;
      else high = middle;
    }
    tails[low] = y;
    fronts[id] = low;
    if (low === found) found++;
  }
  return found;
}

/** One staircase per front; each grows as needed and is kept for the next generation. */
export interface Staircases {
  readonly second: Float64Array[];
  readonly third: Float64Array[];
  readonly lengths: number[];
}

export function createStaircases(): Staircases {
  return { second: [], third: [], lengths: [] };
}

/**
 * Fronts of rows with three objectives in lexicographic order. The rows seen of one front leave a
 * staircase in the second and third objective; the next row is dominated by that front exactly when
 * the step at or before it is no higher. Binary search over fronts and within each staircase.
 *
 * @returns number of fronts; arguments as for `sortFrontsByTails`.
 */
export function sortFrontsByStaircases(
  values: Float64Array,
  ids: Int32Array,
  count: number,
  stairs: Staircases,
  fronts: Int32Array,
): number {
  let found = 0;
  for (let i = 0; i < count; i++) {
    const id = ids[i];
    if (i > 0 && isSameVector(values, 3, ids[i - 1], id)) {
      fronts[id] = fronts[ids[i - 1]];
      continue;
    }
    const y = values[id * 3 + 1];
    const z = values[id * 3 + 2];
    let low = 0;
    let high = found;
    while (low < high) {
      const middle = (low + high) >> 1;
      const at = stepsUpTo(stairs.second[middle], stairs.lengths[middle], y);
      if (at > 0 && stairs.third[middle][at - 1] <= z) low = middle + 1;
      else high = middle;
    }
    if (low === found) openStaircase(stairs, found++);
    addStep(stairs, low, y, z);
    fronts[id] = low;
  }
  return found;
}

/** How many steps lie at or before y; steps rise in y. */
function stepsUpTo(second: Float64Array, length: number, y: number): number {
  let low = 0;
  let high = length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (second[middle] <= y) low = middle + 1;
    else high = middle;
  }
  return low;
}

function openStaircase(stairs: Staircases, front: number): void {
  if (front === stairs.second.length) {
    stairs.second.push(new Float64Array(16));
    stairs.third.push(new Float64Array(16));
    stairs.lengths.push(0);
  }
  stairs.lengths[front] = 0;
}

/** Adds a step that no present step covers and drops those which it covers. */
function addStep(stairs: Staircases, front: number, y: number, z: number): void {
  let second = stairs.second[front];
  let third = stairs.third[front];
  const length = stairs.lengths[front];
  let from = stepsUpTo(second, length, y);
  // A step at the same y has a higher z, or it would cover the new one: it goes.
  if (from > 0 && second[from - 1] === y) from--;
  let to = from;
  while (to < length && third[to] >= z) to++;
  const grown = length + 1 - (to - from);
  if (grown > second.length) {
    second = grow(second);
    third = grow(third);
    stairs.second[front] = second;
    stairs.third[front] = third;
  }
  if (to === from) {
    for (let j = length; j > from; j--) {
      second[j] = second[j - 1];
      third[j] = third[j - 1];
    }
  } else if (to > from + 1) {
    const shift = to - from - 1;
    for (let j = to; j < length; j++) {
      second[j - shift] = second[j];
      third[j - shift] = third[j];
    }
  }
  second[from] = y;
  third[from] = z;
  stairs.lengths[front] = grown;
}

function grow(old: Float64Array): Float64Array {
  const wider = new Float64Array(old.length * 2);
  wider.set(old);
  return wider;
}
