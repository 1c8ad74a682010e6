/** What all measures of strength say alike. */
import type { Brief } from '../brief/index.ts';

export const STRENGTH_CAUTION =
  'An estimate to rank designs, not a strength calculation: prints vary, and a part that carries load or guards people must be proven by test and judged by a qualified person under local codes.';

export function needsPush(brief: Brief): string | null {
  return brief.strength === undefined
    ? 'The brief states no push: add a section strength, {} for the defaults.'
    : null;
}
