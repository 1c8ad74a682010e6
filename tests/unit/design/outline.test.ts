import { expect, test } from 'vitest';
import {
  areaInside,
  insideDistance,
  outlineArea,
  outlinePolygon,
} from '../../../src/design/index.ts';
import type { Outline } from '../../../src/brief/index.ts';

const ROUND: Outline = { kind: 'round', diameter_mm: 80 };
const CARD: Outline = { kind: 'rectangle', width_mm: 60, height_mm: 40, cornerRadius_mm: 10 };
const ELL: Outline = {
  kind: 'polygon',
  points_mm: [
    [0, 0],
    [0, 30],
    [10, 30],
    [10, 10],
    [30, 10],
    [30, 0],
  ],
};

test('insideDistance() measures to sides and to rounded corners', () => {
  expect(insideDistance(CARD, 0, 0)).toBe(20);
  expect(insideDistance(CARD, 29, 0)).toBe(1);
  expect(insideDistance(CARD, 32, 0)).toBe(-2);
  // Corner circle about (20, 10), radius 10; (26, 18) lies 10 from it, (28, 16) too: on the edge.
  expect(insideDistance(CARD, 26, 18)).toBeCloseTo(0, 12);
  expect(insideDistance(CARD, 30, 20)).toBeCloseTo(10 - Math.sqrt(200), 12);
});

test('insideDistance() of a polygon knows its notch', () => {
  expect(insideDistance(ELL, 5, 5)).toBe(5);
  expect(insideDistance(ELL, 12, 12)).toBe(-2);
  expect(insideDistance(ELL, 8, 8)).toBeCloseTo(Math.sqrt(8), 12);
});

test('areas agree with plane geometry', () => {
  expect(outlineArea(ROUND)).toBeCloseTo(Math.PI * 1600, 9);
  expect(outlineArea(CARD)).toBeCloseTo(2400 - (4 - Math.PI) * 100, 9);
  expect(outlineArea(ELL)).toBe(500);
  expect(areaInside(CARD, 5)).toBeCloseTo(50 * 30 - (4 - Math.PI) * 25, 9);
  // The ell less a rim of 3: 4 x 24 + 20 x 4, and the round corner at the notch's tip, which the rim
  // of the two re-entrant sides leaves as a quarter circle: 9 - 9 pi / 4.
  const left = 4 * 24 + 20 * 4 + 9 - 2.25 * Math.PI;
  // Polygons are summed in strips: to 1e-3, as documented.
  expect(Math.abs(areaInside(ELL, 3) / left - 1)).toBeLessThan(1e-3);
});

test('outlinePolygon() runs counter-clockwise with corners on the edge', () => {
  for (const outline of [ROUND, CARD, ELL]) {
    const points = outlinePolygon(outline, 0.05);
    let area = 0;
    points.forEach(([x, y], i) => {
      const [bx, by] = points[(i + 1) % points.length];
      area += 0.5 * (x * by - bx * y);
      expect(Math.abs(insideDistance(outline, x, y))).toBeLessThan(1e-9);
      expect(insideDistance(outline, (x + bx) / 2, (y + by) / 2)).toBeLessThan(0.05 + 1e-9);
    });
    expect(area).toBeGreaterThan(0.995 * outlineArea(outline));
    expect(area).toBeLessThanOrEqual(outlineArea(outline) + 1e-9);
  }
});
