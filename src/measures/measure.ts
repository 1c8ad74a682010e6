/** What a measure is. One file per measure; `registry.ts` lists them. */
import type { Brief } from '../brief/index.ts';
import type { Assessment } from './assessment.ts';

/** Where a measure's equation comes from, in plain words. */
export type Standing = 'exact' | 'handbook' | 'heuristic' | 'common practice';

export interface Measure {
  /** Stable name with unit suffix, as used in briefs and front files. */
  readonly id: string;
  /** A few words for tables. */
  readonly label: string;
  /** Unit for people; '-' when dimensionless. */
  readonly unit: string;
  readonly better: 'lower' | 'higher';
  /** One sentence: what it means. */
  readonly meaning: string;
  /** Where it holds. */
  readonly validity: string;
  readonly source: string;
  readonly standing: Standing;
  /** Warning shown beside the number wherever it can hurt somebody. */
  readonly caution?: string;
  /** Why no design of this brief can have the measure (e.g. it needs a fan curve), or null. */
  unavailable?(brief: Brief): string | null;
  /**
   * The number itself. `assessment` computes shared analyses lazily and once, in the fast form
   * inside the search loop and in the exact form (`assessment.exact`) for archived designs.
   */
  evaluate(assessment: Assessment): number;
  /** Why this design lies outside `validity`, or null when it does not. */
  outside?(assessment: Assessment): string | null;
}
