/** Sight through side exits, and what fingers find there. */
import { describe, expect, it } from 'vitest';
import type { Channel } from '../../../src/design/index.ts';
import { leakAnalysis, sightAnalysis } from '../../../src/measures/analyses/sight.ts';
import { openingsAnalysis } from '../../../src/measures/analyses/openings.ts';
import { directViewFactor, safetyDistance } from '../../../src/physics/index.ts';
import { assess } from '../../support/assessments.ts';
import { sideWays } from '../../../src/measures/analyses/side-reach.ts';
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
    // From the port in the rim, 40 mm out, to the one in the face, 18 mm out: straight through the
    // solid, less what the two discs of 5 mm, square to each other, come closer.
    for (const height_mm of [7, 13]) {
      const design = aSidePlate(4, { section: { kind: 'round' } }, {}, { height_mm });
      const { reachMargin_mm } = assess(design, { brief: asked }).get(openingsAnalysis);
      const length = Math.hypot(22, height_mm);
      const way = length - (2.5 * (22 + height_mm)) / length;
      const asking = safetyDistance('round', 5.3, asked.safety.reach);
      expect(reachMargin_mm).toBeCloseTo(bladeDistance + way - asking, 6);
    }
  });

  it('goes through the mouth in the plenum to the nearest port before the blades', () => {
    const asked = aBrief({
      'air.route': { kind: 'side', merge: 'any' },
      'safety.bladeDistance_mm': 10,
    });
    const plate = aManifold();
    const [inlet, exit] = plate.channels;
    const section = { kind: 'round' } as const;
    const design = {
      ...plate,
      channels: [
        { ...inlet, section },
        { ...exit, section },
      ],
    };
    const { reachMargin_mm } = assess(design, { brief: asked }).get(openingsAnalysis);
    // 14 mm of exit, then from (26, 4.5) to the port at (20, 0): 7.5 mm less 2 x 0.6 and 3 x 0.8.
    const way = 14 + 7.5 - 1.2 - 2.4;
    const asking = safetyDistance('round', 4.3, asked.safety.reach);
    expect(reachMargin_mm).toBeCloseTo(10 + way - asking, 6);
  });

  it('never reads less than along z, and more the longer the way', () => {
    const margins = [18, 24, 30].map((from_mm) => {
      const design = aSidePlate(4, {}, {}, { from_mm, height_mm: 7, bend_mm: 4 });
      return assess(design, { brief }).get(openingsAnalysis).reachMargin_mm;
    });
    expect(margins[0]).toBeGreaterThan(margins[1]);
    expect(margins[1]).toBeGreaterThan(margins[2]);
    for (const design of [aSidePlate(4), aManifold()]) {
      const { samples } = assess(design, { brief });
      const { sides, stations, point_mm } = samples;
      if (sides === null) throw new Error('a plate with side ends was meant');
      const way_mm = new Float64Array(stations);
      for (let m = 0; m < samples.shapeCount; m++) {
        sideWays(samples, sides, m, true, way_mm);
        const rises = way_mm.map((way, i) => way - point_mm[3 * (m * stations + i) + 2]);
        expect(Math.min(...rises)).toBeGreaterThanOrEqual(0);
      }
    }
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
