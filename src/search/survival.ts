/** Takes scores into the pool and keeps the better half. */
import { thinFront } from './coverage.ts';
import { rankPool } from './ranking.ts';
import { usesCoverage } from './settings.ts';
import { sortByKeys } from './sorting.ts';
import type { Pool, Scores, SearchState } from './state.ts';

/**
 * Copies the scores of n rows to pool rows from `offset` on. Whatever is not finite, a negative
 * violation too, makes its row a failure: it never enters the ranking.
 */
export function takeScores(
  pool: Pool,
  m: number,
  c: number,
  offset: number,
  n: number,
  scores: Scores,
): void {
  for (let i = 0; i < n; i++) {
    let failed = scores.failed[i] !== 0;
    let violation = 0;
    for (let k = 0; k < c; k++) {
      const v = scores.violations[i * c + k];
      if (!(v >= 0)) failed = true;
      violation += v;
    }
    if (!(violation < Number.POSITIVE_INFINITY)) failed = true;
    const row = offset + i;
    for (let k = 0; k < m; k++) {
      const v = scores.values[i * m + k];
      // v - v is 0 for every finite number and NaN for the rest; + 0 turns -0 into 0.
      if (v - v !== 0) failed = true;
      pool.values[row * m + k] = v + 0;
    }
    pool.violation[row] = violation;
    pool.failed[row] = failed ? 1 : 0;
    if (failed) {
      pool.values.fill(0, row * m, (row + 1) * m);
      pool.violation[row] = 0;
    }
  }
}

/** Ranks the first population, of which all rows live on. */
export function rankFirst(state: SearchState): void {
  chooseHalf(state, state.settings.population);
}

/** Ranks all 2N rows, keeps N of them by rank and then by diversity, and moves them to the front. */
export function surviveHalf(state: SearchState): void {
  const { settings, work } = state;
  const n = settings.population;
  chooseHalf(state, 2 * n);
  let hole = 0;
  for (let i = n; i < 2 * n; i++) {
    if (work.kept[i] === 0) continue;
    while (work.kept[hole] === 1) hole++;
    moveRow(state, i, hole);
    hole++;
  }
}

/** Marks N of `rows` rows: whole ranks while they fit, then the most diverse of the next rank. */
function chooseHalf(state: SearchState, rows: number): void {
  const { pool, settings, work } = state;
  const { population: n, objectives: m } = settings;
  const { ranking: space, kept } = work;
  const { rank, crowding, values } = pool;
  const covers = usesCoverage(settings);
  const ranks = rankPool(pool, m, rows, space, !covers);
  const sizes = space.first;
  sizes.fill(0, 0, ranks);
  for (let i = 0; i < rows; i++) sizes[rank[i]]++;
  let room = n;
  let split = 0;
  for (; split < ranks && sizes[split] <= room; split++) {
    if (covers && sizes[split] > 1) {
      const size = gatherRank(rank, rows, split, space.ids);
      thinFront(values, m, space.ids, size, size, space.covers, space.sorting, crowding);
    }
    room -= sizes[split];
  }
  for (let i = 0; i < rows; i++) kept[i] = rank[i] < split ? 1 : 0;
  if (room === 0) return;
  const { ids, sorting } = space;
  const tied = gatherRank(rank, rows, split, ids);
  if (covers) thinFront(values, m, ids, tied, room, space.covers, space.sorting, crowding);
  for (let i = 0; i < tied; i++) sorting.keys[i] = -crowding[ids[i]];
  sortByKeys(sorting, ids, 0, tied);
  for (let i = 0; i < room; i++) kept[ids[i]] = 1;
}

/** Writes the rows of one rank in row order; returns how many. */
function gatherRank(rank: Int32Array, rows: number, wanted: number, ids: Int32Array): number {
  let size = 0;
  for (let i = 0; i < rows; i++) if (rank[i] === wanted) ids[size++] = i;
  return size;
}

/** Moves a row of the pool with all that belongs to it. */
export function moveRow(state: SearchState, from: number, to: number): void {
  const { pool, space, settings, work } = state;
  const d = space.kinds.length;
  const m = settings.objectives;
  const { genes, values } = pool;
  for (let g = 0; g < d; g++) genes[to * d + g] = genes[from * d + g];
  for (let k = 0; k < m; k++) values[to * m + k] = values[from * m + k];
  pool.violation[to] = pool.violation[from];
  pool.failed[to] = pool.failed[from];
  pool.rank[to] = pool.rank[from];
  pool.crowding[to] = pool.crowding[from];
  work.twins.hashes[to] = work.twins.hashes[from];
}
