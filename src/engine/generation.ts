/** One generation: ask for genes, score them, look closer at those worth keeping, tell the search. */
import { ask, tell } from '../search/index.ts';
import type { Scores } from '../search/index.ts';
import { scoresOf } from './goals.ts';
import type { HistoryEntry } from './model.ts';
import { noteNearest } from './nearest.ts';
import type { Crew, Evaluated } from './ports.ts';
import { EVOLVED, readingsOf } from './records.ts';
import type { Run } from './run.ts';
import { measureSet, setYardstick } from './yardstick.ts';

/** At most so many rows of one generation get the exact form; it costs tens of fast ones each. */
const EXACT_PER_GENERATION = 16;
/**
 * And so many of the first one: workers are cold then, whoever waits wants to see that it works, and
 * what random designs gain from a closer look is soon beaten (16 rows of the demo brief took as much
 * time as all else before its first generation, experiments/bench/evaluate).
 */
const EXACT_AT_FIRST = 4;

export async function runGeneration(run: Run, crew: Crew): Promise<HistoryEntry> {
  const { rows, count } = ask(run.search);
  const fast = await crew.evaluate({ rows, count, form: 'fast' });
  const scores = scoresOf(run.goals, run.goals.fastColumns, fast, count);
  const first = run.yardstick === null;
  if (run.yardstick === null) {
    run.yardstick = setYardstick(scores, count, run.goals.objectives.length);
  }
  const chosen = promisingRows(run, scores, count, first ? EXACT_AT_FIRST : EXACT_PER_GENERATION);
  const exact = await evaluateChosen(crew, rows, count, chosen);
  keepExact(run, rows, count, chosen, exact, scores, first);
  noteNearest(run, rows, scores, count);
  run.evaluations += count;
  run.search = tell(run.search, rows, scores);
  const entry = historyEntry(run, scores, count);
  run.history.push(entry);
  return entry;
}

/**
 * Feasible rows that no archived design and no other row of this generation dominates, in row order.
 * While nothing is archived every feasible row counts: where the fast form flatters at a limit, the
 * best rows all fail the exact form, and one that is a little worse must get its chance.
 */
function promisingRows(run: Run, scores: Scores, count: number, most: number): number[] {
  const m = run.goals.objectives.length;
  const c = run.goals.limits.length;
  const candidates: number[] = [];
  for (let i = 0; i < count; i++) {
    if (scores.failed[i] !== 0) continue;
    let feasible = true;
    for (let j = 0; j < c; j++) feasible &&= scores.violations[i * c + j] === 0;
    if (feasible && !run.archive.dominates(scores.values.subarray(i * m, (i + 1) * m))) {
      candidates.push(i);
    }
  }
  const kept =
    run.archive.size() === 0
      ? candidates
      : candidates.filter((i) => !candidates.some((k) => k !== i && beats(scores.values, k, i, m)));
  return kept.length <= most
    ? kept
    : Array.from({ length: most }, (_, i) => kept[Math.floor((i * kept.length) / most)]);
}

/** Row a is no worse than row b everywhere and better, or earlier where equal. */
function beats(values: Float64Array, a: number, b: number, m: number): boolean {
  let better = false;
  for (let j = 0; j < m; j++) {
    const difference = values[a * m + j] - values[b * m + j];
    if (difference > 0) return false;
    if (difference < 0) better = true;
  }
  return better || a < b;
}

async function evaluateChosen(
  crew: Crew,
  rows: Float64Array,
  count: number,
  chosen: readonly number[],
): Promise<Evaluated> {
  if (chosen.length === 0) return { values: new Float64Array(0), failures: [], notes: [] };
  const d = rows.length / count;
  const picked = new Float64Array(chosen.length * d);
  chosen.forEach((row, i) => picked.set(rows.subarray(row * d, (row + 1) * d), i * d));
  return crew.evaluate({ rows: picked, count: chosen.length, form: 'exact' });
}

/**
 * Exact scores replace the fast ones of the same rows, so that a design which only the fast form
 * flatters loses its rank, and enter the archive where they hold.
 */
function keepExact(
  run: Run,
  rows: Float64Array,
  count: number,
  chosen: readonly number[],
  exact: Evaluated,
  scores: Scores,
  first: boolean,
): void {
  if (chosen.length === 0) return;
  const m = run.goals.objectives.length;
  const c = run.goals.limits.length;
  const d = rows.length / count;
  const truth = scoresOf(run.goals, run.goals.allColumns, exact, chosen.length);
  chosen.forEach((row, i) => {
    const values = truth.values.slice(i * m, (i + 1) * m);
    const violations = truth.violations.subarray(i * c, (i + 1) * c);
    scores.values.set(values, row * m);
    scores.violations.set(violations, row * c);
    scores.failed[row] = truth.failed[i];
    const feasible = truth.failed[i] === 0 && violations.every((v) => v === 0);
    if (!feasible) return;
    const genes = rows.slice(row * d, (row + 1) * d);
    if (run.archive.insert(genes, values, run.nextRecord)) {
      run.records.set(run.nextRecord, {
        origin: (first ? run.labelled[row]?.label : undefined) ?? EVOLVED,
        genes: Array.from(genes),
        readings: readingsOf(run.goals, exact, i),
        notes: exact.notes[i],
      });
      run.nextRecord++;
    }
  });
  const alive = new Set(run.archive.payloads());
  for (const number of run.records.keys()) if (!alive.has(number)) run.records.delete(number);
}

function historyEntry(run: Run, scores: Scores, count: number): HistoryEntry {
  const m = run.goals.objectives.length;
  const c = run.goals.limits.length;
  let feasible = 0;
  for (let i = 0; i < count; i++) {
    const met = scores.violations.subarray(i * c, (i + 1) * c).every((v) => v === 0);
    if (scores.failed[i] === 0 && met) feasible++;
  }
  const values = run.archive.values();
  const archived = run.archive.size();
  const best = run.goals.objectives.map((measure, j) => {
    let low = Number.POSITIVE_INFINITY;
    for (let i = 0; i < archived; i++) low = Math.min(low, values[i * m + j]);
    if (archived === 0) return null;
    return measure.better === 'lower' ? low : 0 - low;
  });
  return {
    generation: run.history.length,
    evaluations: run.evaluations,
    feasibleShare: feasible / count,
    archived,
    hypervolume: run.yardstick === null ? 0 : measureSet(run.yardstick, values, archived),
    best,
  };
}
