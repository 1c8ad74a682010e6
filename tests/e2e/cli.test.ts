/** The command line as a user meets it. Needs the built program. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { aFolder, anfract, start } from '../support/cli.ts';
import { watchFor } from '../support/watch.ts';
import { writeSmallBrief } from '../support/small-brief-file.ts';

/** Colour codes and cursor moves begin with ESC. */
const ESCAPE = '\u001b';

function front(run: string): string {
  return readFileSync(join(run, 'front.json'), 'utf8');
}

describe('anfract, from a brief to a mesh', () => {
  it('evolves, shows, measures, meshes and exports, and an export measures the same', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder);
    const check = await anfract(folder, 'brief', 'check', brief);
    expect(check.code, check.stderr).toBe(0);
    expect(check.stdout).toMatch(/is sound/);

    const run = join(folder, 'run');
    const evolved = await anfract(folder, 'evolve', brief, '--out', run, '--workers', '2');
    expect(evolved.code, evolved.stderr).toBe(0);
    expect(evolved.stdout).toContain('d001');
    expect(evolved.stderr).toContain(join(run, 'meshes'));
    expect(evolved.stderr).toContain(join(run, 'report.html'));
    expect(evolved.stdout + evolved.stderr).not.toContain(ESCAPE);
    for (const name of ['brief.json', 'front.csv', 'history.jsonl', 'checkpoint.json', 'run.log']) {
      expect(existsSync(join(run, name)), name).toBe(true);
    }

    const shown = await anfract(folder, 'show', run);
    expect(shown.stdout.trim()).toBe(evolved.stdout.trim());
    const short = await anfract(folder, 'show', run, '--rows', '1');
    expect(short.code, short.stderr).toBe(0);

    const measured = await anfract(folder, 'measure', run, 'd001', '--json');
    expect(measured.code, measured.stderr).toBe(0);
    const out = join(folder, 'd001.design.json');
    const exported = await anfract(folder, 'export', run, 'd001', '--out', out);
    expect(exported.code, exported.stderr).toBe(0);
    const again = await anfract(folder, 'measure', out, '--json');
    const readings = (text: string): unknown => JSON.parse(text).readings;
    expect(readings(again.stdout)).toEqual(readings(measured.stdout));
    const inFront = JSON.parse(front(run));
    const ids: string[] = inFront.measures.map((info: { id: string }) => info.id);
    expect(Object.values(readings(measured.stdout) ?? {})).toEqual(inFront.designs[0].readings);
    expect(Object.keys(readings(measured.stdout) ?? {})).toEqual(ids);

    const meshed = await anfract(
      folder,
      'mesh',
      run,
      '--design',
      'd001',
      '--form',
      'stl',
      '--out',
      folder,
    );
    expect(meshed.code, meshed.stderr).toBe(0);
    const stl = join(folder, 'd001.stl');
    expect(existsSync(stl)).toBe(true);
    const judge = spawnSync('admesh', [stl], { encoding: 'utf8' });
    if (judge.error === undefined) {
      expect(judge.stdout).toMatch(/Number of parts\s*:\s*1\s/);
      expect(judge.stdout).toMatch(/Degenerate facets\s*:\s*0\s/);
      expect(judge.stdout).toMatch(/Edges fixed\s*:\s*0\s/);
      expect(judge.stdout).toMatch(/Backwards edges\s*:\s*0\s/);
    }

    const seeded = await anfract(
      folder,
      'evolve',
      brief,
      '--start',
      out,
      '--out',
      join(folder, 'seeded'),
      '--generations',
      '2',
      '--no-meshes',
    );
    expect(seeded.code, seeded.stderr).toBe(0);
    const starts: { label: string }[] = JSON.parse(front(join(folder, 'seeded'))).starts;
    expect(starts[0].label).toBe('small test plate, d001');
  });

  it('gives the same front, byte for byte, with 1, 2 and 3 workers', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 4 });
    const fronts: string[] = [];
    for (const workers of ['1', '2', '3']) {
      const run = join(folder, workers);
      const ended = await anfract(
        folder,
        'evolve',
        brief,
        '--out',
        run,
        '--workers',
        workers,
        '--no-meshes',
      );
      expect(ended.code, ended.stderr).toBe(0);
      fronts.push(front(run));
    }
    expect(fronts[1]).toBe(fronts[0]);
    expect(fronts[2]).toBe(fronts[0]);
  });
});

describe('anfract, stopped and gone on with', () => {
  it('comes to the same files after kill -9 at several points', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 12 });
    const whole = join(folder, 'whole');
    await anfract(folder, 'evolve', brief, '--out', whole, '--no-meshes');
    const run = join(folder, 'killed');
    // Killed after a number of history lines: before and after checkpoints.
    for (const [i, lines] of [2, 4, 8].entries()) {
      const args = i === 0 ? [brief, '--out', run] : ['--resume', run];
      const running = start(folder, ['evolve', ...args, '--no-meshes']);
      await watchFor(() => countLines(join(run, 'history.jsonl')) >= lines, running.ended);
      running.kill('SIGKILL');
      expect((await running.ended).signal).toBe('SIGKILL');
    }
    const last = await anfract(folder, 'evolve', '--resume', run, '--no-meshes');
    expect(last.code, last.stderr).toBe(0);
    for (const name of [
      'front.json',
      'front.csv',
      'history.jsonl',
      'checkpoint.json',
      'brief.json',
    ]) {
      expect(readFileSync(join(run, name), 'utf8'), name).toBe(
        readFileSync(join(whole, name), 'utf8'),
      );
    }
  });

  it('saves on Ctrl-C, says how to go on, and ends with 130', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 12 });
    const run = join(folder, 'run');
    const running = start(folder, ['evolve', brief, '--out', run, '--no-meshes']);
    await watchFor(() => countLines(join(run, 'history.jsonl')) >= 2, running.ended);
    running.kill('SIGINT');
    const ended = await running.ended;
    expect(ended.code).toBe(130);
    expect(ended.stderr).toContain(`anfract evolve --resume ${run}`);
    expect(JSON.parse(front(run)).generation).toBeLessThan(12);
    const resumed = await anfract(folder, 'evolve', '--resume', run, '--no-meshes');
    expect(resumed.code, resumed.stderr).toBe(0);
    const whole = join(folder, 'whole');
    await anfract(folder, 'evolve', brief, '--out', whole, '--no-meshes');
    expect(front(run)).toBe(front(whole));
  });
});

describe('anfract, replacing a run', () => {
  it('takes the files of the old designs along, and leaves others', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 1 });
    const run = join(folder, 'run');
    const args = ['evolve', brief, '--out', run, '--generations', '1', '--no-meshes'];
    await anfract(folder, ...args);
    writeFileSync(join(run, 'meshes', 'd999.stl'), '');
    writeFileSync(join(run, 'designs', 'start-001.json'), '{}');
    writeFileSync(join(run, 'designs', 'mine.json'), '{}');
    const again = await anfract(folder, ...args, '--replace');
    expect(again.code, again.stderr).toBe(0);
    expect(existsSync(join(run, 'meshes', 'd999.stl'))).toBe(false);
    expect(existsSync(join(run, 'designs', 'start-001.json'))).toBe(false);
    expect(existsSync(join(run, 'designs', 'mine.json'))).toBe(true);
  });
});

describe('anfract, given something wrong', () => {
  it.each([
    [['mesh', 'x.json', '--sides', '9'], /even number between 8 and 128/],
    [['evolve', 'x.json', '--workers', '0'], /between 1 and 256/],
    [['show'], /missing required argument/],
    [['evolve', '--resume', 'x', '--out', 'y'], /resume is beside --out; it must stand without/],
  ])('refuses %j with the bound, as text and as JSON', async (args, bound) => {
    const folder = aFolder();
    const text = await anfract(folder, ...args);
    expect(text.code).toBe(2);
    expect(text.stderr).toMatch(bound);
    const json = await anfract(folder, ...args, '--json');
    expect(json.code).toBe(2);
    const { error, message } = JSON.parse(json.stderr);
    expect(error).toBe('input');
    expect(message).toMatch(bound);
  });

  it('shows no control characters that a name carries', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder);
    const text = readFileSync(brief, 'utf8').replace(
      'small test plate',
      'a\\u001b]0;b\\u0007\\u009b2Jc',
    );
    writeFileSync(brief, text);
    const ended = await anfract(folder, 'brief', 'check', brief);
    expect(ended.code, ended.stderr).toBe(0);
    expect(ended.stdout).toContain('"a\ufffd]0;b\ufffd\ufffd2Jc"');
  });

  it('refuses a key written twice', async () => {
    const folder = aFolder();
    writeFileSync(join(folder, 'b.json'), '{ "format": "anfract-brief", "format": "x" }');
    const ended = await anfract(folder, 'brief', 'check', 'b.json');
    expect(ended.code).toBe(2);
    expect(ended.stderr).toContain('"format" again');
  });

  it('names field, value, bound and remedy of every fault and ends with 2', async () => {
    const folder = aFolder();
    const path = join(folder, 'bad.json');
    writeFileSync(
      path,
      JSON.stringify({
        format: 'anfract-brief',
        version: 1,
        plate: { outline: { kind: 'round', diameter_mm: 80 }, thickness: 4, rim_mm: -2 },
        air: { supply: { kind: 'flow', flow_m3_per_h: 0 } },
      }),
    );
    const ended = await anfract(folder, 'evolve', path);
    expect(ended.code).toBe(2);
    expect(ended.stdout).toBe('');
    expect(ended.stderr).toMatch(/thickness.*did you mean.*thickness_mm/is);
    expect(ended.stderr).toMatch(/plate\.rim_mm is -2; it must lie between 0 and 100/);
    expect(ended.stderr).toMatch(/flow_m3_per_h is 0/);
    expect(existsSync(join(folder, 'runs'))).toBe(false);
  });

  it('gives errors as JSON with --json', async () => {
    const folder = aFolder();
    writeFileSync(join(folder, 'half.json'), '{ "format": "anfract-br');
    const ended = await anfract(folder, 'brief', 'check', 'half.json', '--json');
    expect(ended.code).toBe(2);
    expect(JSON.parse(ended.stderr).error).toBe('input');
  });

  it('ends with 3 for a file that is not there and a folder that is no run', async () => {
    const folder = aFolder();
    const missing = await anfract(folder, 'brief', 'check', 'no.json');
    expect(missing.code).toBe(3);
    expect(missing.stderr).toContain('there is no such file');
    const noRun = await anfract(folder, 'show', folder);
    expect(noRun.code).toBe(3);
    expect(noRun.stderr).toContain('no run folder');
  });

  it('suggests the near command and option and ends with 2', async () => {
    const folder = aFolder();
    const command = await anfract(folder, 'evolv', 'x.json');
    expect(command.code).toBe(2);
    expect(command.stderr).toContain('evolve');
    const option = await anfract(folder, 'evolve', 'x.json', '--sed', '1');
    expect(option.code).toBe(2);
    expect(option.stderr).toContain('--seed');
  });

  it('does not write over a run', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 1 });
    const run = join(folder, 'run');
    await anfract(folder, 'evolve', brief, '--out', run, '--no-meshes');
    const before = front(run);
    const second = await anfract(
      folder,
      'evolve',
      brief,
      '--out',
      run,
      '--seed',
      'other',
      '--no-meshes',
    );
    expect(second.code).toBe(3);
    expect(second.stderr).toContain('a run stands there already');
    expect(front(run)).toBe(before);
  });
});

function countLines(path: string): number {
  return existsSync(path) ? readFileSync(path, 'utf8').split('\n').length - 1 : 0;
}
