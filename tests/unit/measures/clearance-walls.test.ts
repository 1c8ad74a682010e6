import { describe, expect, it } from 'vitest';
import type { Pocket, Section } from '../../../src/design/index.ts';
import {
  ROUND,
  aChannel,
  aDesign,
  at,
  clearance,
  upright,
} from '../../support/clearance-plates.ts';
import type { Point } from '../../support/clearance-plates.ts';

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
