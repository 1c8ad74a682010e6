/** The state of a search: settings, the population, and buffers that are not part of it. */
import { createExponent } from './roots.ts';
import type { Exponent } from './roots.ts';
import { createRankSpace } from './ranking.ts';
import type { RankedPool, RankSpace } from './ranking.ts';
import type { SearchSettings } from './settings.ts';
import type { GeneSpace } from './space.ts';
import { createTwinSpace } from './twins.ts';
import type { TwinSpace } from './twins.ts';

/** How the asked rows did. */
export interface Scores {
  /** Objectives, minimised [n x m]. */
  readonly values: Float64Array;
  /** How far each limit is broken, normalised; 0 = met [n x c]. */
  readonly violations: Float64Array;
  /** 1 where a row could not be scored [n]; a NaN or infinity in its scores counts as the same. */
  readonly failed: Uint8Array;
}

/**
 * A pool of 2N rows: the population in rows 0 .. N-1, the rows asked next in N .. 2N-1. Before the
 * first `tell` the population is empty and the starting rows wait in the second half.
 */
export interface Pool extends RankedPool {
  /** Genes [2N x d]. */
  readonly genes: Float64Array;
}

/** Buffers rebuilt from nothing when a state is unpacked. */
interface Workspace {
  readonly ranking: RankSpace;
  readonly twins: TwinSpace;
  readonly crossing: Exponent;
  readonly mutating: Exponent;
  readonly mutationProbability: number;
  /** Genes that are not fixed. */
  readonly free: Int32Array;
  /** Parents of the next generation in mating order [N or more]. */
  readonly mates: Int32Array;
  readonly kept: Uint8Array;
}

/** State of one deme. `ask` and `tell` change it in place. */
export interface SearchState {
  readonly space: GeneSpace;
  readonly settings: SearchSettings;
  /** Number of `tell` calls so far. */
  generation: number;
  /** Rows scored so far. */
  evaluations: number;
  /** Whether the second half of the pool holds the rows to score next. */
  asked: boolean;
  readonly pool: Pool;
  readonly work: Workspace;
}

/** An empty state with all its buffers. */
export function createState(space: GeneSpace, settings: SearchSettings): SearchState {
  const n = settings.population;
  const rows = 2 * n;
  const d = space.kinds.length;
  const genes = new Float64Array(rows * d);
  const free = Int32Array.from(space.kinds.keys()).filter((g) => space.lower[g] < space.upper[g]);
  return {
    space,
    settings,
    generation: 0,
    evaluations: 0,
    asked: false,
    pool: {
      genes,
      values: new Float64Array(rows * settings.objectives),
      violation: new Float64Array(rows),
      failed: new Uint8Array(rows),
      rank: new Int32Array(rows),
      crowding: new Float64Array(rows),
    },
    work: {
      ranking: createRankSpace(rows),
      twins: createTwinSpace(genes, rows),
      crossing: createExponent(settings.crossover.eta),
      mutating: createExponent(settings.mutation.eta),
      mutationProbability: settings.mutation.probability ?? 1 / Math.max(1, free.length),
      free,
      mates: new Int32Array(n + 4),
      kept: new Uint8Array(rows),
    },
  };
}
