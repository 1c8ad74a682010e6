import { describe, expect, it } from 'vitest';
import { createRankSpace, rankPool } from '../../../src/search/index.ts';
import { CROWDED_FRONTS } from '../../reference/moo-tables.ts';

interface Row {
  readonly f: readonly number[];
  readonly violation?: number;
  readonly failed?: boolean;
}

function ranked(rows: readonly Row[]): { rank: number[]; crowding: number[]; ranks: number } {
  const m = rows[0].f.length;
  const pool = {
    values: Float64Array.from(rows.flatMap((row) => row.f)),
    violation: Float64Array.from(rows, (row) => row.violation ?? 0),
    failed: Uint8Array.from(rows, (row) => (row.failed === true ? 1 : 0)),
    rank: new Int32Array(rows.length),
    crowding: new Float64Array(rows.length),
  };
  const ranks = rankPool(pool, m, rows.length, createRankSpace(rows.length));
  return { rank: [...pool.rank], crowding: [...pool.crowding], ranks };
}

describe('rankPool()', () => {
  it('puts feasible rows before infeasible ones, these by violation, failures last', () => {
    const { rank } = ranked([
      { f: [0, 0], failed: true },
      { f: [1, 1], violation: 0.5 },
      { f: [9, 9] },
      { f: [2, 2], violation: 0.1 },
      { f: [8, 8] },
      { f: [0, 0], violation: 0.5 },
    ]);
    expect(rank).toEqual([5, 4, 1, 2, 0, 3]);
  });

  it('keeps infeasible rows of one violation in one rank when neither dominates', () => {
    const { rank } = ranked([
      { f: [1, 2], violation: 1 },
      { f: [2, 1], violation: 1 },
      { f: [3, 3], violation: 1 },
      { f: [0, 0], violation: 2 },
    ]);
    expect(rank).toEqual([0, 0, 1, 2]);
  });

  it.each([2, 3, 4])('gives rows with equal objectives the same rank (%i objectives)', (m) => {
    const point = (x: number): Row => ({ f: Array.from({ length: m }, () => x) });
    expect(ranked([point(1), point(0), point(1), point(0)]).rank).toEqual([1, 0, 1, 0]);
  });

  it.each(CROWDED_FRONTS)('gives the front %j its crowding distances', (points, distances) => {
    const { crowding } = ranked(points.map((f) => ({ f })));
    distances.forEach((distance, i) => {
      if (typeof distance === 'string') expect(crowding[i]).toBe(Number.POSITIVE_INFINITY);
      else expect(crowding[i]).toBeCloseTo(distance, 12);
    });
  });

  it('adds nothing to crowding for an objective in which a whole front is equal', () => {
    const { crowding } = ranked([
      { f: [0, 3, 7] },
      { f: [1, 2, 7] },
      { f: [2, 1, 7] },
      { f: [3, 0, 7] },
    ]);
    expect(crowding[1]).toSatisfy(
      (x: number) => x === Number.POSITIVE_INFINITY || Math.abs(x - 4 / 3) < 1e-12,
    );
    expect(crowding[2]).toBeCloseTo(4 / 3, 12);
  });
});
