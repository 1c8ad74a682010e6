/** A run folder on disk. */
import { join, resolve } from 'node:path';
import { RunError } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import type { Checkpoint, Front, HistoryEntry } from '../engine/index.ts';
import {
  mergeCases,
  readBriefFile,
  readFrontFile,
  readHistoryFile,
  readRunRecord,
  readVerifyFile,
  writeBriefFile,
  writeFrontCsv,
  writeFrontFile,
  writeHistoryFile,
  writeHistoryLine,
  writeRunRecord,
  writeVerifyFile,
} from '../formats/index.ts';
import type { History, RunRecord, VerifyCase } from '../formats/index.ts';
import { findCheckpoint, isSound, keepCheckpoint } from './checkpoints.ts';
import type { FoundCheckpoint } from './checkpoints.ts';
import { makeFolder, namesIn, readIfThere } from './disk.ts';
import type { Disk } from './disk.ts';
import { appendLine, writeWhole } from './write-whole.ts';

/** Names of the files of a run folder. */
export const RUN_FILES = {
  record: 'run.json',
  brief: 'brief.json',
  front: 'front.json',
  table: 'front.csv',
  history: 'history.jsonl',
  checkpoint: 'checkpoint.json',
  previous: 'checkpoint.previous.json',
  log: 'run.log',
  report: 'report.html',
  verify: 'verify.json',
} as const;

/** Folders for what is made of chosen designs. */
export const RUN_SHELVES = ['designs', 'meshes', 'pictures'] as const;
export type Shelf = (typeof RUN_SHELVES)[number];

/** An open run folder. One opened for writing holds its lock until `close()`. */
export class RunFolder {
  readonly path: string;
  readonly #disk: Disk;
  readonly #unlock: (() => void) | null;
  /** Whether the checkpoint in place is known to be readable; null: not looked at yet. */
  #sound: boolean | null = null;

  /** @param unlock gives the lock back; null for a folder that is only read. */
  constructor(path: string, disk: Disk, unlock: (() => void) | null) {
    this.path = resolve(path);
    this.#disk = disk;
    this.#unlock = unlock;
  }

  #at(name: string): string {
    return join(this.path, name);
  }

  #writable(): void {
    if (this.#unlock !== null) return;
    throw new Error(`${this.path} was opened for reading only`);
  }

  #text(name: string, remedy: string): string {
    const text = readIfThere(this.#disk, this.#at(name));
    if (text === null) throw new RunError('missing', this.#at(name), 'it does not exist', remedy);
    return text;
  }

  /** @throws InputError, RunError. */
  readRecord(): RunRecord {
    return readRunRecord(
      this.#text(RUN_FILES.record, 'Give a run folder.'),
      this.#at(RUN_FILES.record),
    );
  }

  /** @throws InputError, RunError. */
  readBrief(): Brief {
    return readBriefFile(
      this.#text(RUN_FILES.brief, 'Give a run folder.'),
      this.#at(RUN_FILES.brief),
    );
  }

  /** @throws InputError, RunError. */
  readFront(): Front {
    const remedy = 'The run has not ended yet: let it, or resume it.';
    return readFrontFile(this.#text(RUN_FILES.front, remedy), this.#at(RUN_FILES.front));
  }

  /**
   * Flows computed for designs of this run; none where there is no file.
   *
   * @throws InputError when the file is damaged or of another kind, RunError.
   */
  readVerify(): VerifyCase[] {
    const text = readIfThere(this.#disk, this.#at(RUN_FILES.verify));
    return text === null ? [] : readVerifyFile(text, this.#at(RUN_FILES.verify));
  }

  /**
   * Joins computed flows with those that stand there. It needs no lock, as `put`.
   *
   * @throws InputError when what stands there cannot be read, RunError.
   */
  addVerify(anfract: string, cases: readonly VerifyCase[]): void {
    const all = mergeCases(this.readVerify(), cases);
    writeWhole(this.#disk, this.#at(RUN_FILES.verify), writeVerifyFile(anfract, all));
  }

  /** A picture put there before; null where it is gone. @throws RunError. */
  readPicture(name: string): string | null {
    return readIfThere(this.#disk, join(this.#at('pictures'), name));
  }

  /** Whether a front was written. */
  hasFront(): boolean {
    return readIfThere(this.#disk, this.#at(RUN_FILES.front)) !== null;
  }

  /** @throws InputError, RunError. */
  readHistory(): History {
    const text = this.#text(RUN_FILES.history, 'Resume the run to have it written again.');
    return readHistoryFile(text, this.#at(RUN_FILES.history));
  }

  /** Whether a checkpoint was ever kept; a run killed before has none and can only begin anew. */
  hasCheckpoint(): boolean {
    return [RUN_FILES.checkpoint, RUN_FILES.previous].some(
      (name) => readIfThere(this.#disk, this.#at(name)) !== null,
    );
  }

  /** Replaces the brief as used, when a resumed run is given a larger budget. @throws RunError. */
  writeBrief(brief: Brief): void {
    this.#writable();
    writeWhole(this.#disk, this.#at(RUN_FILES.brief), writeBriefFile(brief));
  }

  /**
   * The newest checkpoint that can be read, and why an earlier one was taken.
   *
   * @throws RunError when there is none.
   */
  findCheckpoint(): FoundCheckpoint {
    const found = findCheckpoint(
      this.#disk,
      this.#at(RUN_FILES.checkpoint),
      this.#at(RUN_FILES.previous),
    );
    this.#sound = found.note === null;
    return found;
  }

  /**
   * Prepares the folder for going on: the history is cut back to the checkpoint, so that in the
   * end every file is what an uninterrupted run would have written.
   *
   * @throws RunError when there is no checkpoint.
   */
  resume(): FoundCheckpoint {
    this.#writable();
    const found = this.findCheckpoint();
    this.writeHistory(found.checkpoint.history);
    if (found.note !== null) this.log(found.note);
    this.log(`resumed at generation ${found.checkpoint.history.length}`);
    return found;
  }

  /** Replaces the checkpoint once the new one reads back. @throws RunError. */
  keepCheckpoint(checkpoint: Checkpoint): void {
    this.#writable();
    const current = this.#at(RUN_FILES.checkpoint);
    this.#sound ??= isSound(this.#disk, current);
    keepCheckpoint(this.#disk, checkpoint, current, this.#at(RUN_FILES.previous), this.#sound);
    this.#sound = true;
  }

  /** Writes the whole history. @throws RunError. */
  writeHistory(entries: readonly HistoryEntry[]): void {
    this.#writable();
    writeWhole(this.#disk, this.#at(RUN_FILES.history), writeHistoryFile(entries));
  }

  /** Adds a generation to the history. @throws RunError. */
  appendHistory(entry: HistoryEntry): void {
    this.#writable();
    appendLine(this.#disk, this.#at(RUN_FILES.history), writeHistoryLine(entry));
  }

  /** Writes the front, as JSON and as a table. @throws RunError. */
  writeFront(front: Front): void {
    this.#writable();
    writeWhole(this.#disk, this.#at(RUN_FILES.front), writeFrontFile(front));
    writeWhole(this.#disk, this.#at(RUN_FILES.table), writeFrontCsv(front));
  }

  /**
   * Writes a file onto a shelf, or into the run folder itself when `shelf` is null. It needs no
   * lock: a mesh may be made while the run goes on.
   *
   * @param name plain file name.
   * @returns path of the file.
   * @throws RunError.
   */
  put(shelf: Shelf | null, name: string, data: string | Uint8Array): string {
    if (!/^[A-Za-z0-9_][A-Za-z0-9._-]{0,120}$/u.test(name)) {
      const trouble = `'${name}' is no plain file name`;
      throw new RunError('bad-name', this.path, trouble, 'Use letters, digits, dot, - and _ only.');
    }
    const folder = shelf === null ? this.path : this.#at(shelf);
    makeFolder(this.#disk, folder);
    const path = join(folder, name);
    writeWhole(this.#disk, path, data);
    return path;
  }

  /** Paths of the files on a shelf, in order of their names. @throws RunError. */
  list(shelf: Shelf): string[] {
    const folder = this.#at(shelf);
    return namesIn(this.#disk, folder)
      .toSorted()
      .map((name) => join(folder, name));
  }

  /** Adds a line with the time to the log. @throws RunError. */
  log(text: string): void {
    this.#writable();
    const time = new Date().toISOString();
    appendLine(this.#disk, this.#at(RUN_FILES.log), `${time} ${text.replaceAll('\n', ' | ')}\n`);
  }

  /** Notes the time of the last change in run.json. @throws InputError, RunError. */
  touch(): void {
    this.#writable();
    const record = { ...this.readRecord(), updated: new Date().toISOString() };
    writeWhole(this.#disk, this.#at(RUN_FILES.record), writeRunRecord(record));
  }

  /** Gives the lock back; the folder must not be written afterwards. */
  close(): void {
    this.#unlock?.();
  }
}
