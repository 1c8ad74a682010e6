/** One design, every measure: what `measure` shows and what a read-back export must reproduce. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { assessDesign, leftRanges, readMeasures } from './evaluator.ts';
import { measureInfo } from './front.ts';
import { limitMargins, readGoals } from './goals.ts';
import type { LimitMargin, MeasureInfo, Reading } from './model.ts';

export interface Measured {
  readonly measures: readonly MeasureInfo[];
  /** Exact readings in the order of `measures`. */
  readonly readings: readonly Reading[];
  readonly limits: readonly LimitMargin[];
  readonly outside: readonly string[];
}

/** @throws InputError when the brief names measures it cannot have. */
export function measure(brief: Brief, design: Design): Measured {
  const goals = readGoals(brief);
  const assessment = assessDesign(brief, design, 'exact');
  const values = new Float64Array(goals.allColumns.length);
  readMeasures(goals.allColumns, assessment, values, 0);
  return {
    measures: goals.allColumns.map((entry) => measureInfo(entry, brief)),
    readings: Array.from(values, (value) => (Number.isNaN(value) ? null : value)),
    limits: limitMargins(goals, values),
    outside: leftRanges(goals.allColumns, assessment),
  };
}
