import { expect, it } from 'vitest';
import {
  createStream,
  mannWhitney,
  median,
  quantile,
  radicalInverse,
  rankCorrelation,
  upperNormal,
} from '../../../src/numeric/index.ts';

it('mannWhitney() agrees with scipy.stats.mannwhitneyu 1.10.1, exact two-sided', () => {
  const first = mannWhitney([0.61, 0.64, 0.66, 0.7, 0.72], [0.55, 0.58, 0.6, 0.63, 0.65]);
  expect(first.U).toBe(22);
  expect(first.p).toBeCloseTo(0.05555556, 8);
  expect(first.A12).toBeCloseTo(0.88, 12);
  const second = mannWhitney([1, 2, 3, 4], [1.5, 2.5, 3.5, 4.5]);
  expect(second.U).toBe(6);
  expect(second.p).toBeCloseTo(0.6857143, 7);
  expect(second.A12).toBeCloseTo(0.375, 12);
});

it('mannWhitney() one-sided chances of U and of its mirror add up to 1 plus the point', () => {
  const a = [1, 4, 6, 9];
  const b = [2, 3, 5, 7, 8];
  const up = mannWhitney(a, b, 'greater').p;
  const down = mannWhitney(a, b, 'less').p;
  // 126 ways to choose 4 of 9 ranks; U = 10 = half of 20 has 12 of them (counted by hand in the
  // Gaussian binomial [9 choose 4]).
  expect(up + down).toBeCloseTo(1 + 12 / 126, 12);
  // All of a above all of b: 1 of 126 ways.
  expect(mannWhitney([10, 11, 12, 13], b, 'greater').p).toBeCloseTo(1 / 126, 12);
});

it('mannWhitney() by the normal approximation comes near the exact chance', () => {
  const stream = createStream('statistics', 'normal');
  const a = Array.from({ length: 60 }, () => stream.next() + 0.1);
  const b = Array.from({ length: 50 }, () => stream.next());
  const normal = mannWhitney(a, b, 'greater');
  expect(normal.isExact).toBe(false);
  const exact = mannWhitney(a.slice(0, 50), b, 'greater');
  expect(exact.isExact).toBe(true);
  // The same 50 by hand through the normal law with continuity correction.
  const z = (exact.U - 1250 - 0.5) / Math.sqrt((2500 * 101) / 12);
  expect(exact.p).toBeCloseTo(upperNormal(z), 2);
});

it('upperNormal() agrees with the tables of the normal distribution', () => {
  // Handbook values; the formula's published error bound is 7.5e-8.
  expect(Math.abs(upperNormal(1) - 0.1586552539)).toBeLessThan(7.5e-8);
  expect(Math.abs(upperNormal(2) - 0.0227501319)).toBeLessThan(7.5e-8);
  expect(Math.abs(upperNormal(-3) - (1 - 0.001349898))).toBeLessThan(7.5e-8);
});

it('rankCorrelation() with ties follows 1 - 6 sum d^2 / (n^3 - n) corrected for ties', () => {
  expect(rankCorrelation([1, 2, 3], [3, 2, 1])).toBe(-1);
  // Ranks of b: 1.5 1.5 3 4; worked by hand: covariance 4.5, squares 5 and 4.5.
  expect(rankCorrelation([1, 2, 3, 4], [5, 5, 6, 7])).toBeCloseTo(4.5 / Math.sqrt(22.5), 12);
});

it('quantile() and median() interpolate between neighbours', () => {
  expect(quantile([0, 10], 0.9)).toBeCloseTo(9, 12);
  expect(median([3, 1, 2, 10])).toBe(2.5);
  expect(() => quantile([], 0.5)).toThrow(RangeError);
});

it('createStream() gives streams that look independent for neighbouring keys', () => {
  const count = 4000;
  const a: number[] = [];
  const b: number[] = [];
  for (let i = 0; i < count; i++) {
    a.push(createStream('seed', `row/${i}`).next());
    b.push(createStream('seed', `row/${i + 1}`).next());
  }
  // 4 standard errors of a correlation between independent lists: 4 / sqrt(4000).
  expect(Math.abs(rankCorrelation(a, b))).toBeLessThan(0.064);
  // Mean 1/2 with standard error sqrt(1/12/4000) = 0.0046.
  expect(Math.abs(a.reduce((s, x) => s + x, 0) / count - 0.5)).toBeLessThan(0.0183);
});

it('radicalInverse() in bases 2 and 3 fills the square evenly', () => {
  // Of 1296 = 2^4 3^4 points every box 1/16 x 1/81 holds exactly one (Halton 1960).
  const boxes = new Set<number>();
  for (let i = 0; i < 1296; i++) {
    const u = Math.floor(radicalInverse(i, 2) * 16 + 1e-9);
    const v = Math.floor(radicalInverse(i, 3) * 81 + 1e-9);
    boxes.add(u * 81 + v);
  }
  expect(boxes.size).toBe(1296);
});
