import { describe, expect, it } from 'vitest';
import { createStream } from '../../../src/numeric/index.ts';
import {
  createExponent,
  crossReals,
  crossRows,
  mutateReal,
  mutateRows,
  power,
  root,
  spread,
} from '../../../src/search/index.ts';
import type { GeneSpace } from '../../../src/search/index.ts';
import { CROSSINGS, MUTATIONS } from '../../reference/moo-tables.ts';

const MIXED: GeneSpace = {
  kinds: Uint8Array.of(0, 1, 2, 1, 0, 2),
  lower: Float64Array.of(-2, -3, 0, 5, 4, 0),
  upper: Float64Array.of(3, 4, 4, 5, 4, 1),
};

describe('simulated binary crossover', () => {
  it.each(CROSSINGS)(
    'crossReals() gives the worked bounded children of %f and %f at u %f',
    (x1, x2, u, eta, _free, bounded) => {
      const out = new Float64Array(2);
      crossReals(x1, x2, 0, 1, u, createExponent(eta), out);
      expect(out[0]).toBeCloseTo(bounded[0], 6);
      expect(out[1]).toBeCloseTo(bounded[1], 6);
    },
  );

  it.each(CROSSINGS)(
    'spread() gives the worked unbounded children of %f and %f at u %f',
    (x1, x2, u, eta, free) => {
      const half = 0.5 * spread(u, 2, createExponent(eta)) * (x2 - x1);
      expect(0.5 * (x1 + x2) - half).toBeCloseTo(free[0], 6);
      expect(0.5 * (x1 + x2) + half).toBeCloseTo(free[1], 6);
    },
  );

  it('crossReals() keeps the sum of the parents when both bounds are far', () => {
    const out = new Float64Array(2);
    for (const u of [0, 0.1, 0.5, 0.77, 0.999]) {
      crossReals(0.4, 0.41, 0, 1, u, createExponent(15), out);
      expect(out[0] + out[1]).toBeCloseTo(0.81, 14);
    }
  });

  it('crossRows() lets about half of the genes differ from their own parent before swapping', () => {
    const d = 2000;
    const space = {
      kinds: new Uint8Array(d),
      lower: new Float64Array(d),
      upper: new Float64Array(d).fill(1),
    };
    const pool = new Float64Array(4 * d);
    pool.fill(0.4, 0, d);
    pool.fill(0.6, d, 2 * d);
    crossRows(space, createExponent(15), createStream('half'), pool, 0, d, 2 * d, 3 * d);
    const changed = pool.subarray(2 * d, 3 * d).filter((x) => x !== 0.4).length;
    // Binomial(2000, 1/2): four standard deviations are 89.
    expect(Math.abs(changed - 1000)).toBeLessThan(90);
  });

  it('crossRows() exchanges choices and never makes a new one', () => {
    const d = 64;
    const space = {
      kinds: new Uint8Array(d).fill(2),
      lower: new Float64Array(d),
      upper: new Float64Array(d).fill(9),
    };
    const pool = new Float64Array(4 * d);
    pool.fill(2, 0, d);
    pool.fill(7, d, 2 * d);
    crossRows(space, createExponent(15), createStream('exchange'), pool, 0, d, 2 * d, 3 * d);
    for (let g = 0; g < d; g++) {
      expect([pool[2 * d + g], pool[3 * d + g]].toSorted((a, b) => a - b)).toEqual([2, 7]);
    }
    expect(pool.subarray(2 * d, 3 * d).some((x) => x === 7)).toBe(true);
  });
});

describe('polynomial mutation', () => {
  it.each(MUTATIONS)(
    'mutateReal() moves %f at u %f, eta %f to the worked value',
    (x, u, eta, child) => {
      expect(mutateReal(x, 0, 1, u, createExponent(eta))).toBeCloseTo(child, 7);
    },
  );

  it('mutateReal() reaches the bounds at the ends of u and no further', () => {
    expect(mutateReal(0.3, -1, 2, 0, createExponent(20))).toBeCloseTo(-1, 12);
    expect(mutateReal(0.3, -1, 2, 1, createExponent(20))).toBeCloseTo(2, 12);
  });

  it('mutateRows() keeps kinds and bounds, moves every mutated integer and choice, and leaves fixed genes', () => {
    const d = MIXED.kinds.length;
    const start = [0.5, -1, 3, 5, 4, 1];
    const pool = Float64Array.from({ length: 500 * d }, (_, i) => start[i % d]);
    mutateRows(MIXED, createExponent(20), 1, createStream('all'), pool, 0, 500);
    for (let i = 0; i < pool.length; i++) {
      const g = i % d;
      expect(pool[i]).toBeGreaterThanOrEqual(MIXED.lower[g]);
      expect(pool[i]).toBeLessThanOrEqual(MIXED.upper[g]);
      if (MIXED.kinds[g] !== 0) expect(Number.isInteger(pool[i])).toBe(true);
      if (g === 3 || g === 4) expect(pool[i]).toBe(start[g]);
      else expect(pool[i]).not.toBe(start[g]);
    }
  });

  it('mutateRows() resets a choice to each other option in equal shares', () => {
    const n = 4000;
    const space = { kinds: Uint8Array.of(2), lower: Float64Array.of(0), upper: Float64Array.of(4) };
    const pool = new Float64Array(n).fill(2);
    mutateRows(space, createExponent(20), 1, createStream('reset'), pool, 0, n);
    for (const option of [0, 1, 3, 4]) {
      // Binomial(4000, 1/4): four standard deviations are 110.
      expect(Math.abs(pool.filter((x) => x === option).length - 1000)).toBeLessThan(110);
    }
  });

  it('mutateRows() hits each gene with the stated chance, independently of its place', () => {
    const d = 7;
    const n = 20000;
    const space = {
      kinds: new Uint8Array(d),
      lower: new Float64Array(d),
      upper: new Float64Array(d).fill(1),
    };
    const pool = new Float64Array(n * d).fill(0.5);
    mutateRows(space, createExponent(20), 0.15, createStream('gaps'), pool, 0, n);
    for (let g = 0; g < d; g++) {
      let hits = 0;
      for (let i = 0; i < n; i++) if (pool[i * d + g] !== 0.5) hits++;
      // Binomial(20000, 0.15): mean 3000, four standard deviations are 202.
      expect(Math.abs(hits - 3000)).toBeLessThan(202);
    }
  });
});

describe('powers and roots', () => {
  it.each([0, 1, 2, 5, 14, 15, 20, 31, 2.5])('root() undoes power() for eta %f', (eta) => {
    const exponent = createExponent(eta);
    for (const x of [0, 1e-3, 0.2, 0.97, 1, 1.4]) {
      expect(root(power(x, exponent), exponent)).toBeCloseTo(x, 12);
    }
  });

  it.each([1, 2, 7, 15, 20])('power() is repeated multiplication for eta %i', (eta) => {
    let product = 1;
    for (let k = 0; k <= eta; k++) product *= 0.83;
    expect(power(0.83, createExponent(eta)) / product).toBeCloseTo(1, 13);
  });
});
