/** Run folders on a real disk: what is written, read back, refused, locked. */
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeHistoryFile } from '../../../src/formats/index.ts';
import { createRun, openRun } from '../../../src/store/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { aFolder, failingDisk } from '../../support/disks.ts';
import { aCheckpoint, aFront, aHistory } from '../../support/fronts.ts';

let home = aFolder();
let folder = '';
beforeEach(() => {
  home = aFolder();
  folder = join(home.path, 'runs', 'a');
});
afterEach(() => home.remove());

const text = (name: string): string => readFileSync(join(folder, name), 'utf8');
const create = (): ReturnType<typeof createRun> =>
  createRun(folder, aBrief(), { anfract: '0.1.0', parts: { kernel: '3.5.4' } });
/** A dead process: no pid can be this large on the systems we run on. */
const DEAD = 2 ** 30 - 1;

describe('createRun()', () => {
  it('makes the folder with its parents, the brief, the record, an empty history and the shelves', () => {
    const run = create();
    expect(readdirSync(folder).toSorted()).toEqual([
      'brief.json',
      'designs',
      'history.jsonl',
      'meshes',
      'pictures',
      'run.json',
      'run.lock',
      'run.log',
    ]);
    expect(run.readBrief()).toEqual(aBrief());
    expect(run.readRecord()).toMatchObject({
      anfract: '0.1.0',
      parts: { kernel: '3.5.4' },
      seed: 'anfract',
      platform: `${process.platform} ${process.arch}`,
    });
    run.close();
    expect(existsSync(join(folder, 'run.lock'))).toBe(false);
  });

  it('refuses a folder in which a run stands, and replaces it only when told to', () => {
    const first = create();
    first.keepCheckpoint(aCheckpoint(2));
    first.put('meshes', 'd001.stl', 'solid');
    first.put(null, 'report.html', 'old');
    first.put('designs', 'mine.json', '{}');
    first.close();
    expect(create).toThrow(/a run stands there already\. Resume it/u);
    expect(text('checkpoint.json')).not.toBe('');
    const second = createRun(folder, aBrief(), { anfract: '0.1.0', replace: true });
    for (const gone of ['checkpoint.json', 'report.html', 'meshes/d001.stl']) {
      expect(existsSync(join(folder, gone)), gone).toBe(false);
    }
    expect(existsSync(join(folder, 'designs', 'mine.json'))).toBe(true);
    second.close();
  });

  it('refuses a folder with other files, a file, and a path below a file', () => {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'letter.txt'), 'dear');
    expect(create).toThrow(
      /it holds other files, such as letter\.txt\. Give a new or empty folder/u,
    );
    folder = join(folder, 'letter.txt');
    expect(create).toThrow(/letter\.txt: it is a file, not a folder/u);
    folder = join(folder, 'deeper');
    expect(create).toThrow(/not a folder/u);
  });

  it('leaves no lock behind when it fails', () => {
    const disk = failingDisk('renameSync', 2, 'EROFS');
    expect(() => createRun(folder, aBrief(), { anfract: '0.1.0', disk })).toThrow(
      /brief\.json: the disk is read-only/u,
    );
    expect(existsSync(join(folder, 'run.lock'))).toBe(false);
  });
});

describe('openRun()', () => {
  it('says that there is no folder, or which files it lacks', () => {
    expect(() => openRun(folder)).toThrow(/there is no such folder\. Check the path/u);
    mkdirSync(folder, { recursive: true });
    expect(() => openRun(folder)).toThrow(/no run folder: run\.json and brief\.json are missing/u);
    writeFileSync(join(folder, 'brief.json'), '{}');
    expect(() => openRun(folder)).toThrow(/no run folder: run\.json is missing/u);
  });

  it.each([
    ['', /run\.json: 1 fault\n {2}The input is empty/u],
    ['{"format": "anfract-run", "ver', /only half written/u],
    ['{"format": "other"}', /format is "other"; it must be 'anfract-run'/u],
    ['{"format": "anfract-run", "version": 3}', /use one that reads anfract-run version 3/u],
    ['{"format": "anfract-run", "version": 1}', /anfract is missing/u],
  ])('names what is wrong with a run.json that holds %j', (damaged, message) => {
    create().close();
    writeFileSync(join(folder, 'run.json'), damaged);
    expect(() => openRun(folder, { write: true })).toThrow(message);
    expect(existsSync(join(folder, 'run.lock'))).toBe(false);
  });

  it('opened for reading takes no lock and refuses to write', () => {
    create().close();
    const run = openRun(folder);
    expect(existsSync(join(folder, 'run.lock'))).toBe(false);
    expect(() => run.keepCheckpoint(aCheckpoint(1))).toThrow(/opened for reading only/u);
  });

  it('opened for writing removes half-written files', () => {
    create().close();
    writeFileSync(join(folder, 'checkpoint.json.part'), '{"torn');
    openRun(folder, { write: true }).close();
    expect(existsSync(join(folder, 'checkpoint.json.part'))).toBe(false);
  });

  it('says that a front is not there yet', () => {
    create().close();
    const run = openRun(folder);
    expect(run.hasFront()).toBe(false);
    expect(() => run.readFront()).toThrow(
      /front\.json: it does not exist\. The run has not ended yet/u,
    );
  });
});

describe('the lock', () => {
  it('keeps a second writer out and names the first; readers may come in', () => {
    const run = create();
    expect(() => openRun(folder, { write: true })).toThrow(
      `process ${process.pid} on ${hostname()} is writing this run`,
    );
    openRun(folder).close();
    run.close();
    openRun(folder, { write: true }).close();
  });

  it.each([
    ['of a dead process', `${DEAD} ${hostname()}\n`],
    ['with our own number from an earlier start', `${process.pid} ${hostname()}\n`],
  ])('%s is taken over', (_, content) => {
    create().close();
    writeFileSync(join(folder, 'run.lock'), content);
    const run = openRun(folder, { write: true });
    expect(text('run.lock')).toBe(`${process.pid} ${hostname()}\n`);
    run.close();
    expect(readdirSync(folder).filter((name) => name.startsWith('run.lock'))).toEqual([]);
  });

  it.each([
    ['of a living process', `${process.ppid} ${hostname()}\n`],
    ['of another machine', `${DEAD} another-machine\n`],
    ['that is just being filled', ''],
  ])('%s is respected', (_, content) => {
    create().close();
    writeFileSync(join(folder, 'run.lock'), content);
    expect(() => openRun(folder, { write: true })).toThrow(/is writing this run\. Wait for it/u);
    expect(text('run.lock')).toBe(content);
  });
});

describe('RunFolder', () => {
  it('reads back front, history and table', () => {
    const run = create();
    for (const entry of aHistory(3)) run.appendHistory(entry);
    run.writeFront(aFront());
    run.close();
    const again = openRun(folder);
    expect(again.readFront()).toEqual(aFront());
    expect(again.readHistory()).toEqual({ entries: aHistory(3), torn: null });
    expect(text('front.csv')).toContain('d002,evolved,');
  });

  it('puts files on shelves under plain names only', () => {
    const run = create();
    expect(run.put('meshes', 'd001.stl', new Uint8Array([1, 2, 3]))).toBe(
      join(folder, 'meshes', 'd001.stl'),
    );
    expect([...readFileSync(join(folder, 'meshes', 'd001.stl'))]).toEqual([1, 2, 3]);
    for (const name of ['../x', 'a/b', '', '.hidden', 'a b']) {
      expect(() => run.put('meshes', name, '')).toThrow(/is no plain file name/u);
    }
    run.close();
  });

  it('goes on from the checkpoint with the history cut back to it', () => {
    const run = create();
    for (const entry of aHistory(7)) run.appendHistory(entry);
    run.keepCheckpoint(aCheckpoint(5));
    run.close();
    writeFileSync(join(folder, 'history.jsonl'), `${text('history.jsonl')}{"torn`);
    const again = openRun(folder, { write: true });
    expect(again.readHistory().torn).toMatch(/line 8 was only half written/u);
    expect(again.resume()).toEqual({ checkpoint: aCheckpoint(5), note: null });
    expect(text('history.jsonl')).toBe(writeHistoryFile(aHistory(5)));
    expect(text('run.log')).toMatch(/resumed at generation 5\n$/u);
    again.close();
  });

  it('knows whether a checkpoint was ever kept', () => {
    const run = create();
    expect(run.hasCheckpoint()).toBe(false);
    run.keepCheckpoint(aCheckpoint(1));
    expect(run.hasCheckpoint()).toBe(true);
    run.close();
  });

  it('replaces the brief when a resumed run gets a larger budget', () => {
    const run = create();
    const larger = aBrief({ 'search.generations': 999 });
    run.writeBrief(larger);
    expect(run.readBrief()).toEqual(larger);
    run.close();
  });

  it('has times in run.json and the log only', () => {
    const run = create();
    run.keepCheckpoint(aCheckpoint(2));
    run.writeFront(aFront());
    run.appendHistory(aHistory(1)[0]);
    run.touch();
    const year = new RegExp(`${new Date().getFullYear()}-`, 'u');
    const dated = readdirSync(folder).filter((name) => name.includes('.') && year.test(text(name)));
    expect(dated.toSorted()).toEqual(['run.json', 'run.log']);
    run.close();
  });
});
