/** The nearest miss: what a run shows when no design met every limit. */
import type { Scores } from '../search/index.ts';
import { frontDesign } from './front.ts';
import type { FrontDesign } from './model.ts';
import type { Crew } from './ports.ts';
import { EVOLVED, readingsOf } from './records.ts';
import type { Run } from './run.ts';

/** Id of the nearest miss; designs of a front count from d001. */
const NEAREST_ID = 'd000';

/** Lets the archive remember the row that breaks its limits least, while it has no design. */
export function noteNearest(run: Run, rows: Float64Array, scores: Scores, count: number): void {
  if (run.archive.size() > 0) return;
  const d = rows.length / count;
  const m = run.goals.objectives.length;
  const c = run.goals.limits.length;
  for (let i = 0; i < count; i++) {
    if (scores.failed[i] !== 0) continue;
    let violation = 0;
    for (let j = 0; j < c; j++) violation += scores.violations[i * c + j];
    // A row that only the fast form finds sound has had its exact chance already.
    if (violation === 0) continue;
    const genes = rows.subarray(i * d, (i + 1) * d);
    run.archive.insert(genes, scores.values.subarray(i * m, (i + 1) * m), -1, violation);
  }
}

/** The nearest miss, scored exactly; null when there is a front or nothing could be scored. */
export async function scoreNearest(run: Run, crew: Crew): Promise<FrontDesign | null> {
  const nearest = run.archive.size() > 0 ? null : run.archive.bestInfeasible();
  if (nearest === null) return null;
  const exact = await crew.evaluate({ rows: nearest.genes, count: 1, form: 'exact' });
  const record = {
    origin: EVOLVED,
    genes: Array.from(nearest.genes),
    readings: readingsOf(run.goals, exact, 0),
    notes: exact.notes[0],
  };
  return frontDesign(run, record, NEAREST_ID, null);
}
