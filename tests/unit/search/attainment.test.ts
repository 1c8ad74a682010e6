import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { attainedCorners, timesOf } from '../../../src/search/index.ts';

/** Three runs drawn on squared paper; the surfaces below were read off by hand. */
const RUNS = [
  Float64Array.of(1, 8, 4, 4, 8, 1),
  Float64Array.of(2, 6, 5, 3, 9, 2),
  Float64Array.of(3, 7, 6, 5, 7, 2),
];

describe('attainedCorners()', () => {
  it.each([
    [1, [1, 8, 2, 6, 4, 4, 5, 3, 7, 2, 8, 1]],
    [2, [2, 8, 3, 7, 4, 6, 5, 4, 7, 3, 8, 2]],
    [3, [3, 8, 4, 7, 6, 5, 7, 4, 8, 3, 9, 2]],
  ])('gives what %i of three runs attain, as drawn by hand', (times, corners) => {
    expect([...attainedCorners(RUNS, times)]).toEqual(corners);
  });

  it('leaves out dominated and equal vectors', () => {
    const set = Float64Array.of(2, 2, 1, 3, 2, 2, 3, 3, 1, 4);
    expect([...attainedCorners([set], 1)]).toEqual([1, 3, 2, 2]);
  });

  it('is empty where too few sets hold a vector', () => {
    expect(attainedCorners([Float64Array.of(1, 1), new Float64Array(0)], 2)).toHaveLength(0);
  });

  it('agrees with counting, point by point of a grid', () => {
    const set = fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { maxLength: 6 });
    fc.assert(
      fc.property(fc.array(set, { minLength: 1, maxLength: 5 }), fc.nat(4), (sets, pick) => {
        const times = 1 + (pick % sets.length);
        const corners = attainedCorners(
          sets.map((rows) => Float64Array.from(rows.flat())),
          times,
        );
        for (let x = 0; x <= 7; x++) {
          for (let y = 0; y <= 7; y++) {
            const count = sets.filter((rows) => rows.some(([a, b]) => a <= x && b <= y)).length;
            let inside = false;
            for (let k = 0; k < corners.length; k += 2) {
              if (corners[k] <= x && corners[k + 1] <= y) inside = true;
            }
            expect(inside).toBe(count >= times);
          }
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it.each([0, 4, 1.5])('refuses %d times of three sets', (times) => {
    expect(() => attainedCorners(RUNS, times)).toThrow(
      `times is ${times}; it must be a whole number from 1 to 3.`,
    );
  });

  it('refuses what is not a number', () => {
    expect(() => attainedCorners([Float64Array.of(1, Number.NaN)], 1)).toThrow(
      'Vector 0 of set 0 is not a number.',
    );
  });
});

describe('timesOf()', () => {
  it.each([
    [0.25, 2, 1],
    [0.5, 2, 1],
    [0.75, 2, 2],
    [0.25, 4, 1],
    [0.5, 4, 2],
    [0.75, 4, 3],
    [0.5, 7, 4],
  ])('a share of %d of %i sets is %i', (share, sets, times) => {
    expect(timesOf(share, sets)).toBe(times);
  });
});
