/** Crowding distance of every front of a pool in one walk per objective. */
import type { RankSpace } from './ranking.ts';
import { sortByObjective } from './sorting.ts';

/**
 * Adds the crowding distance of each row within its front.
 *
 *   sum over objectives of (next value - previous value) / (greatest - least value of the front)
 *
 * The two ends of a front in each objective get Infinity; an objective in which a whole front is
 * equal adds nothing. Equal values are ordered as the rows are, so the result is the same every time.
 * All fronts are walked together along one sorted order, each remembering its last two rows: one sort
 * per objective in place of one per front.
 *
 * @param space holds `ids` in lexicographic order and `fronts` of each row.
 * @param crowding starts at 0 for the rows in `ids` [rows].
 * Source: Deb et al. 2002, IEEE TEC 6:182, section III-B.
 */
export function addCrowding(
  values: Float64Array,
  m: number,
  count: number,
  found: number,
  space: RankSpace,
  crowding: Float64Array,
): void {
  const { ids, order } = space;
  walkObjective(values, m, 0, ids, count, found, space, crowding);
  // In a front of two objectives the order of the second is that of the first, turned round.
  if (m === 2) {
    walkObjective(values, m, 1, ids, count, found, space, crowding);
    return;
  }
  for (let k = 1; k < m; k++) {
    for (let i = 0; i < count; i++) order[i] = ids[i];
    sortByObjective(space.sorting, values, m, k, order, 0, count);
    walkObjective(values, m, k, order, count, found, space, crowding);
  }
}

function walkObjective(
  values: Float64Array,
  m: number,
  k: number,
  order: Int32Array,
  count: number,
  found: number,
  space: RankSpace,
  crowding: Float64Array,
): void {
  const { fronts, first, previous, beforePrevious, scale } = space;
  for (let r = 0; r < found; r++) {
    first[r] = -1;
    previous[r] = -1;
    beforePrevious[r] = -1;
  }
  for (let i = 0; i < count; i++) {
    const id = order[i];
    const r = fronts[id];
    if (first[r] < 0) first[r] = id;
    previous[r] = id;
  }
  for (let r = 0; r < found; r++) {
    const range = Math.abs(values[previous[r] * m + k] - values[first[r] * m + k]);
    scale[r] = range > 0 ? 1 / range : 0;
    crowding[first[r]] = Number.POSITIVE_INFINITY;
    crowding[previous[r]] = Number.POSITIVE_INFINITY;
    previous[r] = -1;
  }
  for (let i = 0; i < count; i++) {
    const id = order[i];
    const r = fronts[id];
    const middle = previous[r];
    const before = beforePrevious[r];
    if (before >= 0) {
      crowding[middle] += Math.abs(values[id * m + k] - values[before * m + k]) * scale[r];
    }
    beforePrevious[r] = middle;
    previous[r] = id;
  }
}
