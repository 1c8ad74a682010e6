/** What a full disk, a failing disk or a killed process leaves behind. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join, resolve } from 'node:path';
import { buildSync } from 'esbuild';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { RunError } from '../../../src/brief/index.ts';
import { writeCheckpointFile, writeHistoryFile } from '../../../src/formats/index.ts';
import { DISK, createRun, openRun, writeWhole } from '../../../src/store/index.ts';
import type { Disk } from '../../../src/store/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { aFolder, failingDisk, fullDisk, systemError } from '../../support/disks.ts';
import { aCheckpoint, aHistory } from '../../support/fronts.ts';

let home = aFolder();
let folder = '';
beforeEach(() => {
  home = aFolder();
  folder = join(home.path, 'run');
});
afterEach(() => home.remove());

const text = (name: string): string => readFileSync(join(folder, name), 'utf8');

/** A run with checkpoints of generation 2 (previous) and 4 (current), closed. */
function aRun(): void {
  const run = createRun(folder, aBrief(), { anfract: '0.1.0' });
  run.keepCheckpoint(aCheckpoint(2));
  run.keepCheckpoint(aCheckpoint(4));
  run.writeHistory(aHistory(4));
  run.close();
}

function codeOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    return error instanceof RunError ? error.code : String(error);
  }
  return 'no error';
}

describe('writeWhole()', () => {
  it('leaves the old file whole, and no part, when the disk fills up at any byte', () => {
    const path = join(home.path, 'file.txt');
    writeWhole(DISK, path, 'the old text');
    for (let room = 0; room < 12; room++) {
      const action = (): void => writeWhole(fullDisk(room), path, 'the new text');
      expect(codeOf(action)).toBe('disk-full');
      expect(readFileSync(path, 'utf8')).toBe('the old text');
      expect(readdirSync(home.path)).toEqual(['file.txt']);
    }
    writeWhole(fullDisk(12), path, 'the new text');
    expect(readFileSync(path, 'utf8')).toBe('the new text');
  });

  it.each([
    ['openSync', 'EACCES', 'no-permission'],
    ['fsyncSync', 'EIO', 'disk-broken'],
    ['closeSync', 'EDQUOT', 'disk-full'],
    ['renameSync', 'EPERM', 'no-permission'],
    ['writeSync', 'EWEIRD', 'disk'],
  ] as const)('leaves the old file whole when %s says %s', (call, system, code) => {
    const path = join(home.path, 'file.txt');
    writeWhole(DISK, path, 'old');
    expect(codeOf(() => writeWhole(failingDisk(call, 1, system), path, 'new'))).toBe(code);
    expect(readFileSync(path, 'utf8')).toBe('old');
  });

  it('names path and remedy', () => {
    const path = join(home.path, 'file.txt');
    expect(() => writeWhole(fullDisk(3), path, 'text')).toThrow(
      `${path}: the disk is full. Free some space, then resume the run.`,
    );
  });

  it('does without syncing the folder where the system cannot', () => {
    const path = join(home.path, 'file.txt');
    writeWhole(failingDisk('fsyncSync', 2, 'EINVAL'), path, 'new');
    expect(readFileSync(path, 'utf8')).toBe('new');
  });
});

describe('the history', () => {
  it('is cut back to whole lines when the disk fills up', () => {
    aRun();
    const lock = `${process.pid} ${hostname()}\n`.length;
    const run = openRun(folder, { write: true, disk: fullDisk(lock + 40) });
    expect(() => run.appendHistory(aHistory(5)[4])).toThrow(/history\.jsonl: the disk is full/u);
    expect(text('history.jsonl')).toBe(writeHistoryFile(aHistory(4)));
  });
});

describe('checkpoints', () => {
  it('both stay as they were when the disk fills up', () => {
    aRun();
    const run = openRun(folder, { write: true, disk: fullDisk(500) });
    expect(codeOf(() => run.keepCheckpoint(aCheckpoint(6)))).toBe('disk-full');
    expect(text('checkpoint.json')).toBe(writeCheckpointFile(aCheckpoint(4)));
    expect(text('checkpoint.previous.json')).toBe(writeCheckpointFile(aCheckpoint(2)));
  });

  it('are not replaced by one that does not read back', () => {
    aRun();
    // A disk that loses the second half of what it says it wrote.
    const lossy: Disk = {
      ...DISK,
      writeSync: (file, data, from = 0, length = data.length) => {
        DISK.writeSync(file, data, from, Math.floor(length / 2));
        return length;
      },
    };
    const run = openRun(folder, { write: true, disk: lossy });
    expect(() => run.keepCheckpoint(aCheckpoint(6))).toThrow(/does not read back/u);
    expect(text('checkpoint.json')).toBe(writeCheckpointFile(aCheckpoint(4)));
  });

  it.each([1, 2])('one is found after a kill before rename number %d', (nth) => {
    aRun();
    let calls = 0;
    const dying: Disk = {
      ...DISK,
      renameSync: (from, to) => {
        calls++;
        // From the moment of death on, nothing is done any more.
        if (calls >= nth) throw new Error('killed');
        DISK.renameSync(from, to);
      },
    };
    const run = openRun(folder, { write: true, disk: dying });
    expect(() => run.keepCheckpoint(aCheckpoint(6))).toThrow('killed');
    run.close();
    const again = openRun(folder, { write: true });
    const found = again.resume();
    expect(found.checkpoint).toEqual(aCheckpoint(4));
    expect(found.note === null).toBe(nth === 1);
    again.close();
  });

  it('the current one comes back when the second rename is refused', () => {
    aRun();
    let calls = 0;
    const refusing: Disk = {
      ...DISK,
      renameSync: (from, to) => {
        calls++;
        if (calls === 2) throw systemError('EACCES');
        DISK.renameSync(from, to);
      },
    };
    const run = openRun(folder, { write: true, disk: refusing });
    expect(codeOf(() => run.keepCheckpoint(aCheckpoint(6)))).toBe('no-permission');
    expect(text('checkpoint.json')).toBe(writeCheckpointFile(aCheckpoint(4)));
    run.close();
  });

  it('the previous one is taken, kept and named when the current one is damaged', () => {
    aRun();
    const whole = text('checkpoint.json');
    writeFileSync(join(folder, 'checkpoint.json'), whole.slice(0, whole.length / 2));
    const run = openRun(folder, { write: true });
    const found = run.resume();
    expect(found.checkpoint).toEqual(aCheckpoint(2));
    expect(found.note).toMatch(
      /half written[^]*Going on from the previous checkpoint, generation 2/u,
    );
    expect(text('history.jsonl')).toBe(writeHistoryFile(aHistory(2)));
    expect(text('run.log')).toContain('Going on from the previous checkpoint');
    run.keepCheckpoint(aCheckpoint(4));
    expect(text('checkpoint.previous.json')).toBe(writeCheckpointFile(aCheckpoint(2)));
    run.close();
  });

  it('a damaged one is never made the previous one, also without a look before', () => {
    aRun();
    writeFileSync(join(folder, 'checkpoint.json'), '{');
    const run = openRun(folder, { write: true });
    run.keepCheckpoint(aCheckpoint(6));
    expect(text('checkpoint.previous.json')).toBe(writeCheckpointFile(aCheckpoint(2)));
    run.close();
  });

  it('a run with none that can be read says what is wrong with both', () => {
    aRun();
    writeFileSync(join(folder, 'checkpoint.json'), '');
    DISK.unlinkSync(join(folder, 'checkpoint.previous.json'));
    const run = openRun(folder, { write: true });
    expect(() => run.resume()).toThrow(
      /no checkpoint to go on from \([^]*is empty[^]*previous\.json: it does not exist\)\. Start the run anew/u,
    );
    run.close();
  });
});

describe('a process killed while it writes', () => {
  const root = resolve(import.meta.dirname, '../../..');

  /** A script that keeps checkpoints and history for ever, built once per test. */
  function writer(): string {
    const entry = join(home.path, 'writer.ts');
    writeFileSync(
      entry,
      `import { createRun, openRun } from '${root}/src/store/index.ts';
       import { aBrief } from '${root}/tests/support/briefs.ts';
       import { aCheckpoint, aHistory } from '${root}/tests/support/fronts.ts';
       const [folder, how] = process.argv.slice(2);
       const run = how === 'new'
         ? createRun(folder, aBrief(), { anfract: '0.1.0' })
         : openRun(folder, { write: true });
       let done = how === 'new' ? 0 : run.resume().checkpoint.history.length;
       for (;;) {
         done++;
         run.appendHistory(aHistory(done)[done - 1]);
         if (done % 2 === 0) run.keepCheckpoint(aCheckpoint(done));
         if (done === 4) process.stdout.write('going\\n');
         if (how !== 'new') process.stdout.write('going\\n');
       }`,
    );
    const out = join(home.path, 'writer.mjs');
    buildSync({
      entryPoints: [entry],
      outfile: out,
      bundle: true,
      platform: 'node',
      format: 'esm',
      alias: { zod: join(root, 'node_modules/zod') },
    });
    return out;
  }

  it('leaves a run that goes on, however often it is killed', async () => {
    const script = writer();
    for (let round = 0; round < 6; round++) {
      const child = spawn(process.execPath, [script, folder, round === 0 ? 'new' : 'resume'], {
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      // Killed at the first sign of life or some writes later: the moment differs by itself.
      for (let signs = 0; signs <= (round === 0 ? 0 : 3 * round); signs++)
        await once(child.stdout, 'data');
      child.kill('SIGKILL');
      await once(child, 'exit');
      const run = openRun(folder, { write: true });
      const { checkpoint } = run.resume();
      const done = checkpoint.history.length;
      expect(done).toBeGreaterThanOrEqual(2);
      expect(checkpoint).toEqual(aCheckpoint(done));
      expect(text('history.jsonl')).toBe(writeHistoryFile(aHistory(done)));
      expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
      run.close();
    }
  });
});
