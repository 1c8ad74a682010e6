import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createStream } from '../../src/numeric/index.ts';
import { createArchive, hypervolume, unpackArchive } from '../../src/search/index.ts';
import type { Archive } from '../../src/search/index.ts';

const RUNS = { seed: 20251125, numRuns: 120 };

function offer(archive: Archive, rows: readonly (readonly number[])[]): void {
  rows.forEach((f, i) => archive.insert(Float64Array.of(i), Float64Array.from(f), i));
}

function vectorsOf(archive: Archive, m: number): number[][] {
  const values = archive.values();
  return Array.from({ length: archive.size() }, (_, i) => [...values.subarray(i * m, (i + 1) * m)]);
}

const noWorse = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((x, k) => x <= b[k]);

/** Oracle: distinct vectors that no other vector is no worse than, in lexicographic order. */
function bestOf(rows: readonly (readonly number[])[]): (readonly number[])[] {
  const distinct = rows.filter(
    (a, i) => !rows.some((b, j) => j < i && noWorse(a, b) && noWorse(b, a)),
  );
  return distinct
    .filter((a) => !distinct.some((b) => b !== a && noWorse(b, a)))
    .toSorted((a, b) => a.map((x, k) => x - b[k]).find((x) => x !== 0) ?? 0);
}

const rowsOf = (m: number, coordinate: fc.Arbitrary<number>): fc.Arbitrary<number[][]> =>
  fc.array(fc.array(coordinate, { minLength: m, maxLength: m }), { minLength: 1, maxLength: 120 });

/** Points near a sphere octant that comes nearer as i grows: most are worth keeping for a while. */
function nearFront(seed: string, n: number, m: number): number[][] {
  const stream = createStream(seed);
  return Array.from({ length: n }, (_, i) => {
    const direction = Array.from({ length: m }, () => stream.next() + 1e-3);
    const length = Math.sqrt(direction.reduce((sum, x) => sum + x * x, 0));
    const radius = 1 + ((1 - i / n) * 0.5 + 0.05) * stream.next();
    return direction.map((x) => (radius * x) / length);
  });
}

describe.each([1, 2, 3, 5])('createArchive() with %i objectives', (m) => {
  const coordinates = fc.oneof(
    fc.integer({ min: 0, max: 6 }),
    fc.double({ min: 0, max: 6, noNaN: true }),
  );

  it('holds exactly the non-dominated rows while they fit, whatever their order', () => {
    fc.assert(
      fc.property(rowsOf(m, coordinates), (rows) => {
        const archive = createArchive({ capacity: 130, objectives: m, genes: 1 });
        offer(archive, rows);
        const expected = bestOf(rows);
        expect(vectorsOf(archive, m)).toEqual(expected);
        const backwards = createArchive({ capacity: 130, objectives: m, genes: 1 });
        offer(backwards, rows.toReversed());
        expect(vectorsOf(backwards, m)).toEqual(expected);
      }),
      RUNS,
    );
  });

  it('when full stays within capacity, non-dominated, and never loses the best of an objective', () => {
    fc.assert(
      fc.property(rowsOf(m, coordinates), fc.integer({ min: 5, max: 9 }), (rows, capacity) => {
        const archive = createArchive({ capacity, objectives: m, genes: 1 });
        const best = Array.from({ length: m }, () => Number.POSITIVE_INFINITY);
        rows.forEach((f, i) => {
          archive.insert(Float64Array.of(i), Float64Array.from(f), i);
          f.forEach((x, k) => (best[k] = Math.min(best[k], x)));
          const held = vectorsOf(archive, m);
          expect(held.length).toBeLessThanOrEqual(capacity);
          expect(held.every((a) => !held.some((b) => b !== a && noWorse(b, a)))).toBe(true);
          best.forEach((x, k) => expect(Math.min(...held.map((h) => h[k]))).toBe(x));
        });
      }),
      RUNS,
    );
  });

  it('goes on identically after packing at any point', () => {
    const rows = nearFront(`pack/${m}`, 300, m);
    const whole = createArchive({ capacity: 12, objectives: m, genes: 1 });
    offer(whole, rows);
    for (const cut of [0, 7, 40, 150]) {
      const part = createArchive({ capacity: 12, objectives: m, genes: 1 });
      rows
        .slice(0, cut)
        .forEach((f, i) => part.insert(Float64Array.of(i), Float64Array.from(f), i));
      const text = JSON.stringify(part.pack());
      const resumed = unpackArchive(JSON.parse(text));
      expect(JSON.stringify(resumed.pack())).toBe(text);
      rows
        .slice(cut)
        .forEach((f, i) => resumed.insert(Float64Array.of(cut + i), Float64Array.from(f), cut + i));
      expect(JSON.stringify(resumed.pack())).toBe(JSON.stringify(whole.pack()));
    }
  });
});

describe.each([2, 3, 4, 5])('a full archive with %i objectives', (m) => {
  it('never loses hypervolume unless a new best of an objective comes in', () => {
    const archive = createArchive({ capacity: 15, objectives: m, genes: 1 });
    const rows = nearFront(`guard/${m}`, 700, m);
    const best = new Float64Array(m).fill(Number.POSITIVE_INFINITY);
    let checked = 0;
    rows.forEach((f, i) => {
      const before = archive.values();
      archive.insert(Float64Array.of(i), Float64Array.from(f), i);
      const isExtreme = f.some((x, k) => x < best[k]);
      f.forEach((x, k) => (best[k] = Math.min(best[k], x)));
      const reference = archive.reference();
      if (isExtreme || reference === null) return;
      const volume = hypervolume(archive.values(), archive.size(), m, reference);
      const volumeBefore = hypervolume(before, before.length / m, m, reference);
      // Two sums over different sets: equal to rounding where the newcomer was turned away.
      expect(volume).toBeGreaterThanOrEqual(volumeBefore * (1 - 1e-13));
      checked++;
    });
    expect(checked).toBeGreaterThan(500);
  });

  it('keeps nearly the hypervolume of all that was offered', () => {
    const rows = nearFront(`spread/${m}`, 600, m);
    const everything = bestOf(rows);
    const capacity = Math.floor(everything.length / 4);
    const archive = createArchive({ capacity, objectives: m, genes: 1 });
    offer(archive, rows);
    const reference = new Float64Array(m).fill(1.6);
    const all = hypervolume(Float64Array.from(everything.flat()), everything.length, m, reference);
    const kept = hypervolume(archive.values(), archive.size(), m, reference);
    // A quarter of the points: own bound, a tenth in the most open case (measured 1 to 3 %).
    expect(kept).toBeGreaterThan(0.9 * all);
  });
});
