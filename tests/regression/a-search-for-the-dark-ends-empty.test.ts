import { expect, it } from 'vitest';
import { sightMargin } from '../../src/measures/sight-margin.ts';
import { assess } from '../support/assessments.ts';
import { aChannel, anSBend } from '../support/plates.ts';

// The search looks with a short fit, the archive with thousands of lines. Readings that the search
// flattered by 0.05 mm at a limit of -0.2 mm left the archive of the light-tight plate empty.
it('near its limit a line of sight is not read as better hidden inside the search than when archived', () => {
  for (let swing = 3; swing <= 8; swing += 0.5) {
    const bends = [
      aChannel({
        points_mm: [
          [0, 0, 0],
          [swing, 0, 10],
          [0, 0, 20],
        ],
        section: { kind: 'polygon', sides: 6 },
        bore_mm: [3.4, 4.1, 3.6],
      }),
      anSBend({
        points_mm: [
          [0, 0, 0],
          [swing / 2, 0, 7],
          [-swing / 2, 0, 13],
          [0, 0, 20],
        ],
      }),
    ];
    for (const bend of bends) {
      const fast = sightMargin.evaluate(assess(bend));
      const exact = sightMargin.evaluate(assess(bend, { exact: true, stations: 64 }));
      // Far inside the solid, where no limit lies, the short fit may be off by more.
      if (exact < -1) continue;
      expect(fast - exact, `swing ${swing}: ${fast}, ${exact}`).toBeGreaterThan(-0.02);
      expect(fast - exact, `swing ${swing}: ${fast}, ${exact}`).toBeLessThan(0.15);
    }
  }
});
