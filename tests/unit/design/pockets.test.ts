import { expect, test } from 'vitest';
import { outerSides, ringPoint, wallRadius, wallSupport } from '../../../src/design/index.ts';
import { aChannel, anSBend, aPlacement, samplesOf } from '../../support/plates.ts';

const POCKET = { at: 0.5, length_mm: 8, depth_mm: 2, width_deg: 90, side_deg: 30 };

test('wallRadius() follows the trapezoid and the cos^2 window of a pocket', () => {
  const samples = samplesOf(aChannel({ pockets: [POCKET] }), 21);
  const side = Math.PI / 6;
  // Stations lie 1 mm apart; ramps of 2 mm end in a plateau of 4 mm about z = 10.
  const depths = [5, 6, 7, 8, 10, 12, 13, 14, 15].map((k) => wallRadius(samples, 0, k, side) - 2.5);
  expect(depths).toEqual([0, 0, 1, 2, 2, 2, 1, 0, 0].map((d) => expect.closeTo(d, 9)));
  expect(wallRadius(samples, 0, 10, side + Math.PI / 8)).toBeCloseTo(3.5, 9);
  expect(wallRadius(samples, 0, 10, side - Math.PI / 8 + 2 * Math.PI)).toBeCloseTo(3.5, 9);
  expect(wallRadius(samples, 0, 10, side + Math.PI / 4 + 0.01)).toBe(2.5);
});

test('a mouth shorter than two ramps never reaches its full depth', () => {
  const samples = samplesOf(aChannel({ pockets: [{ ...POCKET, length_mm: 2 }] }), 21);
  expect(wallRadius(samples, 0, 10, Math.PI / 6)).toBeCloseTo(3.5, 9);
});

test('two pockets at one spot are one void, not twice as deep', () => {
  const samples = samplesOf(aChannel({ pockets: [POCKET, POCKET] }), 21);
  expect(wallRadius(samples, 0, 10, Math.PI / 6)).toBeCloseTo(4.5, 9);
});

test('a pocket stands on the same side of the bend however its channel is turned and mirrored', () => {
  const placements = [aPlacement(), aPlacement({ turn_deg: 90 }), aPlacement({ mirrored: true })];
  const [side_deg] = outerSides(anSBend(), [0.3]);
  const pockets = [{ ...POCKET, at: 0.3, side_deg }];
  const samples = samplesOf(anSBend({ placements, pockets }), 41);
  const furthest = [0, 1, 2].map((shape) => {
    const point = new Float64Array(3);
    let best = [0, 0, 0];
    let reach = 0;
    for (let i = 0; i < 720; i++) {
      ringPoint(samples, shape, 12, (i * Math.PI) / 360, point, 0);
      const base = 3 * (shape * 41 + 12);
      const [x, y, z] = [0, 1, 2].map((d) => point[d] - samples.point_mm[base + d]);
      const r = Math.hypot(x, y, z);
      if (r > reach) {
        reach = r;
        best = [x, y, z];
      }
    }
    return best;
  });
  // The first bend of `anSBend` swings to +x, so its outer side faces +x.
  expect(furthest[0][0]).toBeGreaterThan(3.5);
  expect(furthest[1][1]).toBeCloseTo(furthest[0][0], 6);
  expect(furthest[2][0]).toBeCloseTo(-furthest[0][0], 6);
  expect(furthest[1][2]).toBeCloseTo(furthest[0][2], 6);
});

test('a pocket of a teardrop keeps its side in the plate although the frame turns to the roof', () => {
  const [side_deg] = outerSides(anSBend(), [0.3]);
  const pockets = [{ ...POCKET, at: 0.3, side_deg }];
  const samples = samplesOf(anSBend({ pockets, section: { kind: 'teardrop' } }), 41);
  const theta = (samples.pockets[0][0].side_deg * Math.PI) / 180;
  const i = 3 * 12;
  const way = Math.cos(theta) * samples.first[i] + Math.sin(theta) * samples.second[i];
  expect(way).toBeGreaterThan(0.9);
  expect(wallRadius(samples, 0, 12, theta)).toBeGreaterThan(4.4);
});

test('wallSupport() is safe and within 2 % of the depth where section and pocket face one way', () => {
  const samples = samplesOf(aChannel({ pockets: [POCKET] }), 21);
  const side = Math.PI / 6;
  const support = wallSupport(samples, 0, 10, Math.cos(side), Math.sin(side));
  expect(support).toBeGreaterThanOrEqual(4.5);
  expect(support).toBeLessThan(4.5 + 0.02 * 2 + 0.005);
});
