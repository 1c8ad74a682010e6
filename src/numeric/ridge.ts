/** Regularised, bounded least squares with intervals: few parameters, known priors. */
import { factorSymmetric } from './linear.ts';

export interface RidgeProblem {
  /** Model matrix, row-major [n x p]: observed = model x values. */
  readonly model: Float64Array;
  readonly observed: Float64Array;
  /** Standard deviation of each observation [n], > 0. */
  readonly noise: Float64Array;
  /** Expected value of each parameter and how far it may be off, as a standard deviation [p], > 0. */
  readonly prior: Float64Array;
  readonly spread: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

export interface RidgeFit {
  readonly values: Float64Array;
  /** Standard deviation of each parameter after the fit [p]. */
  readonly spread: Float64Array;
  /** Covariance of the parameters after the fit, whose diagonal is the square of `spread` [p x p]. */
  readonly covariance: Float64Array;
  /**
   * Factor by which the noise was raised so that the residuals are no greater than they should be;
   * 1 where they already are.
   */
  readonly noiseFactor: number;
  /** Parameters held at one of their bounds. */
  readonly atBound: readonly boolean[];
}

/**
 * Least squares with a normal prior and bounds:
 *
 *   minimise  sum(((A x - y)_i / noise_i)^2) + sum(((x - prior)_j / spread_j)^2),  lower <= x <= upper
 *
 * Parameters beyond a bound are held there and the rest solved again; a held one is let go when the
 * cost falls inwards (active set). The spread is that of the unbounded posterior,
 * sqrt(diag((A'WA + L)^-1)), with the noise raised where the residuals are greater than it says
 * (Birge ratio, never below 1); the prior's part is not raised.
 *
 * @throws RangeError when a size does not fit or a noise or spread is not positive.
 * @example fitRidge({ model: Float64Array.of(1, 1), observed: Float64Array.of(2, 4), noise: Float64Array.of(1, 1), prior: Float64Array.of(0), spread: Float64Array.of(1e6), lower: Float64Array.of(-9), upper: Float64Array.of(9) }).values[0] // 3
 * Source: Hoerl & Kennard 1970, Technometrics 12:55 (ridge regression); Birge 1932, Phys. Rev. 40:207
 * (ratio); both from memory.
 */
export function fitRidge(problem: RidgeProblem): RidgeFit {
  const { model, observed, noise, prior, spread, lower, upper } = problem;
  const n = observed.length;
  const p = prior.length;
  if (model.length !== n * p)
    throw new RangeError(`model has ${model.length} entries, not ${n * p}`);
  for (const value of [...noise, ...spread]) {
    if (!(value > 0)) throw new RangeError(`a noise or spread of ${value} is not positive`);
  }
  const normal = new Float64Array(p * p);
  const right = new Float64Array(p);
  accumulate(problem, 1, normal, right);
  const { values, atBound } = solveBounded(normal, right, prior, lower, upper);
  let chiSquare = 0;
  for (let i = 0; i < n; i++) {
    let residual = -observed[i];
    for (let j = 0; j < p; j++) residual += model[i * p + j] * values[j];
    chiSquare += (residual / noise[i]) * (residual / noise[i]);
  }
  // Parameters that the prior decides cost no degree of freedom; counting all of them is cautious.
  const free = Math.max(1, n - p);
  const noiseFactor = Math.max(1, Math.sqrt(chiSquare / free));
  const widened = new Float64Array(p * p);
  accumulate(problem, noiseFactor, widened, new Float64Array(p));
  const system = factorSymmetric(widened, p);
  const covariance = new Float64Array(p * p);
  const after = Float64Array.from({ length: p }, (_, j) => {
    const unit = new Float64Array(p);
    unit[j] = 1;
    const row = system.solve(unit);
    covariance.set(row, j * p);
    return Math.sqrt(row[j]);
  });
  return { values, spread: after, covariance, noiseFactor, atBound };
}

/** Normal equations of data and prior. */
function accumulate(
  { model, observed, noise, prior, spread }: RidgeProblem,
  noiseFactor: number,
  normal: Float64Array,
  right: Float64Array,
): void {
  const p = prior.length;
  for (let i = 0; i < observed.length; i++) {
    const weight = 1 / (noise[i] * noise[i] * noiseFactor * noiseFactor);
    for (let j = 0; j < p; j++) {
      right[j] += weight * (model[i * p + j] * observed[i]);
      // The product first: it is the same to the last bit in both triangles.
      for (let k = 0; k < p; k++) {
        normal[j * p + k] += weight * (model[i * p + j] * model[i * p + k]);
      }
    }
  }
  for (let j = 0; j < p; j++) {
    const weight = 1 / (spread[j] * spread[j]);
    normal[j * p + j] += weight;
    right[j] += weight * prior[j];
  }
}

/** Each round holds or lets go one parameter; the cost falls each time, so it ends. */
const MOST_ROUNDS = 100;

function solveBounded(
  normal: Float64Array,
  right: Float64Array,
  start: Float64Array,
  lower: Float64Array,
  upper: Float64Array,
): { values: Float64Array; atBound: boolean[] } {
  const p = right.length;
  const atBound = Array.from({ length: p }, () => false);
  const values = start.map((value, j) => Math.min(upper[j], Math.max(lower[j], value)));
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const free = Array.from({ length: p }, (_, j) => j).filter((j) => !atBound[j]);
    const target = solveFree(normal, right, values, free);
    // Go towards the solution as far as the bounds allow.
    let step = 1;
    let hit = -1;
    free.forEach((j, k) => {
      const change = target[k] - values[j];
      const room = change > 0 ? upper[j] - values[j] : lower[j] - values[j];
      if (change !== 0 && room / change < step) {
        step = Math.max(0, room / change);
        hit = j;
      }
    });
    free.forEach((j, k) => (values[j] += step * (target[k] - values[j])));
    if (hit >= 0) {
      atBound[hit] = true;
      continue;
    }
    const released = mostEager(normal, right, values, atBound, lower);
    if (released < 0) return { values, atBound };
    atBound[released] = false;
  }
  throw new Error('The bounded fit went round in circles.');
}

/** Solution for the free parameters with the others held. */
function solveFree(
  normal: Float64Array,
  right: Float64Array,
  values: Float64Array,
  free: readonly number[],
): Float64Array {
  const p = right.length;
  const size = free.length;
  if (size === 0) return new Float64Array(0);
  const part = new Float64Array(size * size);
  const side = new Float64Array(size);
  free.forEach((j, a) => {
    side[a] = right[j];
    for (let k = 0; k < p; k++) {
      const b = free.indexOf(k);
      if (b >= 0) part[a * size + b] = normal[j * p + k];
      else side[a] -= normal[j * p + k] * values[k];
    }
  });
  return factorSymmetric(part, size).solve(side);
}

/** The held parameter whose cost falls most steeply inwards; -1 when none does. */
function mostEager(
  normal: Float64Array,
  right: Float64Array,
  values: Float64Array,
  atBound: readonly boolean[],
  lower: Float64Array,
): number {
  const p = right.length;
  let best = -1;
  let steepest = 1e-12;
  for (let j = 0; j < p; j++) {
    if (!atBound[j]) continue;
    let slope = -right[j];
    for (let k = 0; k < p; k++) slope += normal[j * p + k] * values[k];
    const inwards = (values[j] === lower[j] ? -slope : slope) / normal[j * p + j];
    if (inwards > steepest) {
      steepest = inwards;
      best = j;
    }
  }
  return best;
}
