/** Betters a chord by small moves, where fits end short of the clearest. */
import { radicalInverse } from '../../numeric/index.ts';
import { chordClearance } from './sight-line.ts';
import type { Chord, SightShape } from './sight-line.ts';

const keep = new Float64Array(4);
/** Moves of one size before it shrinks. */
const WAYS = 24;

/**
 * Betters a chord by moving its two ends about, by up to half the section's reach at first and a
 * thousandth of the bore at last.
 *
 * @param chord the chord, changed in place.
 * @param start_mm its clearance.
 * @param limit about how many moves at most.
 * @param enough_mm clearance with which to be content.
 * @returns its clearance at the end [mm].
 */
export function polishChord(
  sight: SightShape,
  chord: Chord,
  start_mm: number,
  limit: number,
  enough_mm = Infinity,
): number {
  const { samples, shape } = sight;
  const from = shape * samples.stations;
  const z0 = samples.point_mm[3 * from + 2];
  const z1 = samples.point_mm[3 * (from + samples.stations - 1) + 2];
  let best = start_mm;
  let move_mm = 0.5 * samples.reach_mm[from];
  const least_mm = 0.001 * samples.bore_mm[from];
  for (let tries = 0; move_mm >= least_mm && tries < limit && best < enough_mm;) {
    let isBetter = false;
    for (let way = 0; way < WAYS && best < enough_mm; way++) {
      keep.set(chord);
      tries++;
      // Where several stations bind at once only slanted moves help: evenly spread, never repeated.
      for (let axis = 0; axis < 2; axis++) {
        const inlet = move_mm * (2 * radicalInverse(tries, axis === 0 ? 2 : 3) - 1);
        const outlet = move_mm * (2 * radicalInverse(tries, axis === 0 ? 5 : 7) - 1);
        const slope = (outlet - inlet) / (z1 - z0);
        chord[axis] += inlet - slope * z0;
        chord[axis + 2] += slope;
      }
      const found = chordClearance(sight, chord, best);
      if (found > best) {
        best = found;
        isBetter = true;
      } else chord.set(keep);
    }
    if (!isBetter) move_mm *= 0.7;
  }
  return best;
}
