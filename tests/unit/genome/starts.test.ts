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
  ['slots alone, with ribs, flat', louvreBrief('flat')],
  ['slots alone, with ribs, on edge', louvreBrief('edge')],
];

function louvreBrief(build: 'flat' | 'edge'): Brief {
  return aBrief({
    plate: {
      outline: { kind: 'rectangle', width_mm: 100, height_mm: 100 },
      thickness_mm: 14,
      build,
    },
    routes: {
      sections: ['slot'],
      motifs: ['alike', 'mirrored'],
      bore_mm: { min: 2, max: 5 },
      pockets: false,
      ribs: 'auto',
      longestSlat_mm: 18,
    },
  });
}

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

function scored(brief: Brief, label: string, id: string): number {
  const genome = createGenome(brief);
  const start = genome.starts.find((each) => each.label === label);
  if (start === undefined) throw new Error(`no start ${label}`);
  const decoded = genome.decode(start.row, 0);
  if (!decoded.ok) throw new Error(decoded.reason);
  const assessment = createAssessment(
    brief,
    decoded.design,
    sampleDesign(decoded.design, 64),
    true,
  );
  return findMeasure(id)?.evaluate(assessment) ?? NaN;
}

test.each(['flat', 'edge'] as const)('louvres print %s without support', (build) => {
  for (const label of ['louvres', 'chevron louvres']) {
    expect([label, scored(louvreBrief(build), label, 'supportVolume_mm3')]).toEqual([label, 0]);
  }
});

test('chevron louvres let no straight line through, plain louvres one along their tilt', () => {
  expect(scored(louvreBrief('flat'), 'chevron louvres', 'sightMargin_mm')).toBeLessThan(0);
  expect(scored(louvreBrief('flat'), 'louvres', 'sightMargin_mm')).toBeGreaterThan(0.5);
});

test('bends out and back hide the light and print flat without support', () => {
  expect(scored(aBrief(), 'single bends', 'sightMargin_mm')).toBeLessThan(0);
  expect(scored(aBrief(), 'single bends', 'supportVolume_mm3')).toBe(0);
});

test('briefs that do not ask for ribs begin as ever, without louvres', () => {
  const labels = createGenome(aBrief()).starts.map((start) => start.label);
  expect(labels).toContain('tilted slots with ribs');
  expect(labels.some((label) => label.includes('louvres'))).toBe(false);
});
