/** From a brief's words (objectives, limits) to the numbers the search works on. */
import { InputError, effectiveLimits, fault } from '../brief/index.ts';
import type { Brief, Fault } from '../brief/index.ts';
import { MEASURES, findMeasure, nearestMeasure } from '../measures/index.ts';
import type { Measure } from '../measures/index.ts';
import type { Scores } from '../search/index.ts';
import type { Evaluated } from './ports.ts';
import type { LimitMargin } from './model.ts';

interface GoalLimit {
  readonly measure: Measure;
  readonly bound: 'atMost' | 'atLeast';
  readonly value: number;
}

export interface Goals {
  readonly objectives: readonly Measure[];
  readonly limits: readonly GoalLimit[];
  /** Measures the fast form computes: objectives, then those only limited. */
  readonly fastColumns: readonly Measure[];
  /** Measures of the exact forms: the whole registry. */
  readonly allColumns: readonly Measure[];
}

/**
 * @param where what was read, for the message.
 * @throws InputError naming each objective or limit that is no measure, or that this brief cannot have.
 */
export function readGoals(brief: Brief, where = 'brief'): Goals {
  const faults: Fault[] = [];
  const resolve = (id: string, path: string): Measure | null => {
    const measure = findMeasure(id);
    const found = `"${id}"`;
    if (measure === null) {
      const near = nearestMeasure(id);
      const hint = near === null ? '' : `Did you mean "${near}"? `;
      faults.push(fault(path, found, 'name a measure', `${hint}\`anfract measures\` lists them.`));
      return null;
    }
    const why = measure.unavailable?.(brief) ?? null;
    if (why !== null) faults.push(fault(path, found, 'be a measure this brief can have', why));
    return measure;
  };
  const objectives = brief.goals.objectives.map((id, i) => resolve(id, `goals.objectives[${i}]`));
  const limits = effectiveLimits(brief).flatMap((limit, i) => {
    const measure = resolve(limit.measure, `goals.limits[${i}].measure`);
    if (measure === null) return [];
    const out: GoalLimit[] = [];
    if (limit.atMost !== undefined) out.push({ measure, bound: 'atMost', value: limit.atMost });
    if (limit.atLeast !== undefined) out.push({ measure, bound: 'atLeast', value: limit.atLeast });
    return out;
  });
  if (faults.length > 0) throw new InputError(faults, where);
  const named = objectives.filter((measure) => measure !== null);
  return {
    objectives: named,
    limits,
    fastColumns: [...new Set([...named, ...limits.map((limit) => limit.measure)])],
    allColumns: MEASURES,
  };
}

/** Margin of a reading inside a limit: positive inside, negative outside, in the measure's unit. */
function marginOf(limit: GoalLimit, reading: number): number {
  return limit.bound === 'atMost' ? limit.value - reading : reading - limit.value;
}

export function limitMargins(goals: Goals, readings: ArrayLike<number>): LimitMargin[] {
  return goals.limits.map((limit) => ({
    measure: limit.measure.id,
    bound: limit.bound,
    value: limit.value,
    margin: marginOf(limit, readings[goals.allColumns.indexOf(limit.measure)]),
  }));
}

/**
 * Objectives to minimise and normalised violations from readings in the given columns.
 * A violation is the excess over the limit in units of the limit itself (of 1 where that is 0).
 */
export function scoresOf(
  goals: Goals,
  columns: readonly Measure[],
  evaluated: Evaluated,
  count: number,
): Scores {
  const m = goals.objectives.length;
  const c = goals.limits.length;
  const values = new Float64Array(count * m);
  const violations = new Float64Array(count * c);
  const failed = new Uint8Array(count);
  const objectiveAt = goals.objectives.map((measure) => columns.indexOf(measure));
  const limitAt = goals.limits.map((limit) => columns.indexOf(limit.measure));
  for (let i = 0; i < count; i++) {
    const at = i * columns.length;
    if (evaluated.failures[i] !== null) failed[i] = 1;
    for (let j = 0; j < m; j++) {
      const reading = evaluated.values[at + objectiveAt[j]];
      values[i * m + j] = goals.objectives[j].better === 'lower' ? reading : -reading;
      if (!Number.isFinite(reading)) failed[i] = 1;
    }
    for (let j = 0; j < c; j++) {
      const limit = goals.limits[j];
      const margin = marginOf(limit, evaluated.values[at + limitAt[j]]);
      const scale = limit.value === 0 ? 1 : Math.abs(limit.value);
      violations[i * c + j] = margin >= 0 ? 0 : -margin / scale;
      if (Number.isNaN(margin)) failed[i] = 1;
    }
  }
  return { values, violations, failed };
}
