import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitRidge, student95 } from '../../../src/numeric/index.ts';
import type { RidgeProblem } from '../../../src/numeric/index.ts';

/** A line through points with hardly any prior. */
function line(x: readonly number[], y: readonly number[], noise = 1e-3): RidgeProblem {
  return {
    model: Float64Array.from(x.flatMap((value) => [1, value])),
    observed: Float64Array.from(y),
    noise: new Float64Array(x.length).fill(noise),
    prior: new Float64Array(2),
    spread: new Float64Array(2).fill(1e6),
    lower: new Float64Array(2).fill(-1e9),
    upper: new Float64Array(2).fill(1e9),
  };
}

describe('fitRidge()', () => {
  it('without a prior is the ordinary least-squares line with its standard errors', () => {
    // Anscombe 1973, The American Statistician 27:17, first data set: intercept 3.0001, slope 0.5001;
    // standard errors 1.1247 and 0.1179 as published with the data set in statistics packages.
    const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
    const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
    const fit = fitRidge(line(x, y));
    expect(fit.values[0]).toBeCloseTo(3.0001, 3);
    expect(fit.values[1]).toBeCloseTo(0.5001, 3);
    expect(fit.spread[0]).toBeCloseTo(1.1247, 3);
    expect(fit.spread[1]).toBeCloseTo(0.1179, 3);
  });

  it('weighs one observation against the prior by their variances', () => {
    // Two normal estimates of one quantity: the precision-weighted mean, exactly.
    const fit = fitRidge({
      model: Float64Array.of(1),
      observed: Float64Array.of(3),
      noise: Float64Array.of(0.5),
      prior: Float64Array.of(1),
      spread: Float64Array.of(1),
      lower: Float64Array.of(0),
      upper: Float64Array.of(9),
    });
    expect(fit.values[0]).toBeCloseTo((3 * 4 + 1) / 5, 12);
    expect(fit.noiseFactor).toBe(1);
    expect(fit.spread[0]).toBeCloseTo(1 / Math.sqrt(5), 12);
  });

  it('keeps to the bounds and is no better anywhere inside them', () => {
    const value = fc.double({ min: -2, max: 2, noNaN: true });
    const problems = fc.array(fc.tuple(value, value, value), { minLength: 3, maxLength: 8 });
    fc.assert(
      fc.property(problems, fc.array(fc.tuple(value, value), { minLength: 5 }), (rows, others) => {
        const problem: RidgeProblem = {
          ...line([], []),
          model: Float64Array.from(rows.flatMap(([a, b]) => [a, b])),
          observed: Float64Array.from(rows, ([, , y]) => y),
          noise: new Float64Array(rows.length).fill(1),
          spread: new Float64Array(2).fill(2),
          lower: Float64Array.of(-0.3, 0.1),
          upper: Float64Array.of(0.4, 0.2),
        };
        const { values } = fitRidge(problem);
        const best = cost(problem, values);
        for (const j of [0, 1]) {
          expect(values[j]).toBeGreaterThanOrEqual(problem.lower[j]);
          expect(values[j]).toBeLessThanOrEqual(problem.upper[j]);
        }
        for (const other of others) {
          const inside = other.map((x, j) =>
            Math.min(problem.upper[j], Math.max(problem.lower[j], x)),
          );
          expect(cost(problem, Float64Array.from(inside))).toBeGreaterThanOrEqual(best - 1e-9);
        }
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});

/** Cost by its definition. */
function cost({ model, observed, noise, prior, spread }: RidgeProblem, x: Float64Array): number {
  let sum = 0;
  observed.forEach((y, i) => {
    const residual = model[2 * i] * x[0] + model[2 * i + 1] * x[1] - y;
    sum += (residual / noise[i]) * (residual / noise[i]);
  });
  x.forEach((value, j) => (sum += ((value - prior[j]) / spread[j]) ** 2));
  return sum;
}

describe('student95()', () => {
  it('is the tabulated quantile', () => {
    // Standard table of Student's t, two-sided 95 %.
    for (const [freedom, t] of [
      [1, 12.706],
      [5, 2.571],
      [10, 2.228],
      [12, 2.179],
      [20, 2.086],
      [60, 2.0],
      [120, 1.98],
    ]) {
      expect(Math.abs(student95(freedom) - t), `${freedom}`).toBeLessThan(6e-4);
    }
  });
});
