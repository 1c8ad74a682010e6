/** Pressure drop of a channel with the correction that computed flows taught. */
import { CORRECTION_SIZE, FLOW_FEATURES } from '../../brief/index.ts';
import type { Correction, FlowFeature } from '../../brief/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { exp, log } from '../../numeric/index.ts';
import type { BranchPressure, LossParts } from '../../physics/index.ts';
import { DEAN_UNIT, featuresAt, flowFeatures } from './flow-features.ts';

/** What a correction says of one channel at one flow. */
export interface Corrected {
  /** On the estimated pressure drop, and its 95 % interval. */
  readonly factor: number;
  readonly low: number;
  readonly high: number;
  /** Features beyond those of the computed flows, in words; the nearest of those stands in for them. */
  readonly outside: readonly string[];
}

export interface Corrector {
  /** ln of the factor and its slope over ln Re. @param out receives both. */
  at(shape: number, reynolds: number, out: Float64Array): void;
  explain(shape: number, reynolds: number): Corrected;
}

/** A correction never more than doubles or halves an estimate: beyond that one of the two is wrong. */
const MOST = log(2);
/** Share of a feature's range by which a channel may lie beyond it unflagged. */
const MARGIN = 0.02;
/** Variance of the fit over the greatest among the computed flows, above which a mix of features is new. */
const FAR = 1.5;

const REYNOLDS = FLOW_FEATURES.indexOf('reynolds');
const DEAN = FLOW_FEATURES.indexOf('dean');
const COUNT = CORRECTION_SIZE - 1;

/**
 * The correction for the shapes of a plate, or null for plates it knows nothing of: with ends in the
 * rim, a plenum, or teeth.
 *
 *   ln(computed / estimate) = b0 + sum b_j (x_j - middle_j) / scale_j
 *
 * each x_j held within the range of the computed flows, so that nothing is extrapolated.
 */
export function createCorrector(correction: Correction, samples: PlateSamples): Corrector | null {
  if (samples.sides !== null || samples.teeth !== null) return null;
  const { values, bend } = flowFeatures(samples);
  const ranges = FLOW_FEATURES.map((name) => correction.features[name]);
  const held = (j: number, x: number): number =>
    Math.min(ranges[j].high, Math.max(ranges[j].low, x));
  const standard = (j: number, x: number): number =>
    (held(j, x) - ranges[j].middle) / ranges[j].scale;
  const b = correction.coefficients;
  const fixed = new Float64Array(samples.shapeCount);
  for (let m = 0; m < fixed.length; m++) {
    let sum = b[0];
    for (let j = 0; j < COUNT; j++) {
      if (j !== REYNOLDS && j !== DEAN) sum += b[j + 1] * standard(j, values[m * COUNT + j]);
    }
    fixed[m] = sum;
  }
  const slopes = ranges.map((range, j) => b[j + 1] / range.scale);
  const isWithin = (j: number, x: number): boolean => x >= ranges[j].low && x <= ranges[j].high;
  return {
    at(shape, reynolds, out) {
      const x = log(reynolds / 1000);
      const dean = reynolds * bend[shape];
      const y = log(1 + dean / DEAN_UNIT);
      const value =
        fixed[shape] + b[REYNOLDS + 1] * standard(REYNOLDS, x) + b[DEAN + 1] * standard(DEAN, y);
      out[0] = Math.min(MOST, Math.max(-MOST, value));
      out[1] = 0;
      if (out[0] !== value) return;
      if (isWithin(REYNOLDS, x)) out[1] += slopes[REYNOLDS];
      if (isWithin(DEAN, y)) out[1] += (slopes[DEAN] * dean) / (DEAN_UNIT + dean);
    },
    explain(shape, reynolds) {
      const features = featuresAt(samples, shape, reynolds);
      const row = [1, ...FLOW_FEATURES.map((name, j) => standard(j, features[name]))];
      const out = new Float64Array(2);
      this.at(shape, reynolds, out);
      const variance = fitVariance(correction, row);
      const spread = Math.sqrt(variance + correction.scatter * correction.scatter);
      const half = Math.min(3, correction.width * spread);
      const outside = FLOW_FEATURES.flatMap((name, j) => beyond(name, features[name], ranges[j]));
      if (outside.length === 0 && variance > FAR * correction.leverage) {
        outside.push('its mix of features is far from all of them');
      }
      return { factor: exp(out[0]), low: exp(out[0] - half), high: exp(out[0] + half), outside };
    },
  };
}

/** What a correction says of each shape. @param reynolds at the inlet ports [M]. */
export function explainShapes(
  corrector: Corrector,
  reynolds: Float64Array,
): (shape: number) => Corrected {
  return (shape) => corrector.explain(shape, reynolds[shape]);
}

/** Variance of the fitted mean at a row of standardised features, x' C x. */
export function fitVariance(
  { covariance }: Pick<Correction, 'covariance'>,
  row: readonly number[],
): number {
  let sum = 0;
  for (let i = 0; i < CORRECTION_SIZE; i++) {
    for (let j = 0; j < CORRECTION_SIZE; j++) {
      sum += row[i] * covariance[i * CORRECTION_SIZE + j] * row[j];
    }
  }
  return Math.max(0, sum);
}

function beyond(
  name: FlowFeature,
  value: number,
  { low, high }: Correction['features'][FlowFeature],
): string[] {
  const margin = MARGIN * (high - low) + 1e-6;
  const words = FEATURE_WORDS[name];
  if (value < low - margin) return [`${words} ${told(name, value)}, below ${told(name, low)}`];
  if (value > high + margin) return [`${words} ${told(name, value)}, above ${told(name, high)}`];
  return [];
}

const FEATURE_WORDS: Readonly<Record<FlowFeature, string>> = {
  reynolds: 'Reynolds number',
  slenderness: 'length over bore',
  turning: 'half turns',
  dean: 'Dean number',
  areaChange: 'outlet over inlet area',
  pockets: "pockets' share",
  openShare: 'open share',
};

/** A feature as people know it: without its logarithm. */
function told(name: FlowFeature, value: number): string {
  const plain =
    name === 'reynolds'
      ? 1000 * exp(value)
      : name === 'dean'
        ? DEAN_UNIT * (exp(value) - 1)
        : name === 'slenderness' || name === 'areaChange'
          ? exp(value)
          : value;
  return String(Number(plain.toPrecision(3)));
}

/** All parts of a pressure drop times one factor. */
export function timesFactor(parts: LossParts, factor: number): LossParts {
  return {
    friction_Pa: parts.friction_Pa * factor,
    ends_Pa: parts.ends_Pa * factor,
    curvature_Pa: parts.curvature_Pa * factor,
    areaChanges_Pa: parts.areaChanges_Pa * factor,
  };
}

/**
 * The pressure of a branch with its correction; a branch is a shape here.
 *
 * @param reynoldsPerFlow Reynolds number at the inlet port per flow [s/m3], by shape.
 */
export function correctedPressure(
  ask: BranchPressure,
  corrector: Corrector | null,
  reynoldsPerFlow: (shape: number) => number,
): BranchPressure {
  if (corrector === null) return ask;
  const term = new Float64Array(2);
  return (shape, flow, out) => {
    ask(shape, flow, out);
    corrector.at(shape, reynoldsPerFlow(shape) * flow, term);
    const factor = exp(term[0]);
    out[1] = factor * (out[1] + out[0] * term[1]);
    out[0] *= factor;
  };
}
