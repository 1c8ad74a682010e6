/** From a run's archive to the front that people read. */
import type { Brief } from '../brief/index.ts';
import type { Measure } from '../measures/index.ts';
import { limitMargins } from './goals.ts';
import type { Front, FrontDesign, GeneInfo, MeasureInfo, StartResult } from './model.ts';
import type { Crew } from './ports.ts';
import { readingsOf } from './records.ts';
import type { DesignRecord } from './records.ts';
import type { Run } from './run.ts';
import { VERSION } from './version.ts';
import { measureSet } from './yardstick.ts';

/**
 * The front of a run as it stands.
 * @param starts the starting designs as scored; empty while the run goes on.
 * @param nearest the nearest miss of a run without designs.
 * @param refined readings at finer sampling by record, or null when they were not made.
 */
export function buildFront(
  run: Run,
  starts: readonly StartResult[],
  nearest: FrontDesign | null,
  refined: ReadonlyMap<DesignRecord, readonly (number | null)[]> | null,
): Front {
  const records = orderRecords(run);
  const yardstick = run.yardstick ?? { ideal: [], reference: [] };
  return {
    format: 'anfract-front',
    version: 1,
    anfract: VERSION,
    brief: run.brief,
    generation: run.history.length,
    evaluations: run.evaluations,
    objectives: run.goals.objectives.map((measure) => measure.id),
    hypervolume: {
      value:
        run.yardstick === null
          ? 0
          : measureSet(run.yardstick, run.archive.values(), run.archive.size()),
      ideal: yardstick.ideal,
      reference: yardstick.reference,
    },
    genes: run.genome.genes.map(geneInfo),
    measures: run.goals.allColumns.map((measure) => measureInfo(measure, run.brief)),
    starts,
    designs: records.map((record, i) =>
      frontDesign(run, record, idOf(i), refined?.get(record) ?? null),
    ),
    nearest,
  };
}

/** Scores the archived designs again at finer sampling, to show what coarse sampling hid. */
export async function refineFront(
  run: Run,
  crew: Crew,
): Promise<Map<DesignRecord, readonly (number | null)[]>> {
  const records = orderRecords(run);
  const d = run.genome.genes.length;
  const rows = new Float64Array(records.length * d);
  records.forEach((record, i) => rows.set(record.genes, i * d));
  if (records.length === 0) return new Map();
  const evaluated = await crew.evaluate({ rows, count: records.length, form: 'refined' });
  return new Map(records.map((record, i) => [record, readingsOf(run.goals, evaluated, i)]));
}

/** Best first objective first; ties by the next one, then by genes, so that the order is total. */
function orderRecords(run: Run): DesignRecord[] {
  const at = run.goals.objectives.map((measure) => run.goals.allColumns.indexOf(measure));
  const sign = run.goals.objectives.map((measure) => (measure.better === 'lower' ? 1 : -1));
  return [...run.records.values()].toSorted((a, b) => {
    for (let j = 0; j < at.length; j++) {
      const difference = sign[j] * ((a.readings[at[j]] ?? 0) - (b.readings[at[j]] ?? 0));
      if (difference !== 0) return difference;
    }
    for (let j = 0; j < a.genes.length; j++) {
      if (a.genes[j] !== b.genes[j]) return a.genes[j] - b.genes[j];
    }
    return 0;
  });
}

/** d001, d002 ... */
function idOf(i: number): string {
  return `d${String(i + 1).padStart(3, '0')}`;
}

/** A record as front files show it. */
export function frontDesign(
  run: Run,
  record: DesignRecord,
  id: string,
  refined: readonly (number | null)[] | null,
): FrontDesign {
  return {
    id,
    origin: record.origin,
    genes: record.genes,
    readings: record.readings,
    limits: limitMargins(
      run.goals,
      record.readings.map((reading) => reading ?? Number.NaN),
    ),
    outside: record.notes,
    refinedChange: record.readings.map((reading, j) =>
      relativeChange(reading, refined?.[j] ?? null),
    ),
  };
}

/** (refined - exact) / |exact|; null without both readings or at exact zero. */
function relativeChange(exact: number | null, refined: number | null): number | null {
  if (exact === null || refined === null) return null;
  if (exact === refined) return 0;
  return exact === 0 ? null : (refined - exact) / Math.abs(exact);
}

function geneInfo(gene: Run['genome']['genes'][number]): GeneInfo {
  const { name, kind, min, max, options } = gene;
  return options === undefined ? { name, kind, min, max } : { name, kind, min, max, options };
}

/** What a front file says of a measure; costs are in the brief's currency. */
export function measureInfo(measure: Measure, brief: Brief | null): MeasureInfo {
  const { id, label, better, meaning, validity, source, standing, caution } = measure;
  const unit =
    brief !== null && measure.unit === 'currency' ? brief.process.currency : measure.unit;
  const info = { id, label, unit, better, meaning, validity, source, standing };
  return caution === undefined ? info : { ...info, caution };
}
