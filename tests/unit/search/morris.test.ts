import { describe, expect, it } from 'vitest';
import { createStream } from '../../../src/numeric/index.ts';
import { morrisEffects, walkSpace } from '../../../src/search/index.ts';
import type { GeneSpace } from '../../../src/search/index.ts';

function unitSpace(d: number): GeneSpace {
  return {
    kinds: new Uint8Array(d),
    lower: new Float64Array(d),
    upper: new Float64Array(d).fill(1),
  };
}

function effectsOf(space: GeneSpace, walks: number, f: (x: Float64Array) => number) {
  const d = space.kinds.length;
  const walked = walkSpace(space, walks, createStream('morris', String(d)));
  const values = Float64Array.from({ length: walks * (d + 1) }, (_, i) =>
    f(walked.rows.subarray(i * d, (i + 1) * d)),
  );
  return morrisEffects(walked, values);
}

describe('walkSpace()', () => {
  it('moves one gene at a time, each once a walk, inside the bounds', () => {
    const space = {
      kinds: Uint8Array.of(0, 1, 2),
      lower: Float64Array.of(-2, 3, 0),
      upper: Float64Array.of(5, 7, 2),
    };
    const { rows, moved } = walkSpace(space, 40, createStream('walk'));
    for (let i = 0; i < rows.length; i++) {
      expect(rows[i]).toBeGreaterThanOrEqual(space.lower[i % 3]);
      expect(rows[i]).toBeLessThanOrEqual(space.upper[i % 3]);
      if (i % 3 > 0) expect(Number.isInteger(rows[i])).toBe(true);
    }
    for (let w = 0; w < 40; w++) {
      expect([...moved.subarray(3 * w, 3 * w + 3)].toSorted((a, b) => a - b)).toEqual([0, 1, 2]);
      for (let k = 0; k < 3; k++) {
        const at = 3 * (4 * w + k);
        const changed = [0, 1, 2].filter((g) => rows[at + g] !== rows[at + 3 + g]);
        expect(changed.every((g) => g === moved[3 * w + k])).toBe(true);
      }
    }
  });
});

describe('morrisEffects()', () => {
  it('gives the coefficients of a linear function, without spread', () => {
    const { strength, mean, spread } = effectsOf(unitSpace(3), 20, (x) => 5 * x[0] - 2 * x[1]);
    expect([...strength].map((value) => Math.round(1e9 * value) / 1e9)).toEqual([5, 2, 0]);
    expect(mean[1]).toBeCloseTo(-2, 9);
    for (const value of spread) expect(value).toBeLessThan(1e-6);
  });

  it("finds the ten inputs that matter in Morris's own test function", () => {
    // Morris 1991, section 4: of 20 inputs the first ten matter, and 3, 5, 7 act through a curved
    // term. Coefficients that the paper draws at random are (-1)^i and (-1)^(i+j) here.
    const curved = new Set([2, 4, 6]);
    const f = (x: Float64Array): number => {
      const w = Array.from(x, (value, i) =>
        curved.has(i) ? 2 * ((1.1 * value) / (value + 0.1) - 0.5) : 2 * (value - 0.5),
      );
      let y = 0;
      for (let i = 0; i < 20; i++) {
        y += (i < 10 ? 20 : (-1) ** (i + 1)) * w[i];
        for (let j = i + 1; j < 20; j++) {
          y += (j < 6 ? -15 : (-1) ** (i + j + 2)) * w[i] * w[j];
          for (let k = j + 1; k < 5; k++) {
            y += -10 * w[i] * w[j] * w[k];
            for (let l = k + 1; l < 4; l++) y += 5 * w[i] * w[j] * w[k] * w[l];
          }
        }
      }
      return y;
    };
    const { strength, spread } = effectsOf(unitSpace(20), 60, f);
    const weakest = Math.min(...strength.subarray(0, 10));
    const strongest = Math.max(...strength.subarray(10));
    expect(weakest).toBeGreaterThan(2 * strongest);
    // The first six work together, 8 to 10 act nearly on their own.
    for (let i = 0; i < 6; i++) expect(spread[i]).toBeGreaterThan(2 * spread[8]);
  });

  it('leaves out moves to rows that could not be scored', () => {
    const { count, strength } = effectsOf(unitSpace(2), 30, (x) =>
      x[1] > 0.8 ? Number.NaN : x[0],
    );
    expect(count[0]).toBeLessThan(30);
    expect(strength[0]).toBeCloseTo(1, 9);
  });
});
