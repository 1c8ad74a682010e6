/** Bench calibration: readings of a printed coupon correct the parts of the pressure drop. */
import { FACTOR_MAX, FACTOR_MIN, InputError, LOSS_PARTS, fault } from '../brief/index.ts';
import type { Brief, Calibration, Fault, LossPart } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { flowAnalysis } from '../measures/index.ts';
import { fitRidge, student95 } from '../numeric/index.ts';
import type { RidgeFit } from '../numeric/index.ts';
import { assessDesign } from './evaluator.ts';

/** One reading at the bench. */
export interface BenchReading {
  readonly flow_m3_per_h: number;
  /** Total pressure before the coupon minus ambient pressure behind it. */
  readonly pressure_Pa: number;
}

export interface CalibrateOptions {
  /** What was measured, to be cited by later runs. */
  readonly source: string;
  /** Standard deviation of a reading: this share of it and this many pascals, added in squares. */
  readonly noiseShare: number;
  readonly noise_Pa: number;
}

export const CALIBRATE_DEFAULTS = { noiseShare: 0.03, noise_Pa: 0.5 } as const;

export interface CalibratedReading extends BenchReading {
  readonly estimated_Pa: number;
  readonly calibrated_Pa: number;
}

export interface PartReport {
  readonly part: LossPart;
  /** Greatest share of the estimated pressure drop over the readings [0..1]. */
  readonly share: number;
  /** How much of the prior doubt the readings took away [0..1]; near 0 the factor is a guess still. */
  readonly learnt: number;
  readonly atBound: boolean;
}

export interface Calibrated {
  readonly calibration: Calibration;
  readonly readings: readonly CalibratedReading[];
  readonly parts: readonly PartReport[];
  /** Above 1: readings scatter, or bend away from the model, by so much more than their noise. */
  readonly noiseFactor: number;
}

/**
 * How far each part of an uncalibrated estimate may be off, as a standard deviation. Own judgement:
 * straight bores agree with an independent flow solver within some 5 %, bends within some 15 %, widening
 * bores with handbooks within some 30 %; a printed wall adds to all of them.
 */
const DOUBT: Readonly<Record<LossPart, number>> = {
  friction: 0.2,
  ends: 0.15,
  curvature: 0.35,
  areaChanges: 0.4,
};

/** The parts depend on the flow split, which depends on the factors: a few rounds settle it. */
const ROUNDS = 4;
const FEWEST = 3;

/**
 * Fits the factors of friction, ends, bends and area changes to readings, by regularised, bounded least
 * squares about 1 (`fitRidge`), so that a part on which the coupon says nothing stays at 1.
 *
 * @param brief conditions at the bench: air, and the process the coupon was printed with. A calibration
 *   or correction that it carries already is left aside.
 * @param design the coupon.
 * @throws InputError when readings are too few or not positive.
 */
export function calibrate(
  brief: Brief,
  design: Design,
  readings: readonly BenchReading[],
  options: CalibrateOptions,
): Calibrated {
  checkReadings(readings);
  const n = readings.length;
  const p = LOSS_PARTS.length;
  const problem = {
    model: new Float64Array(n * p),
    observed: Float64Array.from(readings, (reading) => reading.pressure_Pa),
    noise: new Float64Array(n),
    prior: new Float64Array(p).fill(1),
    spread: Float64Array.from(LOSS_PARTS, (part) => DOUBT[part]),
    lower: new Float64Array(p).fill(FACTOR_MIN),
    upper: new Float64Array(p).fill(FACTOR_MAX),
  };
  let factors: Float64Array = problem.prior.slice();
  let fit: RidgeFit | null = null;
  const first = new Float64Array(n * p);
  for (let round = 0; round < ROUNDS; round++) {
    readings.forEach(({ flow_m3_per_h }, i) => {
      problem.model.set(plateParts(brief, design, flow_m3_per_h, factors), i * p);
    });
    if (round === 0) {
      first.set(problem.model);
      readings.forEach(({ pressure_Pa }, i) => {
        // By the smaller of the two: readings far above the estimate must not drown it in scatter.
        const share = options.noiseShare * Math.min(pressure_Pa, rowSum(first, i, null));
        problem.noise[i] = Math.sqrt(share * share + options.noise_Pa * options.noise_Pa);
      });
    }
    fit = fitRidge(problem);
    factors = fit.values;
  }
  if (fit === null) throw new Error('No round was made.');
  const width = student95(Math.max(1, n - p));
  const calibration = { source: options.source, ...factorsOf(fit, width) };
  return {
    calibration,
    readings: readings.map((reading, i) => ({
      ...reading,
      estimated_Pa: rowSum(first, i, null),
      calibrated_Pa: rowSum(problem.model, i, factors),
    })),
    parts: LOSS_PARTS.map((part, j) => {
      const left = fit.spread[j] / DOUBT[part];
      const shares = readings.map((_, i) => first[i * p + j] / rowSum(first, i, null));
      return {
        part,
        share: Math.max(...shares),
        learnt: Math.max(0, 1 - left * left),
        atBound: fit.atBound[j],
      };
    }),
    noiseFactor: fit.noiseFactor,
  };
}

function checkReadings(readings: readonly BenchReading[]): void {
  const faults: Fault[] = [];
  if (readings.length < FEWEST) {
    const remedy = 'Measure at several flows over the range of use.';
    faults.push(fault('readings', String(readings.length), `number at least ${FEWEST}`, remedy));
  }
  readings.forEach((reading, i) => {
    for (const key of ['flow_m3_per_h', 'pressure_Pa'] as const) {
      if (reading[key] > 0) continue;
      const remedy = 'Leave readings at rest out.';
      faults.push(fault(`readings[${i}].${key}`, String(reading[key]), 'be above 0', remedy));
    }
  });
  if (faults.length > 0) throw new InputError(faults, 'calibrate');
}

/** Parts of a plate's pressure drop at a flow, each without its factor, weighted by flow [4]. */
function plateParts(
  brief: Brief,
  design: Design,
  flow_m3_per_h: number,
  factors: Float64Array,
): Float64Array {
  const calibration = factorsOf({ values: factors, spread: new Float64Array(factors.length) }, 0);
  const { correction: _correction, ...plain } = brief;
  const assessment = assessDesign(
    {
      ...plain,
      air: { ...brief.air, supply: { kind: 'flow', flow_m3_per_h } },
      calibration: { source: 'fit', ...calibration },
    },
    design,
    'exact',
  );
  const flow = assessment.get(flowAnalysis);
  const sums = new Float64Array(LOSS_PARTS.length);
  const breakdowns = Array.from(flow.shapeFlow_m3_per_s, (_, shape) => flow.breakdown(shape));
  for (const shape of assessment.samples.shapeOf) {
    const weight = flow.shapeFlow_m3_per_s[shape] / flow.designFlow_m3_per_s;
    const parts = breakdowns[shape];
    LOSS_PARTS.forEach((part, j) => {
      sums[j] += (weight * parts[`${part}_Pa`]) / factors[j];
    });
  }
  return sums;
}

function factorsOf(
  fit: Pick<RidgeFit, 'values' | 'spread'>,
  width: number,
): Record<LossPart, { value: number; low: number; high: number }> {
  const factor = (j: number): { value: number; low: number; high: number } => {
    const half = width * fit.spread[j];
    const value = fit.values[j];
    return { value, low: Math.max(0, value - half), high: Math.min(10, value + half) };
  };
  return { friction: factor(0), ends: factor(1), curvature: factor(2), areaChanges: factor(3) };
}

/** Sum of a row of parts, each times its factor where there are any. */
function rowSum(model: Float64Array, i: number, factors: Float64Array | null): number {
  let sum = 0;
  for (let j = 0; j < LOSS_PARTS.length; j++) {
    sum += model[i * LOSS_PARTS.length + j] * (factors?.[j] ?? 1);
  }
  return sum;
}
