import { describe, expect, it } from 'vitest';
import { ask, hypervolume, startSearch, tell } from '../../../src/search/index.ts';
import { FRONT_VOLUMES, ZDT3_PIECES } from '../../reference/moo-tables.ts';
import {
  PROBLEMS,
  dtlz2,
  problemNamed,
  spaceOf,
} from '../../../experiments/bench/search/problems.ts';
import type { Diversity } from '../../../src/search/index.ts';
import type { Problem } from '../../../experiments/bench/search/problems.ts';

function finalFront(
  problem: Problem,
  population: number,
  generations: number,
  diversity: Diversity,
): Float64Array {
  const m = problem.objectives;
  let state = startSearch(spaceOf(problem), {
    population,
    objectives: m,
    seed: problem.name,
    diversity,
  });
  const values = new Float64Array(population * m);
  const scores = { values, violations: new Float64Array(0), failed: new Uint8Array(population) };
  for (let generation = 0; generation <= generations; generation++) {
    const { rows, count } = ask(state);
    problem.evaluate(rows, count, values);
    state = tell(state, rows, scores);
  }
  return state.pool.values.slice(0, population * m);
}

function volumeOf(
  problem: Problem,
  population: number,
  generations: number,
  diversity: Diversity,
): number {
  const m = problem.objectives;
  const front = finalFront(problem, population, generations, diversity);
  return hypervolume(front, population, m, new Float64Array(m).fill(problem.reference));
}

describe('the test problems themselves', () => {
  it('ZDT3 has its best points inside the five known pieces', () => {
    const zdt3 = problemNamed('ZDT3');
    const rows = new Float64Array(1001 * 30);
    for (let i = 0; i <= 1000; i++) rows[i * 30] = i / 1000;
    const values = new Float64Array(2002);
    zdt3.evaluate(rows, 1001, values);
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i <= 1000; i++) {
      const f1 = values[2 * i];
      const isBest = values[2 * i + 1] < least;
      least = Math.min(least, values[2 * i + 1]);
      // Away from the ends of a piece by more than the step of the sample.
      if (ZDT3_PIECES.some(([from, to]) => f1 > from + 0.002 && f1 < to - 0.002))
        expect(isBest).toBe(true);
      if (ZDT3_PIECES.every(([from, to]) => f1 < from - 0.002 || f1 > to + 0.002))
        expect(isBest).toBe(false);
    }
  });

  it.each([2, 3, 5])('DTLZ2 with %i objectives lies on the unit sphere at its best', (m) => {
    const problem = dtlz2(m);
    const d = problem.genes;
    const row = Float64Array.from({ length: d }, (_, g) => (g < m - 1 ? 0.3 + 0.1 * g : 0.5));
    const values = new Float64Array(m);
    problem.evaluate(row, 1, values);
    expect(values.reduce((sum, f) => sum + f * f, 0)).toBeCloseTo(1, 12);
  });
});

describe('NSGA-II', () => {
  /*
   * Share of the continuous front's hypervolume (closed form, ZDT3 by fine sampling) that a run must
   * reach. 100 rows on a front of two objectives lose about 0.6 %, 100 rows on a sphere octant about
   * 10 % by their spacing alone; the rest is the distance left after the budget. Problems made to be
   * slow (ZDT4, ZDT6, DTLZ1, DTLZ3) get more generations.
   */
  it.each([
    ['ZDT1', 200, 0.985],
    ['ZDT2', 200, 0.975],
    ['ZDT3', 200, 0.985],
    ['ZDT4', 300, 0.95],
    ['ZDT6', 300, 0.93],
    ['DTLZ1', 400, 0.9],
    ['DTLZ2', 150, 0.85],
    ['DTLZ3', 600, 0.8],
    ['DTLZ4', 200, 0.85],
  ])(
    'with crowding reaches the known hypervolume of %s in %i generations',
    (name, generations, share) => {
      const problem = problemNamed(name);
      const volume = volumeOf(problem, 100, generations, 'crowding');
      expect(volume).toBeGreaterThan(share * problem.limit);
      expect(volume).toBeLessThan(problem.limit);
    },
  );

  // Coverage spreads better: the same budgets leave about 7 % on a sphere and 0.8 % on a plane curve.
  it.each([
    ['ZDT1', 200, 0.99],
    ['ZDT3', 200, 0.99],
    ['DTLZ1', 400, 0.93],
    ['DTLZ2', 150, 0.91],
    ['DTLZ3', 600, 0.88],
    ['DTLZ4', 200, 0.91],
  ])('with coverage reaches more of %s in %i generations', (name, generations, share) => {
    const problem = problemNamed(name);
    const volume = volumeOf(problem, 100, generations, 'coverage');
    expect(volume).toBeGreaterThan(share * problem.limit);
    expect(volume).toBeLessThan(problem.limit);
  });

  /*
   * Radius 1 is the front. Crowding distance alone ends at a median of 1.68 with five objectives. The
   * hypervolume limit is 1.1^m less the part of the unit ball in one orthant (closed form); 120 rows
   * spread over a front of three or four dimensions lose about a tenth by their spacing.
   */
  it.each([
    [4, 1.1 ** 4 - Math.PI ** 2 / 2 / 16],
    [5, 1.1 ** 5 - (8 * Math.PI ** 2) / 15 / 32],
  ])('converges and spreads on DTLZ2 with %i objectives', (m, limit) => {
    const front = finalFront(dtlz2(m), 120, 200, 'coverage');
    const radii = Array.from({ length: 120 }, (_, i) =>
      Math.sqrt(front.subarray(i * m, (i + 1) * m).reduce((sum, f) => sum + f * f, 0)),
    );
    radii.sort((a, b) => a - b);
    expect(radii[60]).toBeLessThan(1.02);
    const volume = hypervolume(front, 120, m, new Float64Array(m).fill(1.1));
    expect(volume).toBeGreaterThan(0.85 * limit);
    expect(volume).toBeLessThan(limit);
  });
});

it('knows a limit for every problem from the table of true fronts', () => {
  for (const problem of PROBLEMS) expect(FRONT_VOLUMES).toContain(problem.limit);
});
