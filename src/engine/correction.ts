/** A correction of the pressure estimate, fitted to computed flows. */
import { CORRECTION_SIZE, FLOW_FEATURES, InputError, fault } from '../brief/index.ts';
import type { Correction, FlowFeature } from '../brief/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { fitVariance } from '../measures/index.ts';
import { fitRidge, log, student95 } from '../numeric/index.ts';
import type { RidgeFit } from '../numeric/index.ts';

/** What the correction made of one computed flow. */
export interface CorrectedCase {
  readonly entry: VerifyCase;
  /** Computed over estimated. */
  readonly ratio: number;
  /** The same as the correction has it, and as fitted without this flow's design. */
  readonly fitted: number;
  readonly leftOut: number;
}

export interface FittedCorrection {
  readonly correction: Correction;
  readonly cases: readonly CorrectedCase[];
  /** Flows left aside because they did not come to rest. */
  readonly unsteady: number;
  /** How far a coefficient may be from 0 beforehand, chosen by what it predicts of designs left out. */
  readonly spread: number;
}

/** Fewest flows and designs from which anything can be said. */
const FEWEST_CASES = 4;
const FEWEST_DESIGNS = 2;

/**
 * How far a standardised coefficient may be from 0, as a standard deviation: the strength of the ridge
 * is chosen among these. Own choice: 0.3 lets one feature double an estimate over its range; 0.005 is
 * next to no correction, which is best where designs have little in common.
 */
const SPREADS = [0.005, 0.01, 0.02, 0.05, 0.12, 0.3];
/** The same for the mean, in times that of a coefficient, and at most. */
const MEAN_SPREAD = { times: 6, most: 0.3 } as const;
/** Least doubt of a computed flow, relative: the outlet's share that all of them have in common. */
const LEAST_DOUBT = 0.02;
/** A coefficient may not let a channel's pressure fall with its flow. */
const LEAST_SLOPE = -0.7;

interface Sample {
  readonly entry: VerifyCase;
  /** ln(computed / estimate), and how far it may be off. */
  readonly value: number;
  readonly noise: number;
}

/**
 * Fits ln(computed / estimate) by ridge regression on standardised features (`fitRidge`), the strength
 * by the error over designs left out.
 *
 * @param flows computed flows of any designs; those that did not come to rest are left aside.
 * @param source what was computed, for later runs to cite.
 * @throws InputError when there are too few.
 */
export function fitCorrection(flows: readonly VerifyCase[], source: string): FittedCorrection {
  const steady = flows.filter(
    ({ trust, pressureDrop_Pa, estimate_Pa }) =>
      trust !== 'neither' && pressureDrop_Pa > 0 && estimate_Pa > 0,
  );
  const samples = steady.map((entry): Sample => ({
    entry,
    value: log(entry.pressureDrop_Pa / entry.estimate_Pa),
    noise: Math.max(LEAST_DOUBT, entry.uncertainty_Pa / entry.pressureDrop_Pa),
  }));
  const designs = [...new Set(samples.map(({ entry }) => entry.digest))];
  refuseTooFew(samples.length, designs.length);
  const features = rangesOf(samples);
  const rows = samples.map(({ entry }) => rowOf(entry, features));
  const errorAt = (spread: number): number => rms(designErrors(samples, rows, designs, spread));
  const spread = SPREADS.reduce((best, one) => (errorAt(one) < errorAt(best) ? one : best));
  const fit = fitRows(samples, rows, spread);
  const byDesign = designErrors(samples, rows, designs, spread);
  const byCase = samples.map((_, i) => errorWithout(samples, rows, [i], spread)[0]);
  const covariance = Array.from(fit.covariance);
  const correction: Correction = {
    source,
    cases: samples.length,
    designs: designs.length,
    coefficients: Array.from(fit.values),
    covariance,
    scatter: Math.min(3, rms(byDesign)),
    width: student95(designs.length - 1),
    leverage: Math.max(...rows.map((row) => fitVariance({ covariance }, row))),
    features,
    error: {
      before: rms(samples.map(({ value }) => value)),
      leftOut: rms(byCase),
      designLeftOut: rms(byDesign),
    },
  };
  refuseFalling(correction);
  return {
    correction,
    cases: samples.map(({ entry, value }, i) => ({
      entry,
      ratio: entry.pressureDrop_Pa / entry.estimate_Pa,
      fitted: predict(fit, rows[i]),
      leftOut: value - byDesign[i],
    })),
    unsteady: flows.length - steady.length,
    spread,
  };
}

function refuseTooFew(cases: number, designs: number): void {
  if (cases >= FEWEST_CASES && designs >= FEWEST_DESIGNS) return;
  const found = `${cases} at rest of ${designs} ${designs === 1 ? 'design' : 'designs'}`;
  const allowed = `number at least ${FEWEST_CASES} of ${FEWEST_DESIGNS} designs`;
  const remedy = 'Compute more: `anfract verify RUN ID...` or `anfract evolve --verify-front`.';
  throw new InputError([fault('computed flows', found, allowed, remedy)], 'correct');
}

/** @throws InputError when pressure would fall with rising flow somewhere within the ranges. */
function refuseFalling({ coefficients, features }: Correction): void {
  const slope = (name: FlowFeature): number =>
    coefficients[1 + FLOW_FEATURES.indexOf(name)] / features[name].scale;
  // Over ln Re the Dean feature rises by at most 1.
  const least = slope('reynolds') + Math.min(0, slope('dean'));
  if (least >= LEAST_SLOPE) return;
  const remedy = 'The flows contradict each other: compute them again on more --cells.';
  const allowed = `be at least ${LEAST_SLOPE}`;
  throw new InputError([fault('slope over ln Re', least.toFixed(2), allowed, remedy)], 'correct');
}

/** Deviation below which a feature counts as the same in all flows. */
const ALIKE = 0.01;

function rangesOf(samples: readonly Sample[]): Correction['features'] {
  const range = (name: FlowFeature): Correction['features'][FlowFeature] => {
    const values = samples.map(({ entry }) => entry.features[name]);
    const middle = values.reduce((sum, x) => sum + x, 0) / values.length;
    const deviation = rms(values.map((x) => x - middle));
    return {
      low: Math.min(...values),
      high: Math.max(...values),
      middle,
      scale: deviation < ALIKE ? 1 : deviation,
    };
  };
  return {
    reynolds: range('reynolds'),
    slenderness: range('slenderness'),
    turning: range('turning'),
    dean: range('dean'),
    areaChange: range('areaChange'),
    pockets: range('pockets'),
    openShare: range('openShare'),
  };
}

function rowOf({ features }: VerifyCase, ranges: Correction['features']): number[] {
  return [
    1,
    ...FLOW_FEATURES.map((name) => (features[name] - ranges[name].middle) / ranges[name].scale),
  ];
}

function fitRows(
  samples: readonly Sample[],
  rows: readonly (readonly number[])[],
  spread: number,
): RidgeFit {
  const size = CORRECTION_SIZE;
  const spreads = new Float64Array(size).fill(spread);
  spreads[0] = Math.min(MEAN_SPREAD.most, MEAN_SPREAD.times * spread);
  return fitRidge({
    model: Float64Array.from(rows.flat()),
    observed: Float64Array.from(samples, ({ value }) => value),
    noise: Float64Array.from(samples, ({ noise }) => noise),
    prior: new Float64Array(size),
    spread: spreads,
    lower: new Float64Array(size).fill(-10),
    upper: new Float64Array(size).fill(10),
  });
}

const predict = ({ values }: Pick<RidgeFit, 'values'>, row: readonly number[]): number =>
  row.reduce((sum, x, j) => sum + x * values[j], 0);

/** Errors of the flows at `out`, fitted without them. */
function errorWithout(
  samples: readonly Sample[],
  rows: readonly (readonly number[])[],
  out: readonly number[],
  spread: number,
): number[] {
  const kept = samples.map((_, i) => i).filter((i) => !out.includes(i));
  const fit = fitRows(
    kept.map((i) => samples[i]),
    kept.map((i) => rows[i]),
    spread,
  );
  return out.map((i) => samples[i].value - predict(fit, rows[i]));
}

/** Error of every flow, fitted without its design. */
function designErrors(
  samples: readonly Sample[],
  rows: readonly (readonly number[])[],
  designs: readonly string[],
  spread: number,
): number[] {
  const errors = samples.map(() => 0);
  for (const digest of designs) {
    const out = samples.flatMap(({ entry }, i) => (entry.digest === digest ? [i] : []));
    errorWithout(samples, rows, out, spread).forEach((error, k) => (errors[out[k]] = error));
  }
  return errors;
}

function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, x) => sum + x * x, 0) / values.length);
}
