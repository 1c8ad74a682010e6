/** Words of the command line that cannot be: each named with what is allowed, and nothing written. */
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { briefWith } from '../support/briefs.ts';
import { aFolder, anfract } from '../support/cli.ts';
import { writeSmallBrief } from '../support/small-brief-file.ts';

/** What is wrong, the words, exit code, what the message must say. */
const CASES: readonly (readonly [string, readonly string[], number, RegExp])[] = [
  ['a blank file', ['brief', 'new', ' '], 2, /file is blank/],
  ['a blank run', ['show', ''], 2, /run is blank/],
  ['a blank one of several', ['compare', 'a', ''], 2, /fronts is blank/],
  ['a blank option', ['evolve', 'brief.json', '--out', ''], 2, /--out <folder> is blank/],
  ['an odd number of sides', ['mesh', 'a', '--sides', '7'], 2, /even number between 8 and 128/],
  ['a coupon of no size', ['coupon', 'a', '--size', '0x0'], 2, /two numbers above 0, up to 600/],
  ['a coupon without numbers', ['coupon', 'a', '--size', 'x'], 2, /two numbers above 0, up to 600/],
  ['a coupon at no place', ['coupon', 'a', '--at', ','], 2, /two numbers, such as 10,0/],
  ['a fan out of its range', ['fan', 'brisk-80', '--speed', '9'], 2, /between 0\.1 and 3/],
  ['a speed of no fan', ['fan', '--speed', '2'], 2, /--speed is 2; it must stand beside a name/],
  ['a plate’s curve as a fan', ['fan', '--csv', 'plate.csv'], 2, /plate\.csv.*at most 2/s],
  [
    'bench air that is no number',
    ['calibrate', 'a', '--readings', 'plate.csv', '--temperature', 'warm'],
    2,
    /between -40 and 200/,
  ],
  ['a measure the brief cannot have', ['evolve', 'cold.json'], 2, /cold\.json.*heat section/s],
];

describe('anfract, given words that cannot be', () => {
  it.each(CASES)('refuses %s', async (_what, words, code, message) => {
    const folder = aFolder();
    writeSmallBrief(folder);
    writeFileSync(join(folder, 'plate.csv'), 'flow_m3_per_h,pressure_Pa\n1,2\n2,5\n3,9\n');
    const cold = briefWith({ 'goals.objectives': ['thermalResistance_K_per_W'] });
    writeFileSync(join(folder, 'cold.json'), JSON.stringify(cold));
    const before = readdirSync(folder);
    const ended = await anfract(folder, ...words);
    expect(ended.code, ended.stderr).toBe(code);
    expect(ended.stderr).toMatch(message);
    expect(ended.stderr).not.toMatch(/\n\s+at /);
    expect(ended.stdout).toBe('');
    expect(readdirSync(folder)).toEqual(before);
  });

  it('ends where a folder cannot be made, as in /proc', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder);
    const ended = await anfract(folder, 'evolve', brief, '--out', '/proc/no-such/run');
    expect(ended.code, ended.stderr).toBe(3);
    expect(ended.stderr).toContain('/proc/no-such');
  });
});

describe('anfract, given a run that went on after its front', () => {
  it('says of which generation the front is, and takes one design where one is meant', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 2 });
    const run = join(folder, 'run');
    await anfract(folder, 'evolve', brief, '--out', run, '--no-meshes');
    const fresh = await anfract(folder, 'show', run);
    expect(fresh.stderr).toBe('');
    const line = `{"generation":2,"evaluations":99,"feasibleShare":1,"archived":1,"hypervolume":0.1,"best":[1,1]}\n`;
    writeFileSync(join(run, 'history.jsonl'), line, { flag: 'a' });
    for (const words of [
      ['show', run],
      ['measure', run],
      ['export', run],
    ]) {
      const ended = await anfract(folder, ...words);
      expect(ended.code, ended.stderr).toBe(0);
      expect(ended.stderr).toMatch(/generation 2; .*reached generation 3/);
    }
    const several = await anfract(folder, 'coupon', run, 'best');
    expect(several.code).toBe(2);
    expect(several.stderr).toMatch(/it must stand for one design/);
  });
});
