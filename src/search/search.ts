/** The search as a conversation: start, ask for rows of genes, tell how they did. */
import { createStream } from '../numeric/index.ts';
import { fillLatin } from './latin.ts';
import { breed } from './offspring.ts';
import { completeSettings } from './settings.ts';
import type { SearchOptions } from './settings.ts';
import { checkRows, checkSpace } from './space.ts';
import type { GeneSpace } from './space.ts';
import { createState } from './state.ts';
import type { Scores, SearchState } from './state.ts';
import { moveRow, rankFirst, surviveHalf, takeScores } from './survival.ts';
import { hashRow } from './twins.ts';

/** Rows of genes to score. */
export interface Asked {
  /** Genes, row-major [count x d]; a view into the state, to be read and not written. */
  readonly rows: Float64Array;
  readonly count: number;
}

/**
 * Begins a search. The first population is the given rows followed by a seeded Latin-hypercube
 * sample of the whole space.
 *
 * @param initialRows labelled starting designs, row-major [k x d], at most one population of them.
 * @throws Error when space, settings or rows are out of bounds; the message names which.
 */
export function startSearch(
  space: GeneSpace,
  options: SearchOptions,
  initialRows: Float64Array = new Float64Array(0),
): SearchState {
  const settings = completeSettings(options);
  checkSpace(space);
  checkRows(space, initialRows);
  const d = space.kinds.length;
  const n = settings.population;
  const given = initialRows.length / d;
  if (given > n) {
    throw new Error(`${given} starting rows do not fit a population of ${n}.`);
  }
  const state = createState(space, settings);
  for (let i = 0; i < initialRows.length; i++) state.pool.genes[n * d + i] = initialRows[i] + 0;
  const stream = createStream(settings.seed, settings.deme, 'start');
  fillLatin(space, stream, state.pool.genes, n + given, n - given);
  state.asked = true;
  return state;
}

/**
 * The rows to score next: the first population at generation 0, then children. Asking again before
 * telling gives the same rows.
 */
export function ask(state: SearchState): Asked {
  const n = state.settings.population;
  const d = state.space.kinds.length;
  if (!state.asked) {
    breed(state);
    state.asked = true;
  }
  return { rows: state.pool.genes.subarray(n * d), count: n };
}

/**
 * Takes the scores of the asked rows and goes on to the next generation (NSGA-II, Deb et al. 2002).
 * Scores belong to rows by index, so the order in which rows were scored cannot matter.
 *
 * @param state changed in place and returned.
 * @param rows the rows `ask` gave, in the same order; a copy will do.
 * @throws Error when nothing was asked or a length is wrong.
 */
export function tell(state: SearchState, rows: Float64Array, scores: Scores): SearchState {
  const { pool, settings, space, work } = state;
  const { population: n, objectives: m, limits: c } = settings;
  const d = space.kinds.length;
  if (!state.asked) throw new Error('tell() needs the scores of rows that ask() gave.');
  expectLength('rows', rows.length, n * d);
  expectLength('scores.values', scores.values.length, n * m);
  expectLength('scores.violations', scores.violations.length, n * c);
  expectLength('scores.failed', scores.failed.length, n);
  if (rows.buffer !== pool.genes.buffer) expectSameRows(pool.genes, rows, n * d);
  takeScores(pool, m, c, n, n, scores);
  if (state.generation === 0) {
    for (let i = 0; i < n; i++) {
      hashRow(work.twins, n + i, d);
      moveRow(state, n + i, i);
    }
    rankFirst(state);
  } else {
    surviveHalf(state);
  }
  state.generation++;
  state.evaluations += n;
  state.asked = false;
  return state;
}

function expectLength(name: string, found: number, wanted: number): void {
  if (found !== wanted) throw new Error(`${name} has ${found} numbers; it must have ${wanted}.`);
}

function expectSameRows(genes: Float64Array, rows: Float64Array, offset: number): void {
  for (let i = 0; i < rows.length; i++) {
    if (rows[i] !== genes[offset + i]) {
      throw new Error(
        `rows differ from those asked at number ${i}: ${rows[i]}, not ${genes[offset + i]}.`,
      );
    }
  }
}
