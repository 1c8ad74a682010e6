/** The checkpoint file: everything a run needs to go on. */
import { InputError, headFault } from '../brief/index.ts';
import type { Checkpoint } from '../engine/index.ts';
import { CHECKPOINT_FORMAT, CHECKPOINT_VERSION, checkpointSchema } from './front-schema.ts';
import { innerBrief } from './inner-brief.ts';
import { writeJsonLine } from './json.ts';
import { readJson } from './json-text.ts';
import { throughSchema } from './through-schema.ts';

/**
 * Reads and checks the text of a checkpoint. `search` and `archive` are checked by the rooms that
 * made them.
 *
 * @param where name of the file, for messages.
 * @throws InputError with every fault found; a half-written file is called so.
 */
export function readCheckpointFile(text: string, where = 'checkpoint file'): Checkpoint {
  const value = readJson(text, where);
  const head = headFault(value, CHECKPOINT_FORMAT, CHECKPOINT_VERSION);
  if (head !== null) throw new InputError([head], where);
  const read = throughSchema(checkpointSchema, value, where);
  const { brief: written, ...rest } = read;
  const brief = innerBrief(written);
  if (!('format' in brief)) throw new InputError(brief, where);
  const { format, version, anfract, ...body } = rest;
  return { format, version, anfract, brief, ...body };
}

/**
 * Writes a checkpoint on one line. It keeps -0, unlike every other file, since a resumed run must
 * go on from the same bits.
 *
 * @throws RangeError naming the place of a number that is not finite.
 */
export function writeCheckpointFile(checkpoint: Checkpoint): string {
  return writeJsonLine(checkpoint, { negativeZero: 'keep' });
}
