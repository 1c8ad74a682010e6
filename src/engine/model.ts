/** Plain data the engine hands out: progress events, checkpoints, the front. */
import type { Brief } from '../brief/index.ts';

/** A measured number; null where the brief or the design has none (`Front.measures` says when). */
export type Reading = number | null;

/** What a front file says of each measure, so that it can be read without the program. */
export interface MeasureInfo {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly better: 'lower' | 'higher';
  readonly meaning: string;
  readonly validity: string;
  readonly source: string;
  readonly standing: string;
  readonly caution?: string;
}

/** A limit as applied, and how far a design stays inside it (negative: broken). */
export interface LimitMargin {
  readonly measure: string;
  readonly bound: 'atMost' | 'atLeast';
  readonly value: number;
  readonly margin: number;
}

export interface FrontDesign {
  /** Stable within the front: d001, d002 ... in order of the first objective. */
  readonly id: string;
  /** Label of the starting design it is, or 'evolved'. */
  readonly origin: string;
  /** Gene values in the order of `Front.genes`. */
  readonly genes: readonly number[];
  /** Every measure of the registry in its exact form, in the order of `Front.measures`. */
  readonly readings: readonly Reading[];
  readonly limits: readonly LimitMargin[];
  /** Ranges of validity this design leaves, one sentence each. */
  readonly outside: readonly string[];
  /** Relative change of each reading when sampled twice as fine; null where it does not apply. */
  readonly refinedChange: readonly (number | null)[];
}

export interface GeneInfo {
  readonly name: string;
  readonly kind: 'real' | 'integer' | 'choice';
  readonly min: number;
  readonly max: number;
  /** Names of the options of a choice, in order of its values 0, 1, ... */
  readonly options?: readonly string[];
}

export interface Front {
  readonly format: 'anfract-front';
  readonly version: 1;
  /** Version of anfract that made it. */
  readonly anfract: string;
  readonly brief: Brief;
  readonly generation: number;
  readonly evaluations: number;
  readonly objectives: readonly string[];
  /** Hypervolume over normalised objectives and the bounds that normalise them. */
  readonly hypervolume: {
    readonly value: number;
    readonly ideal: readonly number[];
    readonly reference: readonly number[];
  };
  readonly genes: readonly GeneInfo[];
  readonly measures: readonly MeasureInfo[];
  readonly starts: readonly StartResult[];
  readonly designs: readonly FrontDesign[];
  /** When no design met every limit: the one that broke them least (d000); null otherwise. */
  readonly nearest: FrontDesign | null;
}

/** A labelled starting design, scored exactly: what the front is compared with. */
export interface StartResult {
  readonly label: string;
  readonly feasible: boolean;
  /** Why it could not be decoded, or null. */
  readonly failure: string | null;
  /** In the order of `Front.measures`; null where there is none. */
  readonly readings: readonly (number | null)[];
  /** Hypervolume of this design alone on the run's yardstick; 0 when not feasible. */
  readonly hypervolume: number;
}

/** One line of the history: the state after a generation. */
export interface HistoryEntry {
  readonly generation: number;
  readonly evaluations: number;
  readonly feasibleShare: number;
  readonly archived: number;
  readonly hypervolume: number;
  /** Best archived value of each objective, in people's sign. */
  readonly best: readonly (number | null)[];
}

/** Everything a run needs to go on as if it had never stopped; JSON-safe. */
export interface Checkpoint {
  readonly format: 'anfract-checkpoint';
  readonly version: 1;
  readonly anfract: string;
  readonly brief: Brief;
  /** Packed state of the search (plain JSON, made and read by the search room). */
  readonly search: unknown;
  /** Packed archive with exact scores (plain JSON, made and read by the engine). */
  readonly archive: unknown;
  readonly history: readonly HistoryEntry[];
}
