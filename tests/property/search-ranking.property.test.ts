import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRankSpace, rankPool } from '../../src/search/index.ts';

const RUNS = { seed: 20251125, numRuns: 150 };

function dominates(a: readonly number[], b: readonly number[]): boolean {
  return a.every((x, k) => x <= b[k]) && a.some((x, k) => x < b[k]);
}

/** Oracle: peels fronts by comparing every pair, straight from the definition. */
function peelFronts(rows: readonly (readonly number[])[]): number[] {
  const rank = rows.map(() => -1);
  for (let front = 0; rank.includes(-1); front++) {
    const left = rows.map((_, i) => i).filter((i) => rank[i] === -1);
    for (const i of left) {
      if (!left.some((j) => dominates(rows[j], rows[i]))) rank[i] = front;
    }
  }
  return rank;
}

/** Oracle: crowding front by front and objective by objective; ties in the sort by row. */
function crowdingOf(rows: readonly (readonly number[])[], rank: readonly number[]): number[] {
  const crowding = rows.map(() => 0);
  for (const front of new Set(rank)) {
    const ids = rows.map((_, i) => i).filter((i) => rank[i] === front);
    for (let k = 0; k < rows[0].length; k++) {
      const order = ids.toSorted((a, b) => rows[a][k] - rows[b][k]);
      const range = rows[order[order.length - 1]][k] - rows[order[0]][k];
      crowding[order[0]] = Number.POSITIVE_INFINITY;
      crowding[order[order.length - 1]] = Number.POSITIVE_INFINITY;
      if (range === 0) continue;
      for (let i = 1; i + 1 < order.length; i++) {
        crowding[order[i]] += (rows[order[i + 1]][k] - rows[order[i - 1]][k]) / range;
      }
    }
  }
  return crowding;
}

function rankRows(rows: readonly (readonly number[])[]): { rank: number[]; crowding: number[] } {
  const pool = {
    values: Float64Array.from(rows.flat()),
    violation: new Float64Array(rows.length),
    failed: new Uint8Array(rows.length),
    rank: new Int32Array(rows.length),
    crowding: new Float64Array(rows.length),
  };
  rankPool(pool, rows[0].length, rows.length, createRankSpace(rows.length));
  return { rank: [...pool.rank], crowding: [...pool.crowding] };
}

const rowsOf = (m: number, coordinate: fc.Arbitrary<number>): fc.Arbitrary<number[][]> =>
  fc.array(fc.array(coordinate, { minLength: m, maxLength: m }), { minLength: 1, maxLength: 90 });

describe.each([1, 2, 3, 4, 5, 7])('rankPool() with %i objectives', (m) => {
  it('agrees with peeling every pair when many coordinates are equal', () => {
    fc.assert(
      fc.property(rowsOf(m, fc.integer({ min: 0, max: 4 })), (rows) => {
        expect(rankRows(rows).rank).toEqual(peelFronts(rows));
      }),
      RUNS,
    );
  });

  it('agrees with peeling every pair for real coordinates, and with crowding front by front', () => {
    let compared = 0;
    fc.assert(
      fc.property(rowsOf(m, fc.double({ min: -1, max: 1, noNaN: true })), (rows) => {
        const distinct = rows.every((a, i) =>
          rows.every((b, j) => i === j || a.every((x, k) => x !== b[k])),
        );
        const found = rankRows(rows);
        expect(found.rank).toEqual(peelFronts(rows));
        // With equal coordinates several orders are right, so the oracle's need not be ours.
        if (!distinct) return;
        compared++;
        crowdingOf(rows, found.rank).forEach((expected, i) => {
          if (expected === Number.POSITIVE_INFINITY) expect(found.crowding[i]).toBe(expected);
          else expect(found.crowding[i]).toBeCloseTo(expected, 9);
        });
      }),
      RUNS,
    );
    expect(compared).toBeGreaterThan(20);
  });
});
