/** What the engine asks of the outside: workers, a place for checkpoints, a clock, a way to stop. */
import type { Checkpoint } from './model.ts';

/**
 * How finely designs are scored. fast: inside the search loop, only the measures the brief names.
 * exact: every measure, for designs that may enter the archive. refined: exact at twice the
 * sampling, for the final front.
 */
export type Form = 'fast' | 'exact' | 'refined';

export interface EvaluateJob {
  /** Genes, row-major [count x d]. */
  readonly rows: Float64Array;
  readonly count: number;
  readonly form: Form;
}

export interface Evaluated {
  /** Readings, row-major [count x columns]; NaN where there is none. */
  readonly values: Float64Array;
  /** Why a row has no readings at all, or null [count]. */
  readonly failures: readonly (string | null)[];
  /** Ranges of validity each row leaves; empty in the fast form [count]. */
  readonly notes: readonly (readonly string[])[];
}

export interface Crew {
  readonly size: number;
  evaluate(job: EvaluateJob): Promise<Evaluated>;
}

export interface Ports {
  readonly crew: Crew;
  /** Stores a checkpoint; the run goes on when it is safe. */
  keep(checkpoint: Checkpoint): Promise<void>;
  /** Milliseconds on any steady clock; only differences are used. */
  now(): number;
  /** Asks the run to stop after the generation under way. */
  readonly signal: AbortSignal;
}
