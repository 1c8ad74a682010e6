/** Banks of channels that air must pass one after the other. */
import { END } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';

/** 0: a channel by itself; 1: into the plenum; 2: out of the plenum. */
type Bank = 0 | 1 | 2;

/** The bank of a shape; 0 in every plate without a plenum. */
export function bankOf({ sides }: PlateSamples, shape: number): Bank {
  if (sides === null) return 0;
  if (sides.kind[2 * shape + 1] === END.plenum) return 1;
  return sides.kind[2 * shape] === END.plenum ? 2 : 0;
}
