import { expect, it } from 'vitest';
import { overlapDepth } from '../../src/measures/overlap-depth.ts';
import { thinnestWall } from '../../src/measures/thinnest-wall.ts';
import { assess } from '../support/assessments.ts';
import { aChannel } from '../support/plates.ts';

// A centreline that rises above the outlet face and sinks back to its end there: a groove in the face,
// for which no watertight mesh exists. It once read as a sound wall of 8 mm and no overlap.
it('a centreline beyond a face is an overlap, even close to its own port', () => {
  const stray = aChannel({
    points_mm: [
      [0, 0, 0],
      [10, 0, 21],
      [20, 0, 20],
    ],
    outletDirection: null,
    bore_mm: [4],
  });
  for (const exact of [false, true]) {
    const assessment = assess(stray, { exact });
    // It passes through z = 21, 1 mm beyond the face of the 20 mm plate.
    expect(overlapDepth.evaluate(assessment)).toBeGreaterThan(0.9);
    expect(thinnestWall.evaluate(assessment)).toBeLessThan(-0.9);
  }
});
