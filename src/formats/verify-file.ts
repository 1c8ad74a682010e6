/** The file of computed flows: `verify.json` in a run folder. */
import { InputError, headFault } from '../brief/index.ts';
import { writeJson } from './json.ts';
import { readJson } from './json-text.ts';
import { throughSchema } from './through-schema.ts';
import { VERIFY_FORMAT, VERIFY_VERSION, verifySchema } from './verify-schema.ts';
import type { VerifyCase } from './verify-schema.ts';

/**
 * Reads the text of a file of computed flows.
 *
 * @param where name of the file, for messages.
 * @throws InputError when it is half written, another kind of file, newer or damaged.
 */
export function readVerifyFile(text: string, where = 'verify file'): VerifyCase[] {
  const value = readJson(text, where);
  const head = headFault(value, VERIFY_FORMAT, VERIFY_VERSION);
  if (head !== null) throw new InputError([head], where);
  return throughSchema(verifySchema, value, where).cases;
}

/** Writes computed flows in a fixed order, whatever order they were solved in. */
export function writeVerifyFile(anfract: string, cases: readonly VerifyCase[]): string {
  const ordered = cases.toSorted(compareCases);
  const file = { format: VERIFY_FORMAT, version: VERIFY_VERSION, anfract, cases: ordered };
  return writeJson(file, { negativeZero: 'zero' });
}

/**
 * Joins new results with earlier ones: a new result replaces the earlier one of the same channel at
 * the same velocity, and results of a plate that no longer bears its id are left out.
 */
export function mergeCases(
  earlier: readonly VerifyCase[],
  later: readonly VerifyCase[],
): VerifyCase[] {
  const digests = new Map(later.map(({ design, digest }) => [design, digest]));
  const kept = earlier.filter(
    (old) =>
      (digests.get(old.design) ?? old.digest) === old.digest &&
      !later.some((entry) => isSameCase(old, entry)),
  );
  return [...kept, ...later].toSorted(compareCases);
}

/** What tells one computed flow from another; a finer grid or a newer solver replaces. */
export type CaseKey = Pick<VerifyCase, 'design' | 'digest' | 'shape' | 'velocity_m_per_s'>;

/** Relative difference below which two velocities are one: they come out of a sum done twice. */
const SAME_VELOCITY = 1e-9;

/** Whether both are the same channel of the same plate at the same velocity. */
export function isSameCase(a: CaseKey, b: CaseKey): boolean {
  return (
    a.design === b.design &&
    a.digest === b.digest &&
    a.shape === b.shape &&
    Math.abs(a.velocity_m_per_s - b.velocity_m_per_s) <= SAME_VELOCITY * a.velocity_m_per_s
  );
}

function compareCases(a: VerifyCase, b: VerifyCase): number {
  return (
    a.design.length - b.design.length ||
    (a.design < b.design ? -1 : a.design > b.design ? 1 : 0) ||
    a.medianVelocity_m_per_s - b.medianVelocity_m_per_s ||
    a.velocity_m_per_s - b.velocity_m_per_s ||
    a.shape - b.shape
  );
}
