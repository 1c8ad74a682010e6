/** Rank and crowding of a pool of rows under constrained domination. */
import { sortFrontsByStaircases, sortFrontsByTails, createStaircases } from './fronts-few.ts';
import type { Staircases } from './fronts-few.ts';
import { createBitSpace, sortFrontsByBits } from './fronts-many.ts';
import type { BitSpace } from './fronts-many.ts';
import { createCoverSpace } from './coverage.ts';
import type { CoverSpace } from './coverage.ts';
import { addCrowding } from './crowding.ts';
import { createSortSpace, sortByKeys, sortLexicographic } from './sorting.ts';
import type { SortSpace } from './sorting.ts';

/** Reused buffers for ranking up to `size` rows. */
export interface RankSpace {
  readonly sorting: SortSpace;
  readonly stairs: Staircases;
  readonly bits: BitSpace;
  readonly covers: CoverSpace;
  readonly ids: Int32Array;
  readonly group: Int32Array;
  readonly order: Int32Array;
  readonly behind: Int32Array;
  readonly tails: Float64Array;
  readonly fronts: Int32Array;
  readonly first: Int32Array;
  readonly previous: Int32Array;
  readonly beforePrevious: Int32Array;
  readonly scale: Float64Array;
}

export function createRankSpace(size: number): RankSpace {
  return {
    sorting: createSortSpace(size),
    stairs: createStaircases(),
    bits: createBitSpace(),
    covers: createCoverSpace(),
    ids: new Int32Array(size),
    group: new Int32Array(size),
    order: new Int32Array(size),
    behind: new Int32Array(size),
    tails: new Float64Array(size),
    fronts: new Int32Array(size),
    first: new Int32Array(size),
    previous: new Int32Array(size),
    beforePrevious: new Int32Array(size),
    scale: new Float64Array(size),
  };
}

/** A pool of scored rows and where their rank and crowding go. */
export interface RankedPool {
  /** Objectives, minimised [rows x m]. */
  readonly values: Float64Array;
  /** Sum of the violated limits [rows]; 0 = feasible. */
  readonly violation: Float64Array;
  /** 1 where a row could not be scored [rows]. */
  readonly failed: Uint8Array;
  /** Rank, 0 = best [rows]. */
  readonly rank: Int32Array;
  /** Crowding distance within the rank [rows]; Infinity at the ends. */
  readonly crowding: Float64Array;
}

/**
 * Ranks rows 0 .. count-1: feasible rows by domination, behind them infeasible rows by their total
 * violation (rows of equal violation among themselves by domination), failed rows last together.
 *
 * @param crowds whether to measure crowding; otherwise every crowding is Infinity, failures' 0.
 * @returns number of ranks.
 * Source: constrained domination of Deb et al. 2002, IEEE TEC 6:182.
 */
export function rankPool(
  pool: RankedPool,
  m: number,
  count: number,
  space: RankSpace,
  crowds = true,
): number {
  const { violation, failed, rank, crowding } = pool;
  const { group, behind, sorting } = space;
  let feasible = 0;
  let infeasible = 0;
  for (let i = 0; i < count; i++) {
    if (failed[i] === 0 && violation[i] === 0) group[feasible++] = i;
  }
  let ranks = feasible > 0 ? rankGroup(pool, m, feasible, 0, space, crowds) : 0;
  for (let i = 0; i < count; i++) {
    if (failed[i] === 0 && violation[i] !== 0) {
      behind[infeasible] = i;
      sorting.keys[infeasible++] = violation[i];
    }
  }
  sortByKeys(sorting, behind, 0, infeasible);
  let low = 0;
  while (low < infeasible) {
    const id = behind[low];
    let high = low + 1;
    while (high < infeasible && violation[behind[high]] === violation[id]) high++;
    if (high - low === 1) {
      rank[id] = ranks++;
      crowding[id] = Number.POSITIVE_INFINITY;
    } else {
      for (let i = low; i < high; i++) group[i - low] = behind[i];
      ranks = rankGroup(pool, m, high - low, ranks, space, crowds);
    }
    low = high;
  }
  let anyFailed = false;
  for (let i = 0; i < count; i++) {
    if (failed[i] === 0) continue;
    rank[i] = ranks;
    crowding[i] = 0;
    anyFailed = true;
  }
  return anyFailed ? ranks + 1 : ranks;
}

/** Ranks the rows in `space.group` by domination alone, from `firstRank` on; returns the next rank. */
function rankGroup(
  pool: RankedPool,
  m: number,
  count: number,
  firstRank: number,
  space: RankSpace,
  crowds: boolean,
): number {
  const { values, rank, crowding } = pool;
  const { ids, group, fronts } = space;
  for (let i = 0; i < count; i++) ids[i] = group[i];
  sortLexicographic(space.sorting, values, m, ids, 0, count);
  let found: number;
  if (m <= 2) {
    found = sortFrontsByTails(values, m, ids, count, space.tails, fronts);
  } else if (m === 3) {
    found = sortFrontsByStaircases(values, ids, count, space.stairs, fronts);
  } else {
    found = sortFrontsByBits(values, m, ids, count, space.sorting, space.bits, fronts);
  }
  const start = crowds ? 0 : Number.POSITIVE_INFINITY;
  for (let i = 0; i < count; i++) crowding[ids[i]] = start;
  if (crowds) addCrowding(values, m, count, found, space, crowding);
  for (let i = 0; i < count; i++) rank[ids[i]] = firstRank + fronts[ids[i]];
  return firstRank + found;
}
