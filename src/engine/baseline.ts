/** What one would have drawn: the best straight-hole, slot and tilted-slot plates of a small sweep. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { PLAIN_FAMILIES, createGenome, plainBrief, plainPlates } from '../genome/index.ts';
import type { PlainFamily } from '../genome/index.ts';
import { createArchive } from '../search/index.ts';
import type { Archive, Scores } from '../search/index.ts';
import { measureInfo } from './front.ts';
import { limitMargins, readGoals, scoresOf } from './goals.ts';
import type { Goals } from './goals.ts';
import type { Front, LimitMargin, MeasureInfo, Reading } from './model.ts';
import type { Crew } from './ports.ts';
import { readingsOf } from './records.ts';
import { measureSet } from './yardstick.ts';

/** Plates of one family that are scored exactly: spread over its fast front. */
const EXACT_PER_FAMILY = 24;

export interface BaselinePlate {
  readonly family: PlainFamily;
  /** Stable within the baseline: b001, b002 ... by family, then by the first objective. */
  readonly id: string;
  readonly design: Design;
  readonly feasible: boolean;
  /** Exact readings in the order of `Baseline.measures`. */
  readonly readings: readonly Reading[];
  readonly limits: readonly LimitMargin[];
  readonly outside: readonly string[];
}

export interface BaselineFamily {
  readonly family: PlainFamily;
  readonly tried: number;
  /** Of the tried ones: how many met every limit in the fast form. */
  readonly feasible: number;
  /** None better than another of its family; where none meets every limit, the one that misses least. */
  readonly plates: readonly BaselinePlate[];
}

export interface Baseline {
  readonly objectives: readonly string[];
  readonly measures: readonly MeasureInfo[];
  readonly families: readonly BaselineFamily[];
}

/** A front against the baseline of its brief. */
export interface BaselineComparison {
  /** Hypervolume of the front and of each family, on the front's own yardstick. */
  readonly front: number;
  readonly families: readonly { readonly family: PlainFamily; readonly hypervolume: number }[];
  /** All families together. */
  readonly baseline: number;
  /** Plates of the baseline that some design of the front beats in one objective and equals or beats in all. */
  readonly platesDominated: number;
  readonly plates: number;
  /** Designs of the front that some plate of the baseline beats so. */
  readonly designsDominated: number;
}

/**
 * Sweeps the plain plates of a brief: all in the fast form, the best of each family exactly.
 *
 * @param crew workers made ready with `plainBrief(brief)`.
 * @throws InputError when the brief names measures that it cannot have.
 */
export async function sweepBaseline(brief: Brief, crew: Crew): Promise<Baseline> {
  const plain = plainBrief(brief);
  const goals = readGoals(plain);
  const genome = createGenome(plain);
  const plates = plainPlates(plain);
  const families: BaselineFamily[] = [];
  let named = 0;
  for (const family of PLAIN_FAMILIES) {
    const rows = plates.filter((plate) => plate.family === family).map((plate) => plate.row);
    const { chosen, feasible } = await chooseRows(goals, crew, rows);
    const scored = await scoreExactly(goals, crew, chosen);
    const shown = scored.map(({ row, readings, isFeasible, outside }): BaselinePlate => {
      const decoded = genome.decode(row, 0);
      if (!decoded.ok) throw new Error(`A scored row does not decode: ${decoded.reason}`);
      named++;
      return {
        family,
        id: `b${String(named).padStart(3, '0')}`,
        design: decoded.design,
        feasible: isFeasible,
        readings,
        limits: limitMargins(
          goals,
          readings.map((reading) => reading ?? Number.NaN),
        ),
        outside,
      };
    });
    families.push({ family, tried: rows.length, feasible, plates: shown });
  }
  return {
    objectives: goals.objectives.map((measure) => measure.id),
    measures: goals.allColumns.map((measure) => measureInfo(measure, brief)),
    families,
  };
}

/** The rows worth an exact score: the fast front, or else the row that misses least. */
async function chooseRows(
  goals: Goals,
  crew: Crew,
  rows: readonly Float64Array[],
): Promise<{ chosen: Float64Array[]; feasible: number }> {
  const fast = await crew.evaluate({ rows: stack(rows), count: rows.length, form: 'fast' });
  const scores = scoresOf(goals, goals.fastColumns, fast, rows.length);
  const archive = archiveFor(goals, rows[0].length);
  let feasible = 0;
  rows.forEach((row, i) => {
    if (scores.failed[i] !== 0) return;
    const violation = violationOf(goals, scores, i);
    if (violation === 0) feasible++;
    archive.insert(row, objectivesOf(goals, scores, i), i, violation);
  });
  const nearest = archive.bestInfeasible();
  const payloads = archive.payloads();
  const kept = payloads.length > 0 || nearest === null ? payloads : [nearest.payload];
  return { chosen: kept.map((i) => rows[i]), feasible };
}

interface ScoredRow {
  readonly row: Float64Array;
  readonly readings: readonly Reading[];
  readonly isFeasible: boolean;
  readonly outside: readonly string[];
}

/** Exact scores of rows; of those that hold only the non-dominated ones, best first objective first. */
async function scoreExactly(
  goals: Goals,
  crew: Crew,
  rows: readonly Float64Array[],
): Promise<ScoredRow[]> {
  if (rows.length === 0) return [];
  const exact = await crew.evaluate({ rows: stack(rows), count: rows.length, form: 'exact' });
  const scores = scoresOf(goals, goals.allColumns, exact, rows.length);
  const archive = archiveFor(goals, rows[0].length);
  rows.forEach((row, i) => {
    if (scores.failed[i] !== 0) return;
    archive.insert(row, objectivesOf(goals, scores, i), i, violationOf(goals, scores, i));
  });
  const payloads = archive.payloads();
  const nearest = archive.bestInfeasible();
  const kept = payloads.length > 0 || nearest === null ? payloads : [nearest.payload];
  return kept.map((i) => ({
    row: rows[i],
    readings: readingsOf(goals, exact, i),
    isFeasible: payloads.length > 0,
    outside: exact.notes[i],
  }));
}

/** A front against the baseline of its own brief, over the front's objectives. */
export function compareWithBaseline(front: Front, baseline: Baseline): BaselineComparison {
  const at = front.objectives.map((id) => baseline.measures.findIndex((info) => info.id === id));
  const sign = at.map((j) => (baseline.measures[j].better === 'lower' ? 1 : -1));
  const frontAt = front.objectives.map((id) => front.measures.findIndex((info) => info.id === id));
  const vector = (readings: readonly Reading[], columns: readonly number[]): number[] =>
    columns.map((j, k) => sign[k] * (readings[j] ?? Number.POSITIVE_INFINITY));
  const designs = front.designs.map((design) => vector(design.readings, frontAt));
  const feasible = baseline.families.flatMap((entry) =>
    entry.plates.filter((plate) => plate.feasible),
  );
  const plates = feasible.map((plate) => vector(plate.readings, at));
  const volume = (set: readonly (readonly number[])[]): number =>
    set.length === 0 ? 0 : measureSet(front.hypervolume, Float64Array.from(set.flat()), set.length);
  return {
    front: front.hypervolume.value,
    families: baseline.families.map(({ family }) => ({
      family,
      hypervolume: volume(plates.filter((_, i) => feasible[i].family === family)),
    })),
    baseline: volume(plates),
    plates: plates.length,
    platesDominated: countDominated(plates, designs),
    designsDominated: countDominated(designs, plates),
  };
}

/** How many of `these` some member of `others` beats. */
function countDominated(
  these: readonly (readonly number[])[],
  others: readonly (readonly number[])[],
): number {
  return these.filter((mine) => others.some((other) => beats(other, mine))).length;
}

/** No worse anywhere and better somewhere, minimised. */
function beats(a: readonly number[], b: readonly number[]): boolean {
  return a.every((value, j) => value <= b[j]) && a.some((value, j) => value < b[j]);
}

function archiveFor(goals: Goals, genes: number): Archive {
  const objectives = goals.objectives.length;
  return createArchive({ capacity: Math.max(EXACT_PER_FAMILY, objectives), objectives, genes });
}

function objectivesOf(goals: Goals, scores: Scores, i: number): Float64Array {
  const m = goals.objectives.length;
  return scores.values.slice(i * m, (i + 1) * m);
}

function violationOf(goals: Goals, scores: Scores, i: number): number {
  const c = goals.limits.length;
  let sum = 0;
  for (let j = 0; j < c; j++) sum += scores.violations[i * c + j];
  return sum;
}

/** Rows one after the other [n x d]. */
function stack(rows: readonly Float64Array[]): Float64Array {
  const d = rows[0].length;
  const stacked = new Float64Array(rows.length * d);
  rows.forEach((row, i) => stacked.set(row, i * d));
  return stacked;
}
