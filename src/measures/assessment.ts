/**
 * One design under assessment: what every measure and analysis reads.
 * Analyses are computed on first use and kept, so a brief pays only for the measures it names.
 */
import type { Brief } from '../brief/index.ts';
import type { Design, PlateSamples } from '../design/index.ts';

/** A computation shared by several measures; `name` is for messages. */
export interface Analysis<T> {
  readonly name: string;
  run(assessment: Assessment): T;
}

export interface Assessment {
  readonly brief: Brief;
  readonly design: Design;
  readonly samples: PlateSamples;
  /** false: fast forms inside the search loop. true: exact forms for archived designs. */
  readonly exact: boolean;
  /** Result of an analysis, computed once. */
  get<T>(analysis: Analysis<T>): T;
}

export function createAssessment(
  brief: Brief,
  design: Design,
  samples: PlateSamples,
  exact: boolean,
): Assessment {
  const results = new Map<Analysis<unknown>, unknown>();
  const assessment: Assessment = {
    brief,
    design,
    samples,
    exact,
    get<T>(analysis: Analysis<T>): T {
      // The map stores under each analysis only what that analysis returned.
      if (results.has(analysis)) return results.get(analysis) as T;
      const result = analysis.run(assessment);
      results.set(analysis, result);
      return result;
    },
  };
  return assessment;
}
