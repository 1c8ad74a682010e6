/** Making and opening run folders. */
import { join, resolve } from 'node:path';
import { RunError } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import { writeBriefFile, writeRunRecord } from '../formats/index.ts';
import { DISK, codeOf, diskTrouble, isThere, makeFolder, namesIn } from './disk.ts';
import type { Disk } from './disk.ts';
import { LOCK, takeLock } from './lock.ts';
import { RUN_FILES, RUN_SHELVES, RunFolder } from './run-folder.ts';
import { PART, writeWhole } from './write-whole.ts';

export interface CreateRunOptions {
  /** Version of anfract. */
  readonly anfract: string;
  /** Versions of what the result depends on, by name. */
  readonly parts?: Readonly<Record<string, string>>;
  /** Replaces a run that stands there; false by default. Nothing but files of a run is removed. */
  readonly replace?: boolean;
  readonly disk?: Disk;
}

export interface OpenRunOptions {
  /** Opens for writing and takes the lock; false by default. */
  readonly write?: boolean;
  readonly disk?: Disk;
}

/**
 * Files that a run puts on its shelves: those of designs by their ids, with their coupons, starting
 * designs, pictures.
 * A replaced run takes them along, so that no mesh of the old front passes for one of the new.
 */
const SHELVED =
  /^(?:d\d{3,}(?:-open|-coupon|-flow[a-z0-9.-]*)?|start-\d{3,}|front)\.(?:design\.json|json|stl|3mf|svg|vti|vtp|state)$/u;

function removeIfThere(disk: Disk, path: string): void {
  try {
    disk.unlinkSync(path);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw diskTrouble(error, path);
  }
}

/**
 * Makes a run folder and takes its lock.
 *
 * @param folder path; made with its parents where needed.
 * @param brief the brief as used.
 * @throws RunError `run-exists` when a run stands there, `not-empty` when other files do, `locked`
 *   when another process writes it, or what the disk has to say.
 */
export function createRun(folder: string, brief: Brief, options: CreateRunOptions): RunFolder {
  const disk = options.disk ?? DISK;
  const path = resolve(folder);
  const files: readonly string[] = Object.values(RUN_FILES);
  const names = namesIn(disk, path);
  const ours = names.filter((name) => files.includes(name));
  if (ours.length > 0 && options.replace !== true) {
    const remedy = 'Resume it, give another folder, or say that it is to be replaced.';
    throw new RunError('run-exists', path, 'a run stands there already', remedy);
  }
  if (names.length > 0 && ours.length === 0 && !names.every((name) => name.startsWith(LOCK))) {
    const trouble = `it holds other files, such as ${names[0]}`;
    throw new RunError('not-empty', path, trouble, 'Give a new or empty folder.');
  }
  makeFolder(disk, path);
  const unlock = takeLock(disk, path);
  try {
    for (const name of ours) removeIfThere(disk, join(path, name));
    for (const shelf of RUN_SHELVES) {
      const place = join(path, shelf);
      makeFolder(disk, place);
      const old = namesIn(disk, place).filter((name) => SHELVED.test(name));
      for (const name of old) removeIfThere(disk, join(place, name));
    }
    const now = new Date().toISOString();
    const record = {
      anfract: options.anfract,
      parts: options.parts ?? {},
      seed: brief.search.seed,
      runtime: `node ${process.version}`,
      platform: `${process.platform} ${process.arch}`,
      started: now,
      updated: now,
    };
    writeWhole(disk, join(path, RUN_FILES.record), writeRunRecord(record));
    writeWhole(disk, join(path, RUN_FILES.brief), writeBriefFile(brief));
    const run = new RunFolder(path, disk, unlock);
    run.writeHistory([]);
    run.log('started');
    return run;
  } catch (error) {
    unlock();
    throw error;
  }
}

/**
 * Opens a run folder.
 *
 * @throws RunError `missing`, `not-a-folder`, or `no-run` naming the files it lacks; `locked` when
 *   it is opened for writing while another process writes it. InputError when run.json is damaged
 *   or made by a newer program.
 */
export function openRun(folder: string, options: OpenRunOptions = {}): RunFolder {
  const disk = options.disk ?? DISK;
  const path = resolve(folder);
  if (!isThere(disk, path)) {
    throw new RunError('missing', path, 'there is no such folder', 'Check the path.');
  }
  const names = namesIn(disk, path);
  const lacking = [RUN_FILES.record, RUN_FILES.brief].filter((name) => !names.includes(name));
  if (lacking.length > 0) {
    const trouble = `it is no run folder: ${lacking.join(' and ')} ${lacking.length > 1 ? 'are' : 'is'} missing`;
    throw new RunError('no-run', path, trouble, 'Give the folder that an evolution wrote.');
  }
  if (options.write !== true) {
    const run = new RunFolder(path, disk, null);
    run.readRecord();
    return run;
  }
  const unlock = takeLock(disk, path);
  try {
    const run = new RunFolder(path, disk, unlock);
    run.readRecord();
    // Half-written files that a crash left behind.
    for (const name of names) if (name.endsWith(PART)) removeIfThere(disk, join(path, name));
    return run;
  } catch (error) {
    unlock();
    throw error;
  }
}
