/** A correction of the pressure estimate as a file of its own, and as words. */
import * as z from 'zod';
import { InputError, correctionSchema, headFault, jsonSchemaOf } from '../brief/index.ts';
import type { Brief, Correction, JsonSchema } from '../brief/index.ts';
import { figure } from './figure.ts';
import { writeJson } from './json.ts';
import { readJson } from './json-text.ts';
import { throughSchema } from './through-schema.ts';

const CORRECTION_FORMAT = 'anfract-correction';
const CORRECTION_VERSION = 1;

const fileSchema = z.strictObject({
  format: z.literal(CORRECTION_FORMAT),
  version: z.literal(CORRECTION_VERSION),
  anfract: z.string().describe('Version of anfract that fitted it.'),
  correction: correctionSchema,
});

/**
 * Reads the text of a correction file.
 *
 * @param where name of the file, for messages.
 * @throws InputError when it is half written, another kind of file, newer or damaged.
 */
export function readCorrectionFile(text: string, where = 'correction file'): Correction {
  const value = readJson(text, where);
  const head = headFault(value, CORRECTION_FORMAT, CORRECTION_VERSION);
  if (head !== null) throw new InputError([head], where);
  return throughSchema(fileSchema, value, where).correction;
}

export function writeCorrectionFile(anfract: string, correction: Correction): string {
  const head = { format: CORRECTION_FORMAT, version: CORRECTION_VERSION, anfract };
  return writeJson({ ...head, correction }, { negativeZero: 'zero' });
}

/** JSON Schema of the file. */
export function correctionJsonSchema(): JsonSchema {
  return jsonSchemaOf(fileSchema, `anfract correction, version ${CORRECTION_VERSION}`);
}

/** An error of a logarithm as people read it. */
const percent = (error: number): string => `${figure(Number((100 * error).toPrecision(2)))} %`;

/** One sentence on the correction that a brief carries; null without one. */
export function citeCorrection({ correction }: Pick<Brief, 'correction'>): string | null {
  if (correction === undefined) return null;
  const { source, cases, designs, error } = correction;
  return `Pressure drops are corrected by ${cases} computed flows of ${designs} designs (${source}): off by ${percent(error.before)} without it, by ${percent(error.designLeftOut ?? error.leftOut)} with it for designs left out of the fit (root mean square).`;
}
