import { describe, expect, it } from 'vitest';
import { InputError } from '../../../src/brief/index.ts';
import { checkBrief } from '../../../src/engine/index.ts';
import { limitMargins, readGoals, scoresOf } from '../../../src/engine/goals.ts';
import { briefWith } from '../../support/briefs.ts';

describe('readGoals()', () => {
  it('names an objective that is no measure, with the nearest one', () => {
    const wrong = briefWith({ 'goals.objectives': ['mas_g'] });
    expect(() => checkBrief(wrong)).toThrowError(InputError);
    expect(() => checkBrief(wrong)).toThrowError(/goals\.objectives\[0\].*mas_g.*mass_g/s);
  });
});

describe('scoresOf()', () => {
  const brief = checkBrief(
    briefWith({
      'goals.objectives': ['mass_g', 'thinnestWall_mm'],
      'goals.limits': [{ measure: 'mass_g', atMost: 20 }],
    }),
  );
  const goals = readGoals(brief);
  const column = (id: string): number =>
    goals.fastColumns.findIndex((measure) => measure.id === id);
  const readings = (mass_g: number, wall_mm: number, overlap_mm: number): Float64Array => {
    const row = new Float64Array(goals.fastColumns.length);
    row[column('mass_g')] = mass_g;
    row[column('thinnestWall_mm')] = wall_mm;
    row[column('overlapDepth_mm')] = overlap_mm;
    return row;
  };
  const score = (values: Float64Array, failure: string | null = null) =>
    scoresOf(goals, goals.fastColumns, { values, failures: [failure], notes: [[]] }, 1);

  it('minimises: a measure that is better when higher changes sign', () => {
    expect([...score(readings(12, 1.5, 0)).values]).toEqual([12, -1.5]);
  });

  it('gives violations in units of the limit, 0 where met', () => {
    const limits = goals.limits.map((limit) => limit.measure.id);
    const { violations } = score(readings(25, 0.4, 0.3));
    expect(violations[limits.indexOf('mass_g')]).toBeCloseTo(0.25, 12);
    expect(violations[limits.indexOf('thinnestWall_mm')]).toBeCloseTo(0.5, 12);
    expect(violations[limits.indexOf('overlapDepth_mm')]).toBeCloseTo(0.3, 12);
    expect([...score(readings(20, 0.8, 0)).violations]).toEqual(limits.map(() => 0));
  });

  it('fails a row without readings', () => {
    expect(score(readings(12, 1.5, 0), 'no channel fits').failed[0]).toBe(1);
    expect(score(readings(Number.NaN, 1.5, 0)).failed[0]).toBe(1);
    expect(score(readings(12, 1.5, Number.NaN)).failed[0]).toBe(1);
  });

  it('shows margins in the unit of the measure', () => {
    const all = goals.allColumns.map((measure) => (measure.id === 'mass_g' ? 17 : 1));
    const margin = limitMargins(goals, all).find((limit) => limit.measure === 'mass_g');
    expect(margin).toEqual({ measure: 'mass_g', bound: 'atMost', value: 20, margin: 3 });
  });
});
