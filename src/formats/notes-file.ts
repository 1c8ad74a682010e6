/** Notes and stars on the designs of a front: a small file that travels with it. */
import * as z from 'zod';
import { InputError, fault, headFault } from '../brief/index.ts';
import type { Front } from '../engine/index.ts';
import { sha256 } from '../numeric/index.ts';
import { writeFrontFile } from './front-file.ts';
import { writeJson } from './json.ts';
import { readJson } from './json-text.ts';
import { throughSchema } from './through-schema.ts';

const NOTES_FORMAT = 'anfract-notes';
const NOTES_VERSION = 1;
/** Longest note [characters]: a page of text. */
const LONGEST = 4000;

const notesSchema = z.strictObject({
  format: z.literal(NOTES_FORMAT),
  version: z.literal(NOTES_VERSION),
  // SHA-256 of the front file, so that notes never land on another front's designs.
  front: z.string().regex(/^[0-9a-f]{64}$/u),
  designs: z
    .array(
      z.strictObject({
        id: z.string().regex(/^d\d{3,9}$/u),
        star: z.boolean(),
        note: z.string().max(LONGEST),
      }),
    )
    .max(100_000),
});

/** What somebody noted about a design. */
export interface DesignNote {
  readonly id: string;
  readonly star: boolean;
  readonly note: string;
}

export interface Notes {
  /** Digest of the front they belong to, see `frontDigest`. */
  readonly front: string;
  readonly designs: readonly DesignNote[];
}

/**
 * Digest of a front: SHA-256 of its file, as this program writes it. A copy whose lines were broken
 * otherwise keeps its digest.
 *
 * @returns 64 hexadecimal digits.
 */
export function frontDigest(front: Front): string {
  return sha256(new TextEncoder().encode(writeFrontFile(front)));
}

/**
 * Reads the text of a notes file.
 *
 * @param where name of the file, for messages.
 * @throws InputError with every fault found.
 */
export function readNotesFile(text: string, where = 'notes file'): Notes {
  const value = readJson(text, where);
  const head = headFault(value, NOTES_FORMAT, NOTES_VERSION);
  if (head !== null) throw new InputError([head], where);
  const { front, designs } = throughSchema(notesSchema, value, where);
  const seen = new Set<string>();
  const twice = designs.flatMap(({ id }, i) => {
    const again = seen.has(id);
    seen.add(id);
    const remedy = 'Join the two notes into one.';
    return again ? [fault(`designs[${i}].id`, `'${id}' again`, 'stand once', remedy)] : [];
  });
  if (twice.length > 0) throw new InputError(twice, where);
  return { front, designs };
}

/** Writes notes, in order of the designs' ids; those that say nothing are left out. */
export function writeNotesFile({ front, designs }: Notes): string {
  const told = designs
    .filter(({ star, note }) => star || note !== '')
    .map(({ id, star, note }) => ({ id, star, note: note.slice(0, LONGEST) }))
    .toSorted((a, b) => a.id.length - b.id.length || (a.id < b.id ? -1 : 1));
  return writeJson({ format: NOTES_FORMAT, version: NOTES_VERSION, front, designs: told });
}
