/** A search as plain JSON and back. */
import { readNumber, readNumbers, readObject, readPacked, readText, readWhole } from './packing.ts';
import type { Packed } from './packing.ts';
import { completeSettings } from './settings.ts';
import type { SearchSettings } from './settings.ts';
import { checkRows, checkSpace } from './space.ts';
import type { GeneSpace } from './space.ts';
import { createState } from './state.ts';
import type { SearchState } from './state.ts';
import { hashRow } from './twins.ts';

const FORMAT = 'anfract-search';
const VERSION = 1;

/** Stands for the infinite crowding of the ends of a front, which JSON has no number for. */
const ENDLESS = -1;

/**
 * The state as plain data, safe in JSON: finite numbers, text and lists, every double exact.
 * Children that were asked but not told are left out, since `ask` makes the same ones again; before
 * the first `tell` the starting rows are kept instead.
 */
export function packState(state: SearchState): unknown {
  const { space, settings, pool, generation } = state;
  const n = settings.population;
  const d = space.kinds.length;
  const m = settings.objectives;
  const started = generation > 0;
  return {
    format: FORMAT,
    version: VERSION,
    space: {
      kinds: Array.from(space.kinds),
      lower: Array.from(space.lower),
      upper: Array.from(space.upper),
    },
    settings: {
      population: n,
      objectives: m,
      limits: settings.limits,
      seed: settings.seed,
      deme: settings.deme,
      crossover: { ...settings.crossover },
      mutation: { ...settings.mutation },
      ...(settings.diversity === undefined ? {} : { diversity: settings.diversity }),
    },
    generation,
    evaluations: state.evaluations,
    genes: Array.from(pool.genes.subarray(started ? 0 : n * d, (started ? 1 : 2) * n * d)),
    values: started ? Array.from(pool.values.subarray(0, n * m)) : [],
    violation: started ? Array.from(pool.violation.subarray(0, n)) : [],
    failed: started ? Array.from(pool.failed.subarray(0, n)) : [],
    rank: started ? Array.from(pool.rank.subarray(0, n)) : [],
    crowding: started
      ? Array.from(pool.crowding.subarray(0, n), (x) =>
          x === Number.POSITIVE_INFINITY ? ENDLESS : x,
        )
      : [],
  };
}

/**
 * The state that `packState` packed; it goes on exactly as the original would have.
 *
 * @throws Error naming the field that is missing, of the wrong length or not a number.
 */
export function unpackState(value: unknown): SearchState {
  const packed = readPacked(value, FORMAT, VERSION);
  const space = readSpace(readObject(packed, 'space'));
  const settings = readSettings(readObject(packed, 'settings'));
  const state = createState(space, settings);
  const n = settings.population;
  const d = space.kinds.length;
  const { pool } = state;
  state.generation = readWhole(packed, 'generation');
  state.evaluations = readWhole(packed, 'evaluations');
  const genes = Float64Array.from(readNumbers(packed, 'genes', n * d));
  checkRows(space, genes);
  if (state.generation === 0) {
    pool.genes.set(genes, n * d);
    state.asked = true;
    return state;
  }
  pool.genes.set(genes);
  pool.values.set(readNumbers(packed, 'values', n * settings.objectives));
  pool.violation.set(readNumbers(packed, 'violation', n));
  pool.failed.set(readNumbers(packed, 'failed', n));
  pool.rank.set(readNumbers(packed, 'rank', n));
  readNumbers(packed, 'crowding', n).forEach((x, i) => {
    pool.crowding[i] = x === ENDLESS ? Number.POSITIVE_INFINITY : x;
  });
  for (let i = 0; i < n; i++) hashRow(state.work.twins, i, d);
  return state;
}

function readSpace(packed: Packed): GeneSpace {
  const kinds = readNumbers(packed, 'kinds');
  const space = {
    kinds: Uint8Array.from(kinds),
    lower: Float64Array.from(readNumbers(packed, 'lower', kinds.length)),
    upper: Float64Array.from(readNumbers(packed, 'upper', kinds.length)),
  };
  checkSpace(space);
  return space;
}

function readSettings(packed: Packed): SearchSettings {
  const crossover = readObject(packed, 'crossover');
  const mutation = readObject(packed, 'mutation');
  const eta = readNumber(mutation, 'eta');
  const { diversity } = packed;
  if (diversity !== undefined && diversity !== 'crowding' && diversity !== 'coverage') {
    throw new Error('packed diversity must be crowding or coverage.');
  }
  return completeSettings({
    ...(diversity === undefined ? {} : { diversity }),
    population: readWhole(packed, 'population'),
    objectives: readWhole(packed, 'objectives'),
    limits: readWhole(packed, 'limits'),
    seed: readText(packed, 'seed'),
    deme: readText(packed, 'deme'),
    crossover: {
      probability: readNumber(crossover, 'probability'),
      eta: readNumber(crossover, 'eta'),
    },
    mutation:
      mutation['probability'] === undefined
        ? { eta }
        : { probability: readNumber(mutation, 'probability'), eta },
  });
}
