/** One design, every measure: what `measure` shows and what a read-back export must reproduce. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { flowAnalysis, printAnalysis } from '../measures/index.ts';
import { planBatch } from '../print/index.ts';
import type { BatchPlan } from '../print/index.ts';
import type { Assessment, Corrected } from '../measures/index.ts';
import { cubicMetresPerHour } from '../numeric/index.ts';
import { assessDesign, leftRanges, readMeasures } from './evaluator.ts';
import { measureInfo } from './front.ts';
import { limitMargins, readGoals } from './goals.ts';
import type { LimitMargin, MeasureInfo, Reading } from './model.ts';

/** The air in all channels of one shape, at the design flow. */
export interface Stream {
  /** Channels of this shape. */
  readonly channels: number;
  /** Of one channel. */
  readonly flow_m3_per_h: number;
  /** Mean over the inlet port, and over the narrowest place. */
  readonly velocity_m_per_s: number;
  readonly peakVelocity_m_per_s: number;
  /** Mean along the channel, on the hydraulic diameter. */
  readonly reynolds: number;
  /** What computed flows say of its estimate, in a brief with a correction that applies. */
  readonly correction?: Corrected;
}

export interface Measured {
  /** One entry per distinct channel shape, in the order of the design. */
  readonly streams: readonly Stream[];
  /** What 1, 100 and 10 000 plates take. */
  readonly batches: readonly BatchPlan[];
  readonly measures: readonly MeasureInfo[];
  /** Exact readings in the order of `measures`. */
  readonly readings: readonly Reading[];
  readonly limits: readonly LimitMargin[];
  readonly outside: readonly string[];
}

/** Batch sizes that are always shown. */
const BATCHES = [1, 100, 10_000];

/** @throws InputError when the brief names measures it cannot have. */
export function measure(brief: Brief, design: Design): Measured {
  const goals = readGoals(brief);
  const assessment = assessDesign(brief, design, 'exact');
  const values = new Float64Array(goals.allColumns.length);
  readMeasures(goals.allColumns, assessment, values, 0);
  return {
    streams: streamsOf(assessment),
    batches: BATCHES.map((parts) =>
      planBatch(
        assessment.get(printAnalysis),
        assessment.samples.plate,
        brief.process,
        brief.batch,
        parts,
      ),
    ),
    measures: goals.allColumns.map((entry) => measureInfo(entry, brief)),
    readings: Array.from(values, (value) => (Number.isNaN(value) ? null : value)),
    limits: limitMargins(goals, values),
    outside: leftRanges(goals.allColumns, assessment),
  };
}

function streamsOf(assessment: Assessment): Stream[] {
  const flow = assessment.get(flowAnalysis);
  const { shapeCount, shapeOf } = assessment.samples;
  const channels = new Int32Array(shapeCount);
  for (const shape of shapeOf) channels[shape]++;
  return Array.from(channels, (count, shape) => ({
    channels: count,
    flow_m3_per_h: cubicMetresPerHour(flow.shapeFlow_m3_per_s[shape]),
    velocity_m_per_s: flow.shapeVelocity_m_per_s[shape],
    peakVelocity_m_per_s: flow.shapePeakVelocity_m_per_s[shape],
    reynolds: flow.shapeReynolds[shape],
    ...(flow.corrected === null ? {} : { correction: flow.corrected(shape) }),
  }));
}
