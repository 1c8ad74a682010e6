import { describe, expect, it } from 'vitest';
import { stepsOf } from '../../../src/web/compare/steps.ts';
import { plainName } from '../../../src/web/state/plain-name.ts';
import { fittingRuns } from '../../../src/web/state/run-filter.ts';

describe('stepsOf()', () => {
  const same = (value: number): number => value;

  it('runs from the worse edge of one measure to that of the other, over every corner', () => {
    expect(stepsOf([1, 8, 4, 4, 8, 1], same, same, { x: 10, y: 9 })).toBe(
      'M1.0 9.0V8.0H4.0V4.0H8.0V1.0H10.0',
    );
  });

  it('is empty without corners', () => {
    expect(stepsOf([], same, same, { x: 10, y: 9 })).toBe('');
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
