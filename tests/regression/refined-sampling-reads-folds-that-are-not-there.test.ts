import { expect, it } from 'vitest';
import type { Channel } from '../../src/design/index.ts';
import { overlapDepth } from '../../src/measures/overlap-depth.ts';
import { thinnestWall } from '../../src/measures/thinnest-wall.ts';
import { assess } from '../support/assessments.ts';
import { aChannel, aDesign, samplesOf } from '../support/plates.ts';

/** Winner of a search for the deepest hidden line of sight: a far swing through 24.6 mm. */
const SWING: Channel = aChannel({
  points_mm: [
    [-9.71, -10.73, 0],
    [10.24, -26.51, 10.32],
    [9.71, 10.73, 24.58],
  ],
  bore_mm: [5.16, 3.25, 2.73],
});

// A step of 0.6 mm that turns by a as a circle does is longer than its chord by a^2/24 (exact to the
// second order), so chords must agree within that of the sharpest step. They differed by up to
// 0.7 %, which at 128 and more stations read as bends hidden between stations: walls of -0.5 to
// -7.9 mm in channels whose sharpest bend leaves 1.9 mm.
it('stations stand at equal steps, within 0.05 % beyond the turn between them', () => {
  for (const stations of [64, 128, 256]) {
    const { point_mm, tangent, length_mm } = samplesOf(SWING, stations);
    const step = length_mm[0] / (stations - 1);
    const apart = (of: Float64Array, k: number): number => {
      const [x, y, z] = [0, 1, 2].map((d) => of[3 * k + 3 + d] - of[3 * k + d]);
      return Math.sqrt(x * x + y * y + z * z);
    };
    for (let k = 0; k + 1 < stations; k++) {
      const turn = apart(tangent, k);
      expect(apart(point_mm, k) / step).toBeLessThan(1.0005);
      expect(apart(point_mm, k) / step).toBeGreaterThan(1 - 0.0005 - (turn * turn) / 20);
    }
  }
});

/** Twice the least of radius of curvature less bore radius, by circles through dense points. */
function bendWall(): number {
  const { point_mm, bore_mm } = samplesOf(SWING, 1501);
  let wall = Infinity;
  for (let k = 0; k + 20 < 1501; k++) {
    const side = (i: number, j: number): number => {
      const [x, y, z] = [0, 1, 2].map((d) => point_mm[3 * j + d] - point_mm[3 * i + d]);
      return Math.sqrt(x * x + y * y + z * z);
    };
    const [a, b, c] = [side(k, k + 10), side(k + 10, k + 20), side(k, k + 20)];
    const s = (a + b + c) / 2;
    const area = Math.sqrt(Math.max(1e-12, s * (s - a) * (s - b) * (s - c)));
    wall = Math.min(wall, (2 * a * b * c) / (4 * area) - bore_mm[k + 10]);
  }
  return wall;
}

it('the wall inside a bend reads alike at 64, 128 and 256 stations', () => {
  const design = aDesign({ plate: { thickness_mm: 24.58 }, channels: [SWING] });
  const expected = bendWall();
  for (const stations of [64, 128, 256]) {
    const assessment = assess(design, { exact: true, stations });
    expect(overlapDepth.evaluate(assessment)).toBe(0);
    const wall = thinnestWall.evaluate(assessment);
    // The peak of curvature between stations is extrapolated: on the safe side, by 0.4 mm at 64.
    expect(wall - expected).toBeLessThan(0.05);
    expect(wall - expected).toBeGreaterThan(-0.5);
  }
});
