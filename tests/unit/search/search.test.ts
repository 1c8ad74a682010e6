import { describe, expect, it } from 'vitest';
import { createStream } from '../../../src/numeric/index.ts';
import { ask, packState, startSearch, tell, unpackState } from '../../../src/search/index.ts';
import type { GeneSpace, Scores, SearchState } from '../../../src/search/index.ts';

const MIXED: GeneSpace = {
  kinds: Uint8Array.of(0, 0, 1, 2, 1, 2, 0),
  lower: Float64Array.of(-1, 0, -4, 0, 2, 0, 7),
  upper: Float64Array.of(2, 1, 5, 3, 2, 1, 7),
};
const D = MIXED.kinds.length;

/** Two objectives, two limits, and a corner where nothing can be scored. */
function scoreRows(rows: Float64Array, n: number, order?: readonly number[]): Scores {
  const scores = {
    values: new Float64Array(2 * n),
    violations: new Float64Array(2 * n),
    failed: new Uint8Array(n),
  };
  for (const i of order ?? Array.from({ length: n }, (_, k) => k)) {
    const x = rows.subarray(i * D, (i + 1) * D);
    const g = 1 + (x[2] - 1) * (x[2] - 1) + x[3] * 0.3 + x[5];
    scores.values[2 * i] = x[0] * x[0] * g + x[1];
    scores.values[2 * i + 1] = (x[0] - 1) * (x[0] - 1) * g - x[1] * 0.2;
    scores.violations[2 * i] = Math.max(0, x[2] - 3);
    scores.violations[2 * i + 1] = Math.max(0, 0.2 - x[1]);
    if (x[0] > 1.8) scores.failed[i] = 1;
  }
  return scores;
}

const OPTIONS = { population: 24, objectives: 2, limits: 2, seed: 'mixed' } as const;

function step(state: SearchState): SearchState {
  const { rows, count } = ask(state);
  return tell(state, rows, scoreRows(rows, count));
}

function advance(state: SearchState, generations: number): SearchState {
  let next = state;
  for (let i = 0; i < generations; i++) next = step(next);
  return next;
}

const textOf = (state: SearchState): string => JSON.stringify(packState(state));

describe('startSearch()', () => {
  it('puts the given rows first and covers every gene evenly with the rest', () => {
    const given = Float64Array.of(0, 0.5, 0, 1, 2, 0, 7, 1, 1, 5, 3, 2, 1, 7);
    const { rows, count } = ask(startSearch(MIXED, { ...OPTIONS, population: 26 }, given));
    expect(count).toBe(26);
    expect([...rows.subarray(0, 2 * D)]).toEqual([...given]);
    const rest = Array.from({ length: 24 }, (_, i) => rows.subarray((i + 2) * D, (i + 3) * D));
    const slices = rest.map((row) => Math.floor(((row[0] + 1) / 3) * 24)).toSorted((a, b) => a - b);
    expect(slices).toEqual(Array.from({ length: 24 }, (_, i) => i));
    for (const option of [0, 1, 2, 3]) {
      expect(rest.filter((row) => row[3] === option)).toHaveLength(6);
    }
  });

  it('names the row, gene, value and bounds of a starting row that does not fit', () => {
    const given = Float64Array.of(0, 0.5, 0, 4, 2, 0, 7);
    expect(() => startSearch(MIXED, OPTIONS, given)).toThrow(
      'row 0, gene 3 is 4; it must lie between 0 and 3',
    );
    expect(() => startSearch(MIXED, OPTIONS, Float64Array.of(0, 0.5, 0.5, 1, 2, 0, 7))).toThrow(
      'gene 2 is 0.5',
    );
    expect(() =>
      startSearch(MIXED, OPTIONS, Float64Array.of(Number.NaN, 0.5, 0, 1, 2, 0, 7)),
    ).toThrow('gene 0 is NaN');
  });

  it('refuses a population that is too small and a space out of order', () => {
    expect(() => startSearch(MIXED, { ...OPTIONS, population: 3 })).toThrow(
      'population is 3; it must lie between 4',
    );
    const upper = MIXED.upper.slice();
    upper[1] = -1;
    expect(() => startSearch({ ...MIXED, upper }, OPTIONS)).toThrow('gene 1 lies between 0 and -1');
  });
});

describe('ask() and tell()', () => {
  it('give the same bytes for the same seed and others for another', () => {
    const first = textOf(advance(startSearch(MIXED, OPTIONS), 12));
    expect(textOf(advance(startSearch(MIXED, OPTIONS), 12))).toBe(first);
    const other = textOf(advance(startSearch(MIXED, { ...OPTIONS, seed: 'other' }), 12));
    expect(other.replace('"seed":"other"', '"seed":"mixed"')).not.toBe(first);
  });

  it('do not depend on the order in which rows are scored', () => {
    const forward = advance(startSearch(MIXED, OPTIONS), 8);
    let shuffled = startSearch(MIXED, OPTIONS);
    const stream = createStream('order of scoring');
    for (let generation = 0; generation < 8; generation++) {
      const { rows, count } = ask(shuffled);
      const order = Array.from({ length: count }, (_, i) => ({ i, key: stream.next() }))
        .toSorted((a, b) => a.key - b.key)
        .map(({ i }) => i);
      shuffled = tell(shuffled, rows.slice(), scoreRows(rows, count, order));
    }
    expect(textOf(shuffled)).toBe(textOf(forward));
  });

  it.each([24, 25, 26, 27])(
    'keep genes within bounds and whole, and the population at %i',
    (population) => {
      let state = startSearch(MIXED, { ...OPTIONS, population });
      for (let generation = 0; generation < 15; generation++) {
        const { rows, count } = ask(state);
        expect(count).toBe(population);
        for (let i = 0; i < rows.length; i++) {
          const g = i % D;
          expect(rows[i] >= MIXED.lower[g] && rows[i] <= MIXED.upper[g]).toBe(true);
          if (MIXED.kinds[g] !== 0) expect(Number.isInteger(rows[i])).toBe(true);
        }
        state = tell(state, rows, scoreRows(rows, count));
      }
      expect(state.evaluations).toBe(15 * population);
    },
  );

  it('ask() never offers a row twice while the space has others left', () => {
    let state = startSearch(MIXED, OPTIONS);
    for (let generation = 0; generation < 20; generation++) {
      const { rows, count } = ask(state);
      const asked = Array.from({ length: count }, (_, i) =>
        rows.subarray(i * D, (i + 1) * D).join(),
      );
      const kept = Array.from({ length: generation === 0 ? 0 : count }, (_, i) =>
        state.pool.genes.subarray(i * D, (i + 1) * D).join(),
      );
      expect(new Set([...asked, ...kept]).size).toBe(asked.length + kept.length);
      state = tell(state, rows, scoreRows(rows, count));
    }
  });

  it('ask() goes on in a space that has fewer rows than the population', () => {
    const tiny = { kinds: Uint8Array.of(2), lower: Float64Array.of(0), upper: Float64Array.of(1) };
    let state = startSearch(tiny, { population: 8, objectives: 1, seed: 'tiny' });
    for (let generation = 0; generation < 4; generation++) {
      const { rows, count } = ask(state);
      state = tell(state, rows, {
        values: rows.slice(),
        violations: new Float64Array(0),
        failed: new Uint8Array(count),
      });
    }
    expect(state.pool.values[0]).toBe(0);
  });

  it('ask() gives the same rows until it is told their scores', () => {
    const state = advance(startSearch(MIXED, OPTIONS), 3);
    const first = ask(state).rows.slice();
    expect([...ask(state).rows]).toEqual([...first]);
  });

  it('tell() ranks rows with NaN, infinity or a negative violation as failures, behind all others', () => {
    const state = startSearch(MIXED, { ...OPTIONS, population: 6 });
    const { rows } = ask(state);
    const values = Float64Array.of(
      Number.NaN,
      0,
      5,
      5,
      1,
      Number.POSITIVE_INFINITY,
      9,
      9,
      2,
      2,
      3,
      3,
    );
    const violations = Float64Array.of(0, 0, 0, 0, 0, 0, 4, 0, 0, Number.NaN, -1, 0);
    tell(state, rows, { values, violations, failed: new Uint8Array(6) });
    expect([...state.pool.failed.subarray(0, 6)]).toEqual([1, 0, 1, 0, 1, 1]);
    expect([...state.pool.rank.subarray(0, 6)]).toEqual([2, 0, 2, 1, 2, 2]);
  });

  it('tell() carries on when every row fails', () => {
    let state = startSearch(MIXED, OPTIONS);
    for (let generation = 0; generation < 3; generation++) {
      const { rows, count } = ask(state);
      const scores = scoreRows(rows, count);
      scores.failed.fill(1);
      state = tell(state, rows, scores);
    }
    expect(state.generation).toBe(3);
  });

  it('tell() never loses a feasible row to an infeasible one', () => {
    let state = startSearch(MIXED, OPTIONS);
    let before = 0;
    for (let generation = 0; generation < 15; generation++) {
      state = step(state);
      const n = OPTIONS.population;
      const feasible = Array.from({ length: n }, (_, i) => i).filter(
        (i) => state.pool.failed[i] === 0 && state.pool.violation[i] === 0,
      ).length;
      expect(feasible).toBeGreaterThanOrEqual(before);
      before = feasible;
    }
    expect(before).toBe(OPTIONS.population);
  });

  it('tell() refuses rows that were not asked, wrong lengths and a second telling', () => {
    const state = startSearch(MIXED, OPTIONS);
    const { rows, count } = ask(state);
    const scores = scoreRows(rows, count);
    const foreign = rows.slice();
    foreign[5] = 1 - foreign[5];
    expect(() => tell(state, foreign, scores)).toThrow('rows differ from those asked at number 5');
    expect(() => tell(state, rows, { ...scores, failed: new Uint8Array(3) })).toThrow(
      'scores.failed has 3 numbers; it must have 24',
    );
    tell(state, rows, scores);
    expect(() => tell(state, rows, scores)).toThrow('needs the scores of rows that ask() gave');
  });
});

describe('packState() and unpackState()', () => {
  it.each([0, 1, 5])(
    'go on identically from generation %i, also with rows asked but not told',
    (generation) => {
      const whole = advance(startSearch(MIXED, OPTIONS), 14);
      const state = advance(startSearch(MIXED, OPTIONS), generation);
      const text = textOf(state);
      ask(state);
      expect(textOf(state)).toBe(text);
      const resumed = unpackState(JSON.parse(text));
      expect(textOf(resumed)).toBe(text);
      expect(textOf(advance(resumed, 14 - generation))).toBe(textOf(whole));
    },
  );

  it('keep the settings that differ from the defaults', () => {
    const options = {
      ...OPTIONS,
      deme: 'deme/3',
      diversity: 'coverage' as const,
      crossover: { probability: 0.5, eta: 2.5 },
      mutation: { probability: 0.3, eta: 7 },
    };
    const whole = advance(startSearch(MIXED, options), 6);
    const half = unpackState(JSON.parse(textOf(advance(startSearch(MIXED, options), 3))));
    expect(textOf(advance(half, 3))).toBe(textOf(whole));
  });

  it.each([
    [null, 'packed anfract-search is null'],
    [{ format: 'other' }, 'packed format is other'],
    [{ format: 'anfract-search', version: 99 }, 'version 99'],
    [{ format: 'anfract-search', version: 1 }, 'packed space must be an object'],
  ])('unpackState() says what is wrong with %j', (value, message) => {
    expect(() => unpackState(value)).toThrow(message);
  });

  it('unpackState() names the list that is short or holds no number', () => {
    const packed = { ...Object(packState(advance(startSearch(MIXED, OPTIONS), 2))) };
    expect(() => unpackState({ ...packed, rank: [1, 2] })).toThrow(
      'packed rank has 2 numbers; it must have 24',
    );
    expect(() => unpackState({ ...packed, genes: 'x' })).toThrow(
      'packed genes must be a list of numbers',
    );
    const values = Array.from({ length: 48 }, () => null);
    expect(() => unpackState({ ...packed, values })).toThrow('packed values[0] is null');
  });
});
