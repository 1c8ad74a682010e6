import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markDominated } from '../../../src/search/index.ts';

describe('markDominated()', () => {
  it('spares equal vectors and those better somewhere', () => {
    const a = Float64Array.of(2, 2, 2);
    const b = Float64Array.of(2, 2, 2, 2, 2, 3, 1, 9, 9, 3, 3, 3);
    expect([...markDominated(a, b, 3)]).toEqual([0, 1, 0, 1]);
  });

  it('marks nothing for an empty set', () => {
    expect([...markDominated(new Float64Array(0), Float64Array.of(1, 2), 2)]).toEqual([0]);
  });

  it('agrees with the definition of Pareto domination', () => {
    const rows = fc.array(fc.tuple(fc.nat(4), fc.nat(4), fc.nat(4)), { maxLength: 12 });
    fc.assert(
      fc.property(rows, rows, (a, b) => {
        const expected = b.map((q) =>
          a.some((p) => p.every((v, k) => v <= q[k]) && p.some((v, k) => v < q[k])) ? 1 : 0,
        );
        const found = markDominated(Float64Array.from(a.flat()), Float64Array.from(b.flat()), 3);
        expect([...found]).toEqual(expected);
      }),
      { seed: 3 },
    );
  });
});
