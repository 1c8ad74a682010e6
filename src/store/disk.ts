/** The few calls of the file system that the store makes, and what their failures mean. */
import * as fs from 'node:fs';
import { dirname } from 'node:path';
import { RunError } from '../brief/index.ts';

/** What the store needs of a file system; tests pass one that fails on purpose. */
export type Disk = Pick<
  typeof fs,
  | 'openSync'
  | 'fsyncSync'
  | 'fstatSync'
  | 'ftruncateSync'
  | 'closeSync'
  | 'renameSync'
  | 'unlinkSync'
  | 'mkdirSync'
  | 'statSync'
  | 'readFileSync'
  | 'readdirSync'
> & {
  /** Writes up to `length` bytes and says how many. */
  writeSync(file: number, data: Uint8Array, from?: number, length?: number): number;
};

export const DISK: Disk = fs;

/** The system's code of an error, such as ENOSPC; null for an error of another kind. */
export function codeOf(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error)) return null;
  return typeof error.code === 'string' ? error.code : null;
}

const TROUBLES: Readonly<Record<string, readonly [string, string, string]>> = {
  ENOSPC: ['disk-full', 'the disk is full', 'Free some space, then resume the run.'],
  EDQUOT: ['disk-full', 'the disk quota is used up', 'Free some space, then resume the run.'],
  EFBIG: ['disk-full', 'the file is too large for this disk', 'Use another disk.'],
  EACCES: [
    'no-permission',
    'access is not allowed',
    'Change its permissions or use another folder.',
  ],
  EPERM: [
    'no-permission',
    'access is not allowed',
    'Change its permissions or use another folder.',
  ],
  EROFS: ['no-permission', 'the disk is read-only', 'Use a folder on another disk.'],
  ENOTDIR: ['not-a-folder', 'a part of this path is a file, not a folder', 'Give another folder.'],
  EISDIR: ['not-a-file', 'it is a folder, not a file', 'Move it away.'],
  ENOENT: ['missing', 'it or the folder it lies in does not exist', 'Check the path.'],
  ENAMETOOLONG: ['bad-name', 'the path is too long', 'Use a shorter one.'],
  EMFILE: ['too-many-files', 'too many files are open', 'Close other programs and try again.'],
  EIO: ['disk-broken', 'the disk reports a fault', 'Use another disk and check this one.'],
};

/**
 * Turns a failure of the file system into a `RunError` with path and remedy; other errors are
 * passed through, since they are faults of this program.
 */
export function diskTrouble(error: unknown, path: string): unknown {
  const code = codeOf(error);
  if (code === null || error instanceof RunError) return error;
  const known = Object.hasOwn(TROUBLES, code) ? TROUBLES[code] : null;
  const [name, trouble, remedy] = known ?? [
    'disk',
    `the system says ${code}`,
    'Try another folder.',
  ];
  return new RunError(name, path, trouble, remedy, error);
}

/** Runs `action` on `path`, with failures of the file system turned into `RunError`. */
export function onDisk<T>(path: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    throw diskTrouble(error, path);
  }
}

/** Text of a file, or null when there is none. */
export function readIfThere(disk: Disk, path: string): string | null {
  try {
    return disk.readFileSync(path, 'utf8');
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw diskTrouble(error, path);
  }
}

/**
 * Makes a folder with its parents, unless it is there. Part by part: Node's own recursion never ends
 * where a parent stands but takes no folders, as in /proc.
 *
 * @throws RunError.
 */
export function makeFolder(disk: Disk, folder: string): void {
  const found = onDisk(folder, () => disk.statSync(folder, { throwIfNoEntry: false }));
  if (found?.isDirectory() === true) return;
  if (found !== undefined) throw notAFolder(folder, undefined);
  const parent = dirname(folder);
  if (parent !== folder) makeFolder(disk, parent);
  try {
    disk.mkdirSync(folder);
  } catch (error) {
    // Another process may have made it in between.
    if (codeOf(error) === 'EEXIST' && disk.statSync(folder).isDirectory()) return;
    throw diskTrouble(error, folder);
  }
}

function notAFolder(path: string, cause: unknown): RunError {
  const trouble = 'it is a file, not a folder';
  return new RunError('not-a-folder', path, trouble, 'Give another path.', cause);
}

export function isThere(disk: Disk, path: string): boolean {
  return onDisk(path, () => disk.statSync(path, { throwIfNoEntry: false })) !== undefined;
}

/** Names in a folder, none where it does not exist. @throws RunError `not-a-folder` for a file. */
export function namesIn(disk: Disk, folder: string): readonly string[] {
  try {
    return disk.readdirSync(folder);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    if (codeOf(error) === 'ENOTDIR') throw notAFolder(folder, error);
    throw diskTrouble(error, folder);
  }
}
