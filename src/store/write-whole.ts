/** Files that are either the old one or the new one, never something between. */
import { dirname } from 'node:path';
import { codeOf, diskTrouble } from './disk.ts';
import type { Disk } from './disk.ts';

/** Ending of a file that is being written; one left behind by a crash means nothing. */
export const PART = '.part';

function writeAll(disk: Disk, file: number, bytes: Uint8Array): void {
  let done = 0;
  // One call may write less than it was given.
  while (done < bytes.length) done += disk.writeSync(file, bytes, done, bytes.length - done);
}

/** Makes a rename last through a power cut, on systems that can. */
export function syncFolder(disk: Disk, folder: string): void {
  let handle: number | null = null;
  try {
    handle = disk.openSync(folder, 'r');
    disk.fsyncSync(handle);
  } catch (error) {
    // Some systems and network disks cannot sync a folder; the file itself is synced.
    if (
      !['EINVAL', 'EISDIR', 'EPERM', 'EACCES', 'ENOTSUP', 'EBADF'].includes(codeOf(error) ?? '')
    ) {
      throw diskTrouble(error, folder);
    }
  } finally {
    if (handle !== null) disk.closeSync(handle);
  }
}

/** Writes `path` + PART and syncs it. On failure the part is removed and the error thrown. */
export function writePart(disk: Disk, path: string, data: string | Uint8Array): string {
  const part = path + PART;
  const bytes = typeof data === 'string' ? new TextEncoder().encode(data) : data;
  let file: number | null = null;
  try {
    file = disk.openSync(part, 'w');
    writeAll(disk, file, bytes);
    disk.fsyncSync(file);
    disk.closeSync(file);
    return part;
  } catch (error) {
    if (file !== null) dropPart(disk, file, part);
    throw diskTrouble(error, path);
  }
}

function dropPart(disk: Disk, file: number, part: string): void {
  for (const step of [() => disk.closeSync(file), () => disk.unlinkSync(part)]) {
    try {
      step();
    } catch (error) {
      // The first failure is the one to report; a part left behind is removed on the next opening.
      if (codeOf(error) === null) throw error;
    }
  }
}

/**
 * Writes a file beside its place, syncs it and renames it over the old one.
 *
 * @throws RunError; the old file is then as it was.
 */
export function writeWhole(disk: Disk, path: string, data: string | Uint8Array): void {
  const part = writePart(disk, path, data);
  try {
    disk.renameSync(part, path);
  } catch (error) {
    throw diskTrouble(error, path);
  }
  syncFolder(disk, dirname(path));
}

/**
 * Adds a line to a file. When the disk fills up half way, the file is cut back to what it was.
 *
 * @throws RunError.
 */
export function appendLine(disk: Disk, path: string, line: string): void {
  let file: number | null = null;
  try {
    file = disk.openSync(path, 'a');
    const size = disk.fstatSync(file).size;
    try {
      writeAll(disk, file, new TextEncoder().encode(line));
    } catch (error) {
      disk.ftruncateSync(file, size);
      throw error;
    }
  } catch (error) {
    throw diskTrouble(error, path);
  } finally {
    if (file !== null) disk.closeSync(file);
  }
}
