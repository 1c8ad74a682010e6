/** Sorting of row indices by number keys into reused buffers, and the lexicographic order of rows. */

/** Buffers for sorting up to `size` rows. */
export interface SortSpace {
  readonly keys: Float64Array;
  readonly spareKeys: Float64Array;
  readonly spareIds: Int32Array;
}

export function createSortSpace(size: number): SortSpace {
  return {
    keys: new Float64Array(size),
    spareKeys: new Float64Array(size),
    spareIds: new Int32Array(size),
  };
}

/** Runs of this length are sorted by insertion before merging begins. */
const RUN = 8;

/**
 * Sorts ids[from..to) by the keys of the same places, least first; equal keys keep their order.
 * Bottom-up merges that move key and id together: a comparison then reads neighbours in memory,
 * not values scattered over rows (compare `Array.sort` with a comparator: about ten times slower).
 */
export function sortByKeys(space: SortSpace, ids: Int32Array, from: number, to: number): void {
  const n = to - from;
  let keys = space.keys;
  insertRuns(keys, ids, from, to);
  if (n <= RUN) return;
  let sourceIds = ids;
  let targetKeys = space.spareKeys;
  let targetIds = space.spareIds;
  for (let width = RUN; width < n; width *= 2) {
    for (let low = from; low < to; low += 2 * width) {
      const middle = Math.min(low + width, to);
      const high = Math.min(low + 2 * width, to);
      mergeRuns(keys, sourceIds, targetKeys, targetIds, low, middle, high);
    }
    const k = keys;
    keys = targetKeys;
    targetKeys = k;
    const i = sourceIds;
    sourceIds = targetIds;
    targetIds = i;
  }
  if (sourceIds === ids) return;
  for (let i = from; i < to; i++) {
    ids[i] = sourceIds[i];
    space.keys[i] = keys[i];
  }
}

function insertRuns(keys: Float64Array, ids: Int32Array, from: number, to: number): void {
  for (let low = from; low < to; low += RUN) {
    const high = Math.min(low + RUN, to);
    for (let i = low + 1; i < high; i++) {
      const key = keys[i];
      const id = ids[i];
      let j = i - 1;
      while (j >= low && keys[j] > key) {
        keys[j + 1] = keys[j];
        ids[j + 1] = ids[j];
        j--;
      }
      keys[j + 1] = key;
      ids[j + 1] = id;
    }
  }
}

function mergeRuns(
  keys: Float64Array,
  ids: Int32Array,
  outKeys: Float64Array,
  outIds: Int32Array,
  low: number,
  middle: number,
  high: number,
): void {
  let i = low;
  let j = middle;
  let o = low;
  while (i < middle && j < high) {
    if (keys[i] <= keys[j]) {
      outKeys[o] = keys[i];
      outIds[o++] = ids[i++];
    } else {
      outKeys[o] = keys[j];
      outIds[o++] = ids[j++];
    }
  }
  while (i < middle) {
    outKeys[o] = keys[i];
    outIds[o++] = ids[i++];
  }
  while (j < high) {
    outKeys[o] = keys[j];
    outIds[o++] = ids[j++];
  }
}

/** Sorts ids[from..to) by objective k alone; equal values keep their order. */
export function sortByObjective(
  space: SortSpace,
  values: Float64Array,
  m: number,
  k: number,
  ids: Int32Array,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) space.keys[i] = values[ids[i] * m + k];
  sortByKeys(space, ids, from, to);
}

/**
 * Sorts ids[from..to) by their objective vectors, first objective first; equal vectors keep their
 * order. In this order no row dominates an earlier one.
 *
 * @param values objectives, row-major [rows x m].
 */
export function sortLexicographic(
  space: SortSpace,
  values: Float64Array,
  m: number,
  ids: Int32Array,
  from: number,
  to: number,
  objective = 0,
): void {
  sortByObjective(space, values, m, objective, ids, from, to);
  if (objective + 1 === m) return;
  let low = from;
  while (low < to) {
    const value = values[ids[low] * m + objective];
    let high = low + 1;
    while (high < to && values[ids[high] * m + objective] === value) high++;
    if (high - low > 1) sortLexicographic(space, values, m, ids, low, high, objective + 1);
    low = high;
  }
}

/** Whether rows a and b have the same objective vector. */
export function isSameVector(values: Float64Array, m: number, a: number, b: number): boolean {
  for (let k = 0; k < m; k++) if (values[a * m + k] !== values[b * m + k]) return false;
  return true;
}
