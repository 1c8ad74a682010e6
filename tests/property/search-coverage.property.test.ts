import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { createCoverSpace, createSortSpace, thinFront } from '../../src/search/index.ts';

const M = 3;

/** Oracle: recomputes every loss from its definition before each removal. */
function thinByDefinition(
  rows: readonly (readonly number[])[],
  target: number,
): Map<number, number> {
  const low = Array.from({ length: M }, (_, k) => Math.min(...rows.map((f) => f[k])));
  const high = Array.from({ length: M }, (_, k) => Math.max(...rows.map((f) => f[k])));
  const scaled = rows.map((f) => f.map((x, k) => (x - low[k]) * (1 / (high[k] - low[k]))));
  const ends = new Set(low.map((x, k) => rows.findIndex((f) => f[k] === x)));
  let left = rows.map((_, i) => i);
  const lossOf = (j: number): number =>
    Math.min(
      ...left
        .filter((i) => i !== j)
        .map((i) => Math.max(0, ...scaled[i].map((x, k) => x - scaled[j][k]))),
    );
  while (left.length > target) {
    const inner = left.filter((i) => !ends.has(i));
    const least = Math.min(...inner.map(lossOf));
    left = left.filter((i) => ends.has(i) || lossOf(i) !== least);
  }
  return new Map(left.map((i) => [i, ends.has(i) ? Number.POSITIVE_INFINITY : lossOf(i)]));
}

it('thinFront() keeps what removal by the definition keeps, with the same losses', () => {
  const point = fc.tuple(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 1, max: 9999 }));
  let compared = 0;
  fc.assert(
    fc.property(fc.array(point, { minLength: 8, maxLength: 40 }), (points) => {
      // Points of a plane, slightly bent so that losses are all different: a front by construction.
      const rows = points.map(([a, b]) => [a, b, 20000 - a - b + Math.sqrt(a) * 1e-3]);
      const distinct = [0, 1, 2].every((k) => new Set(rows.map((f) => f[k])).size === rows.length);
      fc.pre(distinct);
      const target = Math.max(5, rows.length >> 1);
      const expected = thinByDefinition(rows, target);
      // Losses that tie leave a choice which the definition does not make.
      fc.pre(expected.size === target);
      const ids = Int32Array.from(rows.keys());
      const crowding = new Float64Array(rows.length);
      thinFront(
        Float64Array.from(rows.flat()),
        M,
        ids,
        rows.length,
        target,
        createCoverSpace(),
        createSortSpace(rows.length),
        crowding,
      );
      rows.forEach((_, i) => {
        const loss = expected.get(i) ?? -1;
        if (Number.isFinite(loss)) expect(crowding[i]).toBeCloseTo(loss, 12);
        else expect(crowding[i]).toBe(loss);
      });
      compared++;
    }),
    { seed: 20251125, numRuns: 100 },
  );
  expect(compared).toBe(100);
});
