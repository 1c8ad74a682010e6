import { expect, test } from 'vitest';
import type { Brief } from '../../../src/brief/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { createAssessment, findMeasure } from '../../../src/measures/index.ts';
import { aBrief } from '../../support/plates.ts';

const BRIEFS: readonly (readonly [string, Brief])[] = [
  ['a round plate', aBrief()],
  [
    'a fan frame printed on edge',
    aBrief({
      plate: {
        outline: { kind: 'rectangle', width_mm: 80, height_mm: 80, cornerRadius_mm: 5 },
        thickness_mm: 20,
        build: 'edge',
        mounting: { kind: 'frame', frame_mm: 80 },
      },
      routes: { sections: ['teardrop', 'slot'], bore_mm: { min: 3, max: 6 } },
    }),
  ],
  [
    'a thin guard',
    aBrief({ plate: { outline: { kind: 'round', diameter_mm: 60 }, thickness_mm: 4 } }),
  ],
];

test.each(BRIEFS)('the starts of %s overlap nowhere and keep the minimum wall', (_, brief) => {
  const genome = createGenome(brief);
  for (const { label, row } of genome.starts) {
    const decoded = genome.decode(row, 0);
    if (!decoded.ok) throw new Error(decoded.reason);
    const samples = sampleDesign(decoded.design, 64);
    const assessment = createAssessment(brief, decoded.design, samples, true);
    const overlap = findMeasure('overlapDepth_mm')?.evaluate(assessment);
    const wall = findMeasure('thinnestWall_mm')?.evaluate(assessment);
    expect([label, overlap]).toEqual([label, 0]);
    expect(wall, label).toBeGreaterThanOrEqual(brief.process.minimumWall_mm);
  }
});
