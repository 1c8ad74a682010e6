import { expect, it } from 'vitest';
import { sightMargin } from '../../src/measures/sight-margin.ts';
import { assess } from '../support/assessments.ts';
import { aChannel, aDesign } from '../support/plates.ts';

// Winner of a search for the deepest hidden line of sight. Its bore of at most 5 mm swings 16 mm to
// the side (plane geometry: no straight line comes near it), and the reading wandered between -50 and
// -13 mm with the sampling.
it('a line of sight far inside the solid reads alike at every sampling', () => {
  const swing = aChannel({
    points_mm: [
      [-9.71, -10.73, 0],
      [10.24, -26.51, 10.32],
      [9.71, 10.73, 24.58],
    ],
    bore_mm: [5.16, 3.25, 2.73],
  });
  const design = aDesign({ plate: { thickness_mm: 24.58 }, channels: [swing] });
  const fast = sightMargin.evaluate(assess(design));
  expect(fast).toBeLessThan(-1);
  for (const stations of [64, 128]) {
    expect(sightMargin.evaluate(assess(design, { exact: true, stations }))).toBeCloseTo(fast, 1);
  }
});
