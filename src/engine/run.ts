/** The state of a run, and how it is packed into a checkpoint and taken out again. */
import { RunError, isRecord } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import { createGenome } from '../genome/index.ts';
import type { Genome } from '../genome/index.ts';
import {
  createArchive,
  packState,
  startSearch,
  unpackArchive,
  unpackState,
} from '../search/index.ts';
import type { Archive, SearchState } from '../search/index.ts';
import { readGoals } from './goals.ts';
import type { Goals } from './goals.ts';
import type { Checkpoint, HistoryEntry } from './model.ts';
import type { DesignRecord } from './records.ts';
import { VERSION } from './version.ts';
import type { Yardstick } from './yardstick.ts';

export interface Run {
  readonly brief: Brief;
  readonly genome: Genome;
  readonly goals: Goals;
  /** The first rows of the first population. */
  readonly labelled: readonly LabelledRow[];
  search: SearchState;
  readonly archive: Archive;
  /** Records of the archived designs, by the archive's payload number. */
  readonly records: Map<number, DesignRecord>;
  nextRecord: number;
  evaluations: number;
  yardstick: Yardstick | null;
  readonly history: HistoryEntry[];
}

/** A starting design in a run: its label and genes. */
interface LabelledRow {
  readonly label: string;
  readonly genes: readonly number[];
}

/** A row of genes to begin with, besides those the genome offers. */
export interface ExtraStart {
  readonly label: string;
  readonly row: Float64Array;
}

/** @throws InputError when the brief's goals cannot be met by any design. */
export function beginRun(brief: Brief, extra: readonly ExtraStart[]): Run {
  const genome = createGenome(brief);
  const goals = readGoals(brief);
  const starts = [...extra, ...genome.starts].slice(0, brief.search.population);
  const d = genome.genes.length;
  const rows = new Float64Array(starts.length * d);
  starts.forEach((start, i) => rows.set(start.row, i * d));
  const settings = {
    population: brief.search.population,
    objectives: goals.objectives.length,
    limits: goals.limits.length,
    seed: brief.search.seed,
  };
  return {
    brief,
    genome,
    goals,
    labelled: starts.map(({ label, row }) => ({ label, genes: Array.from(row) })),
    search: startSearch(genome.space, settings, rows),
    archive: createArchive({
      capacity: brief.search.archive,
      objectives: goals.objectives.length,
      genes: d,
    }),
    records: new Map(),
    nextRecord: 0,
    evaluations: 0,
    yardstick: null,
    history: [],
  };
}

/** The engine's own part of a checkpoint, beside the packed search and history. */
interface PackedRun {
  readonly labelled: readonly LabelledRow[];
  readonly archive: unknown;
  readonly records: readonly (readonly [number, DesignRecord])[];
  readonly nextRecord: number;
  readonly evaluations: number;
  readonly yardstick: Yardstick | null;
}

export function packRun(run: Run): Checkpoint {
  const packed: PackedRun = {
    labelled: run.labelled,
    archive: run.archive.pack(),
    records: [...run.records],
    nextRecord: run.nextRecord,
    evaluations: run.evaluations,
    yardstick: run.yardstick,
  };
  return {
    format: 'anfract-checkpoint',
    version: 1,
    anfract: VERSION,
    brief: run.brief,
    search: packState(run.search),
    archive: packed,
    history: [...run.history],
  };
}

/**
 * A run as `packRun` packed it; it goes on exactly as the original would have.
 *
 * @throws RunError `bad-checkpoint` when the packed parts are not what `packRun` made.
 */
export function unpackRun(checkpoint: Checkpoint): Run {
  const { brief, history } = checkpoint;
  const genome = createGenome(brief);
  const goals = readGoals(brief);
  try {
    const packed = readPackedRun(checkpoint.archive, genome.genes.length);
    const search = unpackState(checkpoint.search);
    const archive = unpackArchive(packed.archive);
    const records = new Map(packed.records);
    const { population, objectives, limits } = search.settings;
    const isOfBrief =
      population === brief.search.population &&
      objectives === goals.objectives.length &&
      limits === goals.limits.length &&
      search.space.kinds.length === genome.genes.length;
    if (!isOfBrief) throw new Error('the search is not that of the brief beside it');
    if (!archive.payloads().every((number) => records.has(number))) {
      throw new Error('the archive has designs without a record');
    }
    return {
      brief,
      genome,
      goals,
      labelled: packed.labelled,
      search,
      archive,
      records,
      nextRecord: packed.nextRecord,
      evaluations: packed.evaluations,
      yardstick: packed.yardstick,
      history: [...history],
    };
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    const trouble = `what was packed cannot be unpacked (${error.message})`;
    const remedy = 'Start the run anew; the same brief and seed give the same front.';
    throw new RunError('bad-checkpoint', 'checkpoint', trouble, remedy, error);
  }
}

/** Checks the engine's own part; the search and the archive are checked where they unpack. */
function readPackedRun(value: unknown, genes: number): PackedRun {
  const isRow = (entry: unknown): boolean =>
    Array.isArray(entry) &&
    Number.isSafeInteger(entry[0]) &&
    isRecord(entry[1]) &&
    typeof entry[1]['origin'] === 'string' &&
    Array.isArray(entry[1]['genes']) &&
    entry[1]['genes'].length === genes &&
    Array.isArray(entry[1]['readings']) &&
    Array.isArray(entry[1]['notes']);
  const isLabelled = (entry: unknown): boolean =>
    isRecord(entry) &&
    typeof entry['label'] === 'string' &&
    Array.isArray(entry['genes']) &&
    entry['genes'].length === genes;
  const isSound =
    isRecord(value) &&
    Array.isArray(value['labelled']) &&
    value['labelled'].every(isLabelled) &&
    [value['nextRecord'], value['evaluations']].every(Number.isSafeInteger) &&
    Array.isArray(value['records']) &&
    value['records'].every(isRow) &&
    (value['yardstick'] === null ||
      (isRecord(value['yardstick']) &&
        [value['yardstick']['ideal'], value['yardstick']['reference']].every(Array.isArray)));
  if (!isSound) throw new Error('the records of the archive are not as they were written');
  return value as unknown as PackedRun;
}
