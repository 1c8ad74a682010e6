import { expect, it } from 'vitest';
import { openArea } from '../../src/measures/open-area.ts';
import { assess } from '../support/assessments.ts';
import { aChannel, aGrid } from '../support/plates.ts';

// Plane geometry: nine throats of 5 mm inside a circle of 80 - 2 x 3 mm. With both ends flared to
// 10 mm the ports alone are four times that, which a search for open area takes for free.
it('ports flared on both faces are no more open than their throats', () => {
  const throats = (9 * 25) / (74 * 74);
  for (const bore_mm of [[5], [10, 5, 10], [10, 5, 5, 5, 10]]) {
    for (const exact of [false, true]) {
      const assessment = assess(aChannel({ bore_mm, placements: aGrid(3, 12) }), { exact });
      // Stations do not always fall on the throat.
      expect(Math.abs(openArea.evaluate(assessment) / throats - 1)).toBeLessThan(0.01);
    }
  }
});
