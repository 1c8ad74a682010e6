import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Channel, Design, Pocket, Section } from '../../../src/design/index.ts';
import { measureClearance } from '../../../src/measures/clearance/clearance.ts';
import type { ClearanceReport } from '../../../src/measures/clearance/clearance.ts';
import { aChannel, aDesign, aLattice, aTangle, at } from '../../support/clearance-plates.ts';
import type { Point } from '../../support/clearance-plates.ts';

const MINIMUM_WALL_mm = 0.8;

function clearance(design: Design, stations = 32, blockSize = 8): ClearanceReport {
  const samples = sampleDesign(design, stations);
  const bores = Array.from(
    { length: samples.shapeCount },
    (_, m) => design.channels[samples.channelOfShape[m]].bore_mm,
  );
  return measureClearance(samples, bores, MINIMUM_WALL_mm, blockSize);
}

function upright(section: Section, x: number, y: number, roll_deg = 0, bore = 4): Channel {
  return aChannel(
    [
      [0, 0, 0],
      [0, 0, 20],
    ],
    { section, bore_mm: [bore], roll_deg, placements: [at(x, y)] },
  );
}

const ROUND: Section = { kind: 'round' };

describe('walls between straight channels', () => {
  it('equal the distance of axes less both radii for parallel round bores', () => {
    const result = clearance(aDesign([upright(ROUND, 0, 0), upright(ROUND, 4.2, 4.2, 0, 5)]));
    expect(result.thinnestWall_mm).toBeCloseTo(Math.sqrt(2 * 4.2 * 4.2) - 2 - 2.5, 12);
    expect(result.kind).toBe('between');
    expect(result.channels).toEqual([0, 1]);
    expect(result.overlapDepth_mm).toBe(0);
  });

  it('equal the distance of two skew lines less both radii', () => {
    // Lines (0, 0, 0)-(6, 0, 20) and (3, 6, 0)-(3 + 0, 6, 20): common normal along y, 6 mm.
    const a = aChannel(
      [
        [-3, 0, 0],
        [3, 0, 20],
      ],
      { bore_mm: [4] },
    );
    const b = aChannel(
      [
        [3, 6, 0],
        [-3, 6, 20],
      ],
      { bore_mm: [3] },
    );
    const result = clearance(aDesign([a, b]));
    expect(result.thinnestWall_mm).toBeCloseTo(6 - 2 - 1.5, 9);
    expect(result.at_mm?.[2]).toBeCloseTo(10, 6);
  });

  // Plane geometry: distance of two convex figures.
  const cases: readonly [string, Section, number, Section, number, number, number, number][] = [
    [
      'square beside square',
      { kind: 'polygon', sides: 4 },
      0,
      { kind: 'polygon', sides: 4 },
      0,
      6,
      1,
      2,
    ],
    [
      'square corner to corner',
      { kind: 'polygon', sides: 4 },
      0,
      { kind: 'polygon', sides: 4 },
      0,
      5,
      5,
      Math.SQRT2,
    ],
    [
      'diamond to square side',
      { kind: 'polygon', sides: 4 },
      45,
      { kind: 'polygon', sides: 4 },
      0,
      6,
      0.5,
      4 - 2 * Math.SQRT2,
    ],
    ['slot end to round', { kind: 'slot', aspect: 2 }, 0, ROUND, 0, 7, 0, 1],
    ['slot side to round', { kind: 'slot', aspect: 2 }, 0, ROUND, 0, 1.5, 5, 1],
    ['slot end obliquely to round', { kind: 'slot', aspect: 2 }, 0, ROUND, 0, 5, 4, 1],
    [
      'turned slot to slot',
      { kind: 'slot', aspect: 2 },
      90,
      { kind: 'slot', aspect: 2 },
      90,
      6,
      3,
      2,
    ],
    ['triangle side to round', { kind: 'polygon', sides: 3 }, 0, ROUND, 0, 6, 1, 2],
    [
      'hexagon corner to round',
      { kind: 'polygon', sides: 6 },
      30,
      ROUND,
      0,
      6,
      0,
      4 - 4 / Math.sqrt(3),
    ],
  ];
  it.each(cases)('%s matches plane geometry', (_, a, rollA, b, rollB, x, y, wall) => {
    const result = clearance(aDesign([upright(a, 0, 0, rollA), upright(b, x, y, rollB)]));
    expect(result.thinnestWall_mm).toBeGreaterThan(wall - 2e-4);
    expect(result.thinnestWall_mm).toBeLessThan(wall + 1e-9);
  });

  it('sees the apex of a lying teardrop', () => {
    // Built on edge (+y up), both leaning 50 degrees along x: full roofs, apex sqrt 2 R above.
    const lean = 20 * Math.tan((50 * Math.PI) / 180);
    const points: Point[] = [
      [-0.5 * lean, 0, 0],
      [0.5 * lean, 0, 20],
    ];
    const drop: Section = { kind: 'teardrop' };
    const low = aChannel(points, { section: drop, bore_mm: [4] });
    const high = aChannel(points, { section: drop, bore_mm: [4], placements: [at(0, 6)] });
    const result = clearance(aDesign([low, high], { build: 'edge' }));
    expect(result.thinnestWall_mm).toBeCloseTo(6 - 2 - 2 * Math.SQRT2, 3);
  });

  it('counts a pocket as part of the wall', () => {
    const pocket: Pocket = { at: 0.52, length_mm: 6, depth_mm: 1.5, width_deg: 90, side_deg: 0 };
    const a = { ...upright(ROUND, 0, 0), pockets: [pocket] };
    const result = clearance(aDesign([a, upright(ROUND, 7, 0)]));
    expect(result.thinnestWall_mm).toBeCloseTo(7 - 2 - 2 - 1.5, 2);
    expect(result.kind).toBe('pocket');
  });

  it('is capped far from everything', () => {
    const result = clearance(aDesign([upright(ROUND, 0, 0)]));
    expect(result.thinnestWall_mm).toBe(8);
    expect(result.kind).toBeNull();
    expect(result.at_mm).toBeNull();
  });
});

describe('a channel against itself', () => {
  /** Half torus in the plane x z: down a leg, round a half circle, up again. */
  function uTurn(radius: number): Point[] {
    const points: Point[] = [
      [-radius, 0, 0],
      [-radius, 0, 4],
    ];
    for (let i = 1; i < 8; i++) {
      const a = (Math.PI * i) / 8;
      points.push([-radius * Math.cos(a), 0, 8 + radius * Math.sin(a)]);
    }
    points.splice(2, 0, [-radius, 0, 8]);
    points.push([radius, 0, 8]);
    return points;
  }
  // From the turn the channel comes back down, then crosses under to the outlet far away.
  function hairpin(radius: number, bore: number): Channel {
    const tail: Point[] = [
      [radius + 1, 0, 4.5],
      [radius + 8, 0, 4],
      [radius + 14, 0, 10],
      [radius + 14, 0, 20],
    ];
    return aChannel([...uTurn(radius), ...tail], { bore_mm: [bore], placements: [at(0, 0)] });
  }

  it('a half torus leaves a pin of twice its inner radius', () => {
    const result = clearance(aDesign([hairpin(4, 3)]), 96);
    // Curvature of the fitted spline ripples by some per cent about 1 / radius.
    expect(result.overlapDepth_mm).toBe(0);
    expect(result.thinnestWall_mm).toBeLessThan(2 * (4 - 1.5) + 0.1);
  });

  it('a torus arc tighter than its section overlaps', () => {
    const result = clearance(aDesign([hairpin(1.6, 4)]), 64);
    expect(result.overlaps_mm.bend + result.overlaps_mm.self).toBeGreaterThan(0.5);
    expect(result.thinnestWall_mm).toBeLessThan(0);
  });

  it('two legs of a wide loop are not skipped as near neighbours', () => {
    // Legs 4.6 mm apart, bore 4: 0.6 mm between them; the turn itself is wider than that.
    const points: Point[] = [
      [0, 0, 0],
      [0, 0, 8],
      [0, 0, 12],
      [-4, 0, 17],
      [-9, 0, 12],
      [-9, 0, 8],
      [-4.4, 0, 3.9],
      [-4.6, 0, 10],
      [-4.6, 6, 14],
      [-4.6, 12, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [4] })]), 96);
    expect(result.thinnestWall_mm).toBeLessThan(0.75);
  });

  /** Up, over, one and a half turns of a helix of the given radius and rise per turn, and out. */
  function helix(radius: number, rise: number): Point[] {
    const quarter = (sign: number, z: number): Point[] =>
      [0, 30, 60].map((deg) => {
        const a = (deg * Math.PI) / 180;
        return [sign * radius, -14 - 5 * Math.cos(a), z + 5 * Math.sin(a)];
      });
    const points: Point[] = [[radius, -19, 0], ...quarter(1, 1.5), [radius, -14, 6.5]];
    for (let i = -4; i <= 28; i++) {
      const a = (2 * Math.PI * i) / 16;
      const onArc = i >= 0 && i <= 24;
      const beyond = i < 0 ? i : i - 24;
      const x = onArc ? radius * Math.cos(a) : i < 0 ? radius : -radius;
      const y = onArc ? radius * Math.sin(a) : (i < 0 ? 1 : -1) * 2 * beyond;
      points.push([x, y, 8 + (rise * i) / 16]);
    }
    const top = 8 + (rise * 28) / 16;
    for (const deg of [60, 30, 0]) {
      const a = (deg * Math.PI) / 180;
      points.push([-radius, -12 - 6 * Math.cos(a), top + 7 - 6 * Math.sin(a)]);
    }
    points.push([-radius, -18, top + 12]);
    return points;
  }
  function helixPlate(rise: number): Design {
    const points = helix(6, rise);
    const thickness_mm = points[points.length - 1][2];
    return aDesign([aChannel(points, { bore_mm: [3] })], { thickness_mm });
  }

  it('neighbouring turns of a helix keep their rise less the bore', () => {
    const result = clearance(helixPlate(5), 160);
    // Distance of neighbouring turns, p cos(slope) up to the curvature of the helix.
    const slope = Math.atan(5 / (2 * Math.PI * 6));
    expect(result.thinnestWall_mm).toBeGreaterThan(5 * Math.cos(slope) - 3 - 0.15);
    expect(result.thinnestWall_mm).toBeLessThan(5 * Math.cos(slope) - 3 + 0.05);
    expect(result.kind).toBe('self');
    expect(result.overlapDepth_mm).toBe(0);
  });

  it('turns of a helix closer than the bore overlap', () => {
    const result = clearance(helixPlate(2.6), 96);
    expect(result.overlaps_mm.self).toBeGreaterThan(0.3);
  });

  it('a figure of eight that crosses itself overlaps by its bore', () => {
    const points: Point[] = [
      [0, 0, 0],
      [0, 0, 6],
      [6, 0, 12],
      [12, 0, 6],
      [6, 0, 3.5],
      [0, 0, 9],
      [-4, 0, 14],
      [-4, 0, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [2.4] })]), 64);
    expect(result.overlaps_mm.self).toBeGreaterThan(2);
    expect(result.overlaps_mm.self).toBeLessThan(2.6);
  });

  it('a gentle S-bend has no wall with itself below the cap of its bends', () => {
    const points: Point[] = [
      [0, 0, 0],
      [1, 0, 7],
      [3, 0, 13],
      [4, 0, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [4] })]));
    expect(result.thinnestWall_mm).toBe(8);
  });

  it('a loop between two stations shows', () => {
    // A spike of 3 mm back and forth within 0.8 mm of height: seven points in one step or two.
    const points: Point[] = [
      [0, 0, 0],
      [0, 0, 10],
      [0.4, 0, 10.3],
      [0.4, 0.4, 10.5],
      [0, 0.4, 10.3],
      [0, 0, 10.6],
      [0, 0, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [2] })]));
    expect(result.overlapDepth_mm).toBeGreaterThan(0);
  });
});

describe('what hides between stations', () => {
  it('a widening given between two samples counts', () => {
    const bores = Array.from({ length: 101 }, (_, i) => (i === 49 ? 6 : 3));
    const bulging = aChannel(
      [
        [0, 0, 0],
        [0, 0, 20],
      ],
      { bore_mm: bores },
    );
    const result = clearance(aDesign([bulging, upright(ROUND, 5.2, 0, 0, 3)]));
    expect(result.thinnestWall_mm).toBeCloseTo(5.2 - 3 - 1.5, 6);
  });

  it('a pocket shorter than a step counts', () => {
    const pocket: Pocket = { at: 0.5, length_mm: 0.5, depth_mm: 2, width_deg: 120, side_deg: 0 };
    const a = { ...upright(ROUND, 0, 0), pockets: [pocket] };
    const with32 = clearance(aDesign([a, upright(ROUND, 5, 0)]));
    expect(with32.thinnestWall_mm).toBeLessThan(1 - 0.24);
    expect(with32.kind).toBe('pocket');
  });
});

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
});
