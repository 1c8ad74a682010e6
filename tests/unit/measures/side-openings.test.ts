/** Sight through side exits, and what fingers find there. */
import { describe, expect, it } from 'vitest';
import type { Channel } from '../../../src/design/index.ts';
import { leakAnalysis, sightAnalysis } from '../../../src/measures/analyses/sight.ts';
import { openingsAnalysis } from '../../../src/measures/analyses/openings.ts';
import { directViewFactor } from '../../../src/physics/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief } from '../../support/briefs.ts';
import { A_RING, aManifold, aSidePlate } from '../../support/side-plates.ts';

const brief = aBrief({ 'air.route': { kind: 'side', merge: 'any' }, 'plate.thickness_mm': 18 });

/** A straight slanted bore from the inlet face out through the rim. */
const SLANTED: Partial<Channel> = {
  points_mm: [
    [28, 0, 0],
    [40, 0, 9],
  ],
  inletDirection: null,
  outletDirection: null,
  section: { kind: 'round' },
};

describe('sight through side exits', () => {
  it.each([[false], [true]])('is the bore of a straight slanted exit (exact: %s)', (exact) => {
    const assessment = assess(aSidePlate(3, SLANTED), { brief, exact });
    expect(assessment.get(sightAnalysis).worst_mm).toBeCloseTo(2.5, 2);
    // Ends taken as sections: two coaxial discs, an exact view factor.
    const length = 15;
    const { plate } = assessment.get(leakAnalysis);
    const known = directViewFactor(length / 5);
    expect(Math.abs(plate / known - 1)).toBeLessThan(exact ? 0.03 : 0.35);
  });

  it.each([[false], [true]])('is hidden behind a turn with a run (exact: %s)', (exact) => {
    const assessment = assess(aSidePlate(4), { brief, exact });
    expect(assessment.get(sightAnalysis).worst_mm).toBeLessThan(-0.2);
    expect(assessment.get(leakAnalysis).plate).toBe(0);
  });

  it('is found round a turn that is shorter than the bore', () => {
    const short = aSidePlate(4, { section: { kind: 'round' } }, {}, { from_mm: 33, height_mm: 6, bend_mm: 5 }); // prettier-ignore
    for (const exact of [false, true]) {
      expect(assess(short, { brief, exact }).get(sightAnalysis).worst_mm).toBeGreaterThan(0);
    }
    expect(assess(short, { brief, exact: true }).get(leakAnalysis).plate).toBeGreaterThan(0);
  });

  it('through a plenum needs channels shorter than they are wide', () => {
    const long = assess(aManifold(), { brief });
    // Inlets 2 mm long and 6 mm wide, exits 14 mm long and at most 5.7 mm: 3 x 0.4 = 1.2, not excluded.
    expect(long.get(sightAnalysis).worst_mm).toBeGreaterThan(0);
    const finer = aManifold();
    const [inlet, exit] = finer.channels;
    const hidden = assess({ ...finer, channels: [{ ...inlet, bore_mm: [4] }, exit] }, { brief });
    expect(hidden.get(sightAnalysis).worst_mm).toBeLessThan(0);
    expect(hidden.get(leakAnalysis).plate).toBe(0);
  });
});

describe('openings of side exits', () => {
  it('measures the way to blades before the inlet face from the rim inwards', () => {
    const bladeDistance = 10;
    const asked = aBrief({
      'air.route': { kind: 'side' },
      'plate.thickness_mm': 18,
      'safety.bladeDistance_mm': bladeDistance,
    });
    const high = aSidePlate(4, {}, {}, { height_mm: 13 });
    const low = aSidePlate(4, {}, {}, { height_mm: 7 });
    const margin = (design: typeof high): number =>
      assess(design, { brief: asked }).get(openingsAnalysis).reachMargin_mm;
    // The run lies 6 mm further from the blades.
    expect(margin(high) - margin(low)).toBeCloseTo(6, 1);
  });

  it('counts the narrower bank of a manifold', () => {
    const { probeOpening_mm, openArea } = assess(aManifold(12, 6), { brief }).get(openingsAnalysis);
    // Inlets of 6 mm, exits of 4 mm, 0.3 mm for the print.
    expect(probeOpening_mm).toBeCloseTo(4.3, 9);
    const teardrop = 4 * (Math.PI - Math.PI / 4 + 1);
    expect(openArea).toBeCloseTo((6 * teardrop) / (Math.PI * 37 * 37), 6);
    expect(A_RING.outerRadius_mm).toBe(26);
  });

  it('takes the area of ports in the rim across the way out', () => {
    const { openArea } = assess(aSidePlate(8, { section: { kind: 'round' } }), { brief }).get(
      openingsAnalysis,
    );
    expect(openArea).toBeCloseTo((8 * Math.PI * 6.25) / (Math.PI * 37 * 37), 4);
  });
});
