/** Rows of genes in, readings out: the pure function every worker runs. */
import type { Brief } from '../brief/index.ts';
import { sampleDesign } from '../design/index.ts';
import type { Design, PlateSamples } from '../design/index.ts';
import { createGenome } from '../genome/index.ts';
import { createAssessment } from '../measures/index.ts';
import type { Assessment, Measure } from '../measures/index.ts';
import { readGoals } from './goals.ts';
import type { Evaluated, Form } from './ports.ts';

/** Samples per channel, both ends included. */
export const STATIONS: Readonly<Record<Form, number>> = { fast: 32, exact: 64, refined: 128 };

export interface Evaluator {
  /** Columns of `Evaluated.values` in this form. */
  columns(form: Form): readonly Measure[];
  evaluate(rows: Float64Array, count: number, form: Form): Evaluated;
}

/** @throws InputError when the brief names measures that do not exist. */
export function createEvaluator(brief: Brief): Evaluator {
  const genome = createGenome(brief);
  const goals = readGoals(brief);
  const columns = (form: Form): readonly Measure[] =>
    form === 'fast' ? goals.fastColumns : goals.allColumns;
  // Samples of the last row of each form: nothing keeps them, so the next row takes their memory
  // (experiments/bench/evaluate).
  const used: Partial<Record<Form, PlateSamples>> = {};
  return {
    columns,
    evaluate(rows, count, form) {
      const measures = columns(form);
      const values = new Float64Array(count * measures.length).fill(Number.NaN);
      const failures: (string | null)[] = [];
      const notes: (readonly string[])[] = [];
      const genes = rows.length / count;
      for (let i = 0; i < count; i++) {
        const decoded = genome.decode(rows, i * genes);
        if (!decoded.ok) {
          failures.push(decoded.reason);
          notes.push([]);
          continue;
        }
        const assessment = assessDesign(brief, decoded.design, form, used[form]);
        used[form] = assessment.samples;
        readMeasures(measures, assessment, values, i * measures.length);
        failures.push(null);
        notes.push(form === 'fast' ? [] : leftRanges(measures, assessment));
      }
      return { values, failures, notes };
    },
  };
}

/** @param reuse samples that nobody needs any more, whose memory may serve again. */
export function assessDesign(
  brief: Brief,
  design: Design,
  form: Form,
  reuse?: PlateSamples,
): Assessment {
  const samples = sampleDesign(design, STATIONS[form], reuse);
  return createAssessment(brief, design, samples, form !== 'fast');
}

/** Writes the reading of each measure; NaN where the brief or the design has none. */
export function readMeasures(
  measures: readonly Measure[],
  assessment: Assessment,
  out: Float64Array,
  at: number,
): void {
  for (let j = 0; j < measures.length; j++) {
    const measure = measures[j];
    const available = (measure.unavailable?.(assessment.brief) ?? null) === null;
    const reading = available ? measure.evaluate(assessment) : Number.NaN;
    out[at + j] = Number.isFinite(reading) ? reading : Number.NaN;
  }
}

/** One sentence for each range of validity that the design leaves. */
export function leftRanges(measures: readonly Measure[], assessment: Assessment): string[] {
  return measures.flatMap((measure) => {
    if ((measure.unavailable?.(assessment.brief) ?? null) !== null) return [];
    const why = measure.outside?.(assessment) ?? null;
    return why === null ? [] : [`${measure.id}: ${why}`];
  });
}
