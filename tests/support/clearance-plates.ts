/** Builders for clearance tests; the plates themselves are shared with the bench. */
import { sampleDesign } from '../../src/design/index.ts';
import type { Channel, Design, PlateSamples, Section } from '../../src/design/index.ts';
import { measureClearance } from '../../src/measures/clearance/clearance.ts';
import type { ClearanceReport } from '../../src/measures/clearance/clearance.ts';
import { aChannel, at } from '../../experiments/bench/clearance/plates.ts';

export {
  ROUND,
  aChannel,
  aDesign,
  aLattice,
  aTangle,
  at,
  uniform,
} from '../../experiments/bench/clearance/plates.ts';
export type { Point } from '../../experiments/bench/clearance/plates.ts';

/** Bores of each shape, as `measureClearance` wants them. */
export function boresOf(design: Design, samples: PlateSamples): (readonly number[])[] {
  return Array.from(samples.channelOfShape, (c) => design.channels[c].bore_mm);
}

/** Clearance of a design at a minimum wall of 0.8 mm. */
export function clearance(design: Design, stations = 32, blockSize = 8): ClearanceReport {
  const samples = sampleDesign(design, stations);
  return measureClearance(samples, boresOf(design, samples), 0.8, blockSize);
}

/** A straight channel square to the faces. */
export function upright(section: Section, x: number, y: number, roll_deg = 0, bore = 4): Channel {
  return aChannel(
    [
      [0, 0, 0],
      [0, 0, 20],
    ],
    { section, bore_mm: [bore], roll_deg, placements: [at(x, y)] },
  );
}
