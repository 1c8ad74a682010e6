/** Walls of side exits where plane geometry knows them. */
import { describe, expect, it } from 'vitest';
import type { Channel, Design } from '../../../src/design/index.ts';
import { clearanceAnalysis } from '../../../src/measures/clearance/clearance.ts';
import type { ClearanceReport } from '../../../src/measures/clearance/clearance.ts';
import { assess } from '../../support/assessments.ts';
import { aChannel, aPlacement } from '../../support/plates.ts';
import { A_RING, aManifold, aSideBend, aSidePlate } from '../../support/side-plates.ts';

const walls = (design: Design): ClearanceReport => assess(design, { stations: 64 }).get(clearanceAnalysis); // prettier-ignore

describe('walls of side exits', () => {
  it('has the wall under the front face, above the roof of the run', () => {
    // Height 13 of 18, teardrop of 5: the apex stands 2.5 sqrt 2 above the axis.
    const found = walls(aSidePlate(1, {}, {}, { height_mm: 13, bend_mm: 8 }));
    expect(found.kind).toBe('face');
    expect(found.thinnestWall_mm).toBeCloseTo(18 - 13 - 2.5 * Math.SQRT2, 1);
    expect(found.overlapDepth_mm).toBe(0);
  });

  it('has the wall between the run and the inlet face', () => {
    const round: Partial<Channel> = { section: { kind: 'round' } };
    const found = walls(aSidePlate(1, round, {}, { height_mm: 4.5, bend_mm: 4.5 }));
    expect(found.kind).toBe('face');
    expect(found.thinnestWall_mm).toBeCloseTo(4.5 - 2.5, 1);
  });

  it('counts as overlap what breaks through the front face', () => {
    const found = walls(aSidePlate(3, {}, {}, { height_mm: 16, bend_mm: 8 }));
    const depth = 16 + 2.5 * Math.SQRT2 - 18;
    expect(found.overlaps_mm.face).toBeGreaterThan(3 * depth - 0.3);
    expect(found.overlaps_mm.face).toBeLessThan(3 * depth + 0.6);
  });

  it('exempts the rim at a channel own exit, and only there', () => {
    expect(walls(aSidePlate(6)).overlaps_mm.edge).toBe(0);
    // Risen 2 mm behind the rim before it turns: that wall counts.
    const near = walls(
      aSidePlate(
        1,
        { section: { kind: 'round' }, bore_mm: [3] },
        {},
        { from_mm: 36.5, bend_mm: 3.4 },
      ),
    );
    expect(near.kind).toBe('edge');
    expect(near.thinnestWall_mm).toBeCloseTo(40 - 36.5 - 1.5, 1);
  });

  it('keeps the solid border for channels that do not lead through it', () => {
    const hole = aChannel({ points_mm: [[36, 0, 0], [36, 0, 18]], placements: [aPlacement()] }); // prettier-ignore
    const plate = aSidePlate(3);
    const found = walls({ ...plate, channels: [...plate.channels, hole] });
    expect(found.overlaps_mm.edge).toBeCloseTo(3 - (40 - 36 - 2.5), 6);
  });

  it('has the wall between neighbouring exits', () => {
    const pair = aSideBend({
      section: { kind: 'round' },
      placements: [aPlacement({ turn_deg: 10 }), aPlacement({ turn_deg: -10 })],
    });
    const found = walls({ ...aSidePlate(1), channels: [pair] });
    // Nearest where they rise, at radius 18: chord less bore.
    expect(found.kind).toBe('between');
    expect(found.thinnestWall_mm).toBeCloseTo(2 * 18 * Math.sin((10 * Math.PI) / 180) - 5, 1);
  });
});

describe('walls of a ring manifold', () => {
  it('allows merging where channels end in it', () => {
    const found = walls(aManifold(8, 8));
    expect(found.overlapDepth_mm).toBe(0);
    // Floor 2 mm, roof 3 mm thick.
    expect(found.thinnestWall_mm).toBeLessThanOrEqual(2);
    expect(found.thinnestWall_mm).toBeGreaterThan(1.5);
  });

  it('allows it nowhere else: a hole past the ring keeps its wall, one through it overlaps', () => {
    const hole = (x: number): Channel =>
      aChannel({ points_mm: [[x, 0, 0], [x, 0, 15]], bore_mm: [4], placements: [aPlacement()] }); // prettier-ignore
    const design = aManifold(8, 3);
    const beside = walls({ ...design, channels: [...design.channels, hole(11)] });
    expect(beside.thinnestWall_mm).toBeCloseTo(14 - 11 - 2, 6);
    expect(beside.overlapDepth_mm).toBe(0);
    const through = walls({ ...design, channels: [...design.channels, hole(13)] });
    expect(through.overlaps_mm.between).toBeGreaterThan(0.9);
  });

  it('keeps its walls to faces, rim and mounting holes', () => {
    const low = { ...A_RING, top_mm: 12 };
    const found = walls({ ...aManifold(8, 8, { thickness_mm: 12.5 }), plenum: low });
    expect(found).toMatchObject({ kind: 'face' });
    expect(found.thinnestWall_mm).toBeCloseTo(0.5, 9);
    const holes = [{ x_mm: 0, y_mm: 27.5, diameter_mm: 4 }];
    const holed = walls(aManifold(3, 3, { holes }));
    expect(holed.overlaps_mm.hole).toBeCloseTo(26 - 27.5 + 2, 9);
    const rim = walls(aManifold(3, 3, { rim_mm: 16 }));
    expect(rim.overlaps_mm.edge).toBeGreaterThan(2 - 1e-9);
  });
});
