/** The labelled starting designs, scored exactly: what a front is compared with. */
import { scoresOf } from './goals.ts';
import type { StartResult } from './model.ts';
import type { Crew } from './ports.ts';
import { readingsOf } from './records.ts';
import type { Run } from './run.ts';
import { measureSet } from './yardstick.ts';

/** Done at the end of a run, so that the first generation does not wait for it. */
export async function scoreStarts(run: Run, crew: Crew): Promise<StartResult[]> {
  const { labelled, goals, yardstick } = run;
  const count = labelled.length;
  if (count === 0) return [];
  const d = run.genome.genes.length;
  const rows = new Float64Array(count * d);
  labelled.forEach(({ genes }, i) => rows.set(genes, i * d));
  const exact = await crew.evaluate({ rows, count, form: 'exact' });
  const scores = scoresOf(goals, goals.allColumns, exact, count);
  const m = goals.objectives.length;
  const c = goals.limits.length;
  return labelled.map(({ label }, i) => {
    const isMet = scores.violations.subarray(i * c, (i + 1) * c).every((v) => v === 0);
    const feasible = scores.failed[i] === 0 && isMet;
    const values = scores.values.slice(i * m, (i + 1) * m);
    return {
      label,
      feasible,
      failure: exact.failures[i],
      readings: readingsOf(goals, exact, i),
      hypervolume: feasible && yardstick !== null ? measureSet(yardstick, values, 1) : 0,
    };
  });
}
