/** What the engine remembers of each archived design beside the numbers the search ranks. */
import type { Goals } from './goals.ts';
import type { Evaluated } from './ports.ts';

export interface DesignRecord {
  /** Label of the starting design it is, or 'evolved'. */
  readonly origin: string;
  readonly genes: readonly number[];
  /** Exact readings in registry order; null where there is none. */
  readonly readings: readonly (number | null)[];
  /** Ranges of validity it leaves, one sentence each. */
  readonly notes: readonly string[];
}

export const EVOLVED = 'evolved';

/** Exact readings of row `i` of an evaluation, in registry order. */
export function readingsOf(goals: Goals, evaluated: Evaluated, i: number): (number | null)[] {
  const k = goals.allColumns.length;
  return Array.from(evaluated.values.subarray(i * k, (i + 1) * k), (value) =>
    Number.isNaN(value) ? null : value,
  );
}
