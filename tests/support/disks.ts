/** Temporary folders, and disks that fail on purpose. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DISK } from '../../src/store/index.ts';
import type { Disk } from '../../src/store/index.ts';

/** A new empty folder, removed by the function returned. */
export function aFolder(): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'anfract-test-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

/** A failure as the system reports it. */
export function systemError(code: string): Error {
  return Object.assign(new Error(`${code}: made by a test`), { code });
}

/** A disk on which only `room` more bytes can be written; the write that meets its end is cut. */
export function fullDisk(room: number): Disk {
  let left = room;
  const writeSync = (file: number, data: Uint8Array, from = 0, length?: number): number => {
    const wanted = length ?? data.length;
    if (left <= 0) throw systemError('ENOSPC');
    const some = Math.min(wanted, left);
    left -= some;
    return DISK.writeSync(file, data, from, some);
  };
  return { ...DISK, writeSync };
}

/** A disk whose call `name` fails from the `nth` time on (1 = at once), with a system code. */
export function failingDisk(name: keyof Disk, nth: number, code: string): Disk {
  let calls = 0;
  const call: (...given: never[]) => unknown = DISK[name];
  const failing = (...given: never[]): unknown => {
    calls++;
    if (calls >= nth) throw systemError(code);
    return call(...given);
  };
  return { ...DISK, [name]: failing };
}
