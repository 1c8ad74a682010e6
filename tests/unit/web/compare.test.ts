import { describe, expect, it } from 'vitest';
import { attainedLines } from '../../../src/web/compare/attained-lines.ts';
import { stepPoints } from '../../../src/web/plots/steps-draw.ts';
import { plainName } from '../../../src/web/state/plain-name.ts';
import { fittingRuns } from '../../../src/web/state/run-filter.ts';

describe('stepPoints()', () => {
  const same = (value: number): number => value;
  const places = { left: 0, right: 10, top: 9, foot: 0, x: same, y: same };
  const lower = { better: 'lower' } as const;
  const higher = { better: 'higher' } as const;

  it('runs from the worse edge of one measure to that of the other, over every corner', () => {
    const points = stepPoints([1, 8, 4, 4, 8, 1], places, { xInfo: lower, yInfo: lower });
    expect(points).toEqual([1, 9, 1, 8, 4, 8, 4, 4, 8, 4, 8, 1, 10, 1]);
  });

  it('ends at the other edges where more is better', () => {
    const points = stepPoints([8, 1, 4, 4], places, { xInfo: higher, yInfo: higher });
    expect(points).toEqual([8, 0, 8, 1, 4, 1, 4, 4, 0, 4]);
  });

  it('is empty without corners', () => {
    expect(stepPoints([], places, { xInfo: lower, yInfo: lower })).toEqual([]);
  });
});

describe('attainedLines()', () => {
  const surface = (share: number, times: number, ...corners: number[]) => ({
    share,
    times,
    corners: Float64Array.from(corners),
  });

  it('names shares by the number of fronts, once per number, and leaves out what is empty', () => {
    const surfaces = [surface(0.25, 1, 1, 2), surface(0.5, 1, 1, 2), surface(0.75, 2)];
    expect(attainedLines(surfaces, 2)).toEqual([
      { name: '25, 50 %: 1 of 2', corners: Float64Array.of(1, 2) },
    ]);
  });
});

describe('plainName()', () => {
  it.each([
    ['flour trap (2)', 'flour-trap-2'],
    ['../../etc/passwd', 'etc-passwd'],
    ['Lüfter <b>', 'Lu-fter-b'],
    ['...', 'front'],
    ['x'.repeat(99), 'x'.repeat(60)],
  ])('makes %j a file name', (name, plain) => {
    expect(plainName(name)).toBe(plain);
  });
});

describe('fittingRuns()', () => {
  const run = (folder: string, name: string, finished: boolean) => ({
    folder,
    name,
    objectives: ['mass_g'],
    generation: 1,
    generations: 2,
    archived: 3,
    hypervolume: 0.5,
    finished,
    changed: 0,
    picture: false,
    notes: false,
    verified: false,
  });
  const runs = [run('monday', 'Flour trap', true), run('tuesday', 'flour trap', false)];
  const found = (words: string, state: 'all' | 'ended' | 'open'): string[] =>
    fittingRuns(runs, words, state).map(({ folder }) => folder);

  it('wants every word somewhere, whatever its case', () => {
    expect(found('', 'all')).toEqual(['monday', 'tuesday']);
    expect(found('FLOUR mass', 'all')).toEqual(['monday', 'tuesday']);
    expect(found('flour tues', 'all')).toEqual(['tuesday']);
    expect(found('sound', 'all')).toEqual([]);
  });

  it('keeps runs of a state', () => {
    expect(found('', 'ended')).toEqual(['monday']);
    expect(found('', 'open')).toEqual(['tuesday']);
  });
});
