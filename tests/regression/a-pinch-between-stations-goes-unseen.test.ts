import { expect, it } from 'vitest';
import { channelVelocity } from '../../src/measures/channel-velocity.ts';
import { finestFeature } from '../../src/measures/finest-feature.ts';
import { probeOpening } from '../../src/measures/probe-opening.ts';
import { assess } from '../support/assessments.ts';
import { aChannel } from '../support/plates.ts';

// 63 bores along the channel: the odd ones fall right between 32 stations. Drawn 5 mm with one waist
// of 1.2 mm, which once read as a clear bore of 5 mm and 51 m/s.
const WAIST = aChannel({ bore_mm: Array.from({ length: 63 }, (_, i) => (i === 31 ? 1.2 : 5)) });

it('a waist between two stations shows in flow, finest opening and probe', () => {
  for (const options of [{ stations: 32 }, { stations: 64 }, { stations: 64, exact: true }]) {
    const assessment = assess(WAIST, options);
    // As drawn: bore 1.2 mm, 0.2 mm less as printed, 0.3 mm more for the probe (the brief's defaults).
    expect(finestFeature.evaluate(assessment)).toBeCloseTo(1, 9);
    expect(probeOpening.evaluate(assessment)).toBeCloseTo(1.5, 9);
    // Continuity: 30 m3/h through a printed bore of 1.0 mm (Q / A).
    const speed = 30 / 3600 / ((Math.PI / 4) * 1e-6);
    expect(channelVelocity.evaluate(assessment) / speed).toBeCloseTo(1, 6);
  }
});
