/** Keeping and finding the checkpoint of a run folder. */
import { dirname } from 'node:path';
import { InputError, RunError } from '../brief/index.ts';
import type { Checkpoint } from '../engine/index.ts';
import { readCheckpointFile, writeCheckpointFile } from '../formats/index.ts';
import { onDisk, readIfThere } from './disk.ts';
import type { Disk } from './disk.ts';
import { syncFolder, writePart } from './write-whole.ts';

export interface FoundCheckpoint {
  readonly checkpoint: Checkpoint;
  /** Why an earlier checkpoint was taken, in words; null when the last one was sound. */
  readonly note: string | null;
}

/** Reads one checkpoint; a reason instead when it cannot be used. */
function tryRead(disk: Disk, path: string): Checkpoint | string {
  const text = readIfThere(disk, path);
  if (text === null) return `${path}: it does not exist`;
  try {
    return readCheckpointFile(text, path);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.message;
  }
}

/** Whether a checkpoint stands at `path` and can be read. */
export function isSound(disk: Disk, path: string): boolean {
  return typeof tryRead(disk, path) !== 'string';
}

/**
 * The newest checkpoint that can be read.
 *
 * @throws RunError naming what is wrong with both when neither can.
 */
export function findCheckpoint(disk: Disk, current: string, previous: string): FoundCheckpoint {
  const last = tryRead(disk, current);
  if (typeof last !== 'string') return { checkpoint: last, note: null };
  const before = tryRead(disk, previous);
  if (typeof before === 'string') {
    const trouble = `there is no checkpoint to go on from (${last}; ${before})`;
    const remedy = 'Start the run anew; the same brief and seed give the same front.';
    throw new RunError('no-checkpoint', dirname(current), trouble, remedy);
  }
  const generation = before.history.length;
  const note = `${last}\nGoing on from the previous checkpoint, generation ${generation}, instead.`;
  return { checkpoint: before, note };
}

/**
 * Replaces the checkpoint once the new one is on the disk and reads back; the old one becomes the
 * previous one.
 *
 * @param rotate false drops the current one, because it cannot be read: the previous one stays.
 * @throws RunError; the old checkpoints are then as they were.
 */
export function keepCheckpoint(
  disk: Disk,
  checkpoint: Checkpoint,
  current: string,
  previous: string,
  rotate: boolean,
): void {
  const text = writeCheckpointFile(checkpoint);
  const part = writePart(disk, current, text);
  const back = readIfThere(disk, part);
  if (back !== text) {
    const remedy = 'The checkpoint before it is kept. Check the disk, then resume the run.';
    throw new RunError('disk-broken', current, 'what was written does not read back', remedy);
  }
  readCheckpointFile(back, part);
  onDisk(current, () => {
    if (rotate) disk.renameSync(current, previous);
    try {
      disk.renameSync(part, current);
    } catch (error) {
      if (rotate) disk.renameSync(previous, current);
      throw error;
    }
  });
  syncFolder(disk, dirname(current));
}
