import { describe, expect, it } from 'vitest';
import { createStream } from '../../../src/numeric/index.ts';
import { addedVolume, hasStalled, hypervolume } from '../../../src/search/index.ts';
import { SMALL_VOLUMES } from '../../reference/moo-tables.ts';

/** Oracle: inclusion and exclusion over all subsets of boxes, from the definition of a union. */
function unionOfBoxes(
  points: readonly (readonly number[])[],
  reference: readonly number[],
): number {
  let sum = 0;
  for (let subset = 1; subset < 1 << points.length; subset++) {
    const chosen = points.filter((_, i) => ((subset >> i) & 1) !== 0);
    const box = reference.map((r, k) => Math.max(0, r - Math.max(...chosen.map((p) => p[k]))));
    sum += (chosen.length % 2 === 1 ? 1 : -1) * box.reduce((a, b) => a * b, 1);
  }
  return sum;
}

function cloud(seed: string, n: number, m: number, levels: number): number[][] {
  const stream = createStream(seed);
  return Array.from({ length: n }, () =>
    Array.from({ length: m }, () => Math.floor(stream.next() * levels) / levels),
  );
}

describe('hypervolume()', () => {
  it.each(SMALL_VOLUMES)('is exact for the small set %j', (points, reference, volume) => {
    // Exact slicing by an independent program; values given to four or more digits.
    expect(
      hypervolume(Float64Array.from(points.flat()), points.length, reference.length, reference),
    ).toBeCloseTo(volume, 10);
  });

  it.each([1, 2, 3, 4, 5, 6])(
    'agrees with inclusion and exclusion of boxes in %i dimensions',
    (m) => {
      for (let trial = 0; trial < 40; trial++) {
        // Few levels make equal coordinates, equal points and points on the reference common.
        const points = cloud(`boxes/${m}/${trial}`, 9, m, trial % 2 === 0 ? 5 : 1e9);
        const reference = Array.from({ length: m }, () => 0.8);
        const found = hypervolume(Float64Array.from(points.flat()), points.length, m, reference);
        expect(found).toBeCloseTo(unionOfBoxes(points, reference), 12);
      }
    },
  );

  it.each([2, 3, 4])('adds nothing for points at or beyond the reference in %i dimensions', (m) => {
    const reference = Array.from({ length: m }, () => 1);
    const inside = Array.from({ length: m }, () => 0.5);
    const beyond = [2, ...inside.slice(1)];
    const at = [...inside.slice(1), 1];
    const set = Float64Array.from([...beyond, ...inside, ...at]);
    expect(hypervolume(set, 3, m, reference)).toBe(0.5 ** m);
    expect(hypervolume(Float64Array.from(beyond), 1, m, reference)).toBe(0);
  });

  it('is 0 for no points', () => {
    expect(hypervolume(new Float64Array(0), 0, 4, [1, 1, 1, 1])).toBe(0);
  });

  it('refuses what is not a number', () => {
    expect(() => hypervolume(Float64Array.of(0, Number.NaN), 1, 2, [1, 1])).toThrow(
      'points[1] is not a number',
    );
  });
});

describe('addedVolume()', () => {
  it.each([2, 3, 4, 5])('is the difference of two hypervolumes in %i dimensions', (m) => {
    const reference = Array.from({ length: m }, () => 1);
    const points = cloud(`added/${m}`, 30, m, 1e9);
    const set = Float64Array.from(points.flat());
    const others = set.subarray(m);
    const added = addedVolume(set.subarray(0, m), others, 29, m, reference);
    const difference = hypervolume(set, 30, m, reference) - hypervolume(others, 29, m, reference);
    expect(added).toBeCloseTo(difference, 12);
  });
});

describe('hasStalled()', () => {
  it('is true once the gain over the window stays below the share', () => {
    const history = [0.1, 0.5, 0.8, 0.80001, 0.80002, 0.80003];
    expect(hasStalled(history, 2)).toBe(true);
    expect(hasStalled(history, 4)).toBe(false);
  });

  it('is false while nothing feasible is known or the history is too short', () => {
    expect(hasStalled([0, 0, 0, 0, 0], 2)).toBe(false);
    expect(hasStalled([0.5, 0.5], 2)).toBe(false);
  });
});
