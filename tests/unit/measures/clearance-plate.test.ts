import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import { measureClearance } from '../../../src/measures/clearance/clearance.ts';
import {
  ROUND,
  aChannel,
  aDesign,
  aLattice,
  aTangle,
  at,
  boresOf,
  clearance,
  upright,
} from '../../support/clearance-plates.ts';
import type { Point } from '../../support/clearance-plates.ts';

describe('faces, edges and holes', () => {
  it('a channel running shallow under a face leaves its cover as the wall', () => {
    const points: Point[] = [
      [-14, 0, 0],
      [-14, 0, 3],
      [-8, 0, 17],
      [0, 0, 17.2],
      [8, 0, 17],
      [14, 0, 12],
      [20, 0, 14],
      [20, 0, 20],
    ];
    const samples = sampleDesign(aDesign([aChannel(points, { bore_mm: [4] })]), 400);
    let top = 0;
    for (let k = 0; k < 340; k++) {
      // Highest wall point while the channel lies: the centreline's height plus the radius.
      top = Math.max(top, samples.point_mm[3 * k + 2] + 2);
    }
    const result = clearance(aDesign([aChannel(points, { bore_mm: [4] })]), 64);
    expect(result.kind).toBe('face');
    expect(Math.abs(result.thinnestWall_mm - (20 - top))).toBeLessThan(0.1);
  });

  it('a channel poking out of a face between its ports overlaps with the outside', () => {
    const points: Point[] = [
      [-14, 0, 0],
      [-14, 0, 3],
      [-8, 0, 16],
      [0, 0, 18.6],
      [8, 0, 14],
      [20, 0, 12],
      [20, 0, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [4] })]));
    expect(result.overlaps_mm.face).toBeGreaterThan(0.3);
    expect(result.overlapDepth_mm).toBeGreaterThan(0.3);
  });

  it('a channel leaving below the inlet face overlaps with the outside', () => {
    const points: Point[] = [
      [0, 0, 0],
      [3, 0, -2],
      [6, 0, 10],
      [6, 0, 20],
    ];
    const channel = aChannel(points, { bore_mm: [3], inletDirection: null });
    expect(clearance(aDesign([channel])).overlaps_mm.face).toBeGreaterThan(1);
  });

  it.each([30, 45, 60, 70])('a straight channel leaning %d degrees has no overlap', (lean) => {
    const run = 20 * Math.tan((lean * Math.PI) / 180);
    const channel = aChannel(
      [
        [-0.5 * run, 0, 0],
        [0.5 * run, 0, 20],
      ],
      { bore_mm: [3] },
    );
    const result = clearance(aDesign([channel]));
    expect(result.overlapDepth_mm).toBe(0);
    // Lip rule: twice the minimum wall behind the edge, 1.6 / tan(lean), for leans past 60 degrees.
    if (lean >= 60)
      expect(result.thinnestWall_mm).toBeCloseTo(1.6 / Math.tan((lean * Math.PI) / 180), 6);
    else expect(result.thinnestWall_mm).toBeGreaterThan(2);
  });

  it('the wall to a round edge counts from the furthest corner of a slot', () => {
    const slot = upright({ kind: 'slot', aspect: 2 }, 0, 30, 0, 4);
    const result = clearance(aDesign([slot], { outline: { kind: 'round', diameter_mm: 80 } }));
    // Obround 4 x 8 along x: end centres at (+-2, 30), radius 2.
    expect(result.thinnestWall_mm).toBeCloseTo(40 - Math.sqrt(4 + 900) - 2, 6);
    expect(result.kind).toBe('edge');
  });

  it('reaching into the rim is overlap by its depth', () => {
    const plate = { outline: { kind: 'round', diameter_mm: 80 } as const, rim_mm: 5 };
    const inside = clearance(aDesign([upright(ROUND, 33, 0)], plate));
    expect(inside.overlapDepth_mm).toBe(0);
    expect(inside.thinnestWall_mm).toBeCloseTo(5, 9);
    const outside = clearance(aDesign([upright(ROUND, 34.5, 0)], plate));
    expect(outside.overlaps_mm.edge).toBeCloseTo(1.5, 9);
  });

  it('a channel outside the outline overlaps by more the further it stands', () => {
    const plate = { outline: { kind: 'round', diameter_mm: 80 } as const };
    const near = clearance(aDesign([upright(ROUND, 42, 0)], plate)).overlapDepth_mm;
    const far = clearance(aDesign([upright(ROUND, 52, 0)], plate)).overlapDepth_mm;
    expect(near).toBeCloseTo(4, 9);
    expect(far).toBeCloseTo(14, 9);
  });

  it("an inward corner of the outline counts even between a slot's ends", () => {
    const points_mm: [number, number][] = [
      [-20, -20],
      [20, -20],
      [20, 20],
      [0, 4],
      [-20, 20],
    ];
    const slot = upright({ kind: 'slot', aspect: 4 }, 0, 0, 0, 4);
    const result = clearance(aDesign([slot], { outline: { kind: 'polygon', points_mm } }));
    expect(result.thinnestWall_mm).toBeCloseTo(2, 3);
    expect(result.kind).toBe('edge');
  });

  it('walls to mounting holes equal the distance of axes less both radii', () => {
    const holes = [{ x_mm: 7, y_mm: 0, diameter_mm: 4.3 }];
    const result = clearance(aDesign([upright(ROUND, 0, 0)], { holes }));
    expect(result.thinnestWall_mm).toBeCloseTo(7 - 2 - 2.15, 9);
    expect(result.kind).toBe('hole');
    const cut = clearance(aDesign([upright(ROUND, 4, 0)], { holes }));
    expect(cut.overlaps_mm.hole).toBeCloseTo(1.15, 9);
  });
});

describe('the whole plate', () => {
  it('a valid lattice has exactly no overlap', () => {
    expect(clearance(aLattice(100)).overlapDepth_mm).toBe(0);
    expect(clearance(aTangle('valid', 25, 1)).overlapDepth_mm).toBe(0);
  });

  it('every overlapping neighbour of a repeated motif counts', () => {
    const four = [at(0, 0), at(3, 0), at(6, 0), at(9, 0)];
    const row = aChannel(
      [
        [0, 0, 0],
        [0, 0, 20],
      ],
      { bore_mm: [4], placements: four },
    );
    // Neighbours 3 mm apart overlap by 1 mm, three times; second neighbours stand free.
    expect(clearance(aDesign([row])).overlapDepth_mm).toBeCloseTo(3, 9);
  });

  it('overlap shrinks smoothly to zero as two channels part', () => {
    let before = Infinity;
    for (let x = 0; x <= 4.01; x += 0.25) {
      const depth = clearance(
        aDesign([upright(ROUND, 0, 0), upright(ROUND, x, 0)]),
      ).overlapDepth_mm;
      expect(depth).toBeCloseTo(Math.max(0, 4 - x), 9);
      expect(depth).toBeLessThanOrEqual(before);
      before = depth;
    }
  });

  it('a plate that is not made of numbers never passes as sound', () => {
    const design = aDesign([upright(ROUND, 0, 0), upright(ROUND, 9, 0)]);
    for (const spoil of ['point_mm', 'bore_mm', 'offset_mm', 'curvature_per_mm'] as const) {
      const samples = sampleDesign(design);
      samples[spoil][3] = NaN;
      if (spoil === 'bore_mm') samples.reach_mm[3] = NaN;
      const result = measureClearance(samples, boresOf(design, samples), 0.8);
      expect(result.thinnestWall_mm).toBeNaN();
      expect(result.overlapDepth_mm).toBeNaN();
    }
  });
});
