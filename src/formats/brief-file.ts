/** The brief as a file. */
import { InputError, readBrief } from '../brief/index.ts';
import type { Brief, ReadBriefOptions } from '../brief/index.ts';
import { writeJson } from './json.ts';
import { readJson } from './json-text.ts';

/**
 * Reads and checks the text of a brief file.
 *
 * @param where name of the file, for messages.
 * @throws InputError with every fault found.
 */
export function readBriefFile(
  text: string,
  where = 'brief',
  options: ReadBriefOptions = {},
): Brief {
  const read = readBrief(readJson(text, where, { strict: true }), options);
  if (!read.ok) throw new InputError(read.faults, where);
  return read.brief;
}

/** The brief as used, every default written out; reads back to the same brief. */
export function writeBriefFile(brief: Brief): string {
  return writeJson(brief, { negativeZero: 'zero' });
}
