/** The history file: one line of JSON per generation (JSON Lines). */
import { InputError, fault } from '../brief/index.ts';
import type { HistoryEntry } from '../engine/index.ts';
import { historySchema } from './front-schema.ts';
import { writeJsonLine } from './json.ts';
import { readJson } from './json-text.ts';
import { throughSchema } from './through-schema.ts';

export interface History {
  readonly entries: readonly HistoryEntry[];
  /** What was left out at the end because it was only half written, in words; null when nothing. */
  readonly torn: string | null;
}

function entryOf(line: string, where: string): HistoryEntry {
  return throughSchema(historySchema, readJson(line, where), where);
}

/**
 * Reads a history. A last line without its line break was cut off by a crash: it is left out and
 * `torn` says so. Any other broken line is a fault.
 *
 * @param where name of the file, for messages.
 * @throws InputError naming the line.
 */
export function readHistoryFile(text: string, where = 'history file'): History {
  const lines = text.split('\n');
  const rest = lines.pop() ?? '';
  const entries = lines.map((line, i) => entryOf(line, `${where}, line ${i + 1}`));
  for (const [i, entry] of entries.entries()) {
    const before = i === 0 ? null : entries[i - 1].generation;
    if (before === null || entry.generation > before) continue;
    const path = `line ${i + 1}: generation`;
    const allowed = `be greater than ${before}, that of the line before`;
    const remedy =
      'The file was changed or joined from two: resume the run to have it written again.';
    throw new InputError([fault(path, String(entry.generation), allowed, remedy)], where);
  }
  const torn =
    rest === '' ? null : `${where}: line ${lines.length + 1} was only half written and is left out`;
  return { entries, torn };
}

/** One line of a history, with its line break. */
export function writeHistoryLine(entry: HistoryEntry): string {
  return writeJsonLine(entry, { negativeZero: 'zero' });
}

/** A whole history. */
export function writeHistoryFile(entries: readonly HistoryEntry[]): string {
  return entries.map(writeHistoryLine).join('');
}
