/** The whole check of a brief: its own schema and contradictions, and the measures it names. */
import { InputError, readBrief } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import { MEASURES } from '../measures/index.ts';
import { readGoals } from './goals.ts';

/**
 * @param value parsed JSON.
 * @param where what was read, for the message.
 * @throws InputError with every fault found.
 */
export function checkBrief(value: unknown, where = 'brief'): Brief {
  const read = readBrief(value, { measures: MEASURES.map((measure) => measure.id) });
  if (!read.ok) throw new InputError(read.faults, where);
  readGoals(read.brief, where);
  return read.brief;
}
