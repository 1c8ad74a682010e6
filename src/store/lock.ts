/** One process at a time writes a run: a lock file with the writer's process id. */
import { hostname } from 'node:os';
import { resolve } from 'node:path';
import { RunError } from '../brief/index.ts';
import { codeOf, diskTrouble, onDisk, readIfThere } from './disk.ts';
import type { Disk } from './disk.ts';

export const LOCK = 'run.lock';

/** Locks this process holds: a lock with our own id that is not among them is an old one. */
const held = new Set<string>();

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // EPERM: it lives, but belongs to somebody else.
    return codeOf(error) === 'EPERM';
  }
}

/** A lock that names nobody yet may be one whose writer is between making and filling it [ms]. */
const FILLING_MS = 10_000;

/** Whether the writer named in a lock can still be at work. */
function isHeld(disk: Disk, text: string, path: string): boolean {
  const [pid, host] = text.trim().split(' ');
  const id = Number(pid);
  if (!Number.isInteger(id) || id <= 0 || host === undefined) {
    const age_ms = Date.now() - onDisk(path, () => disk.statSync(path).mtimeMs);
    return age_ms < FILLING_MS;
  }
  if (host !== hostname()) return true;
  return id === process.pid ? held.has(path) : isAlive(id);
}

function lockedBy(text: string, path: string): RunError {
  const [pid, host] = text.trim().split(' ');
  const who = host === undefined ? 'another process' : `process ${pid} on ${host}`;
  const remedy = `Wait for it or end it first. If no such process writes this run, remove ${path}.`;
  return new RunError('locked', path, `${who} is writing this run`, remedy);
}

/** Writes the lock unless there is one; false when there is. */
function create(disk: Disk, path: string): boolean {
  let file: number;
  try {
    file = disk.openSync(path, 'wx');
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw diskTrouble(error, path);
  }
  try {
    disk.writeSync(file, new TextEncoder().encode(`${process.pid} ${hostname()}\n`));
  } catch (error) {
    disk.unlinkSync(path);
    throw diskTrouble(error, path);
  } finally {
    disk.closeSync(file);
  }
  held.add(path);
  return true;
}

/**
 * Takes the lock of a run folder. A lock whose process has ended is taken over.
 *
 * @returns a function that gives the lock back.
 * @throws RunError `locked` naming the process that has it.
 */
export function takeLock(disk: Disk, folder: string): () => void {
  const path = resolve(folder, LOCK);
  // Two tries: the second one after an old lock was cleared away.
  for (let tries = 0; tries < 2; tries++) {
    if (create(disk, path)) return () => giveBack(disk, path);
    const found = readIfThere(disk, path);
    if (found === null) continue;
    if (isHeld(disk, found, path)) throw lockedBy(found, path);
    clearOld(disk, path, found);
  }
  throw lockedBy(readIfThere(disk, path) ?? '', path);
}

/** Moves an old lock aside and removes it; another process that was faster gets its lock back. */
function clearOld(disk: Disk, path: string, found: string): void {
  const aside = `${path}.${process.pid}`;
  try {
    disk.renameSync(path, aside);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    throw diskTrouble(error, path);
  }
  const moved = readIfThere(disk, aside);
  if (moved !== null && moved !== found) {
    disk.renameSync(aside, path);
    throw lockedBy(moved, path);
  }
  disk.unlinkSync(aside);
}

function giveBack(disk: Disk, path: string): void {
  if (!held.delete(path)) return;
  try {
    disk.unlinkSync(path);
  } catch (error) {
    // Somebody removed it by hand: then it is given back already.
    if (codeOf(error) !== 'ENOENT') throw diskTrouble(error, path);
  }
}
