import { describe, expect, it } from 'vitest';

import { briefSchema } from '../../../src/brief/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import { printAnalysis } from '../../../src/measures/analyses/printing.ts';
import { createAssessment } from '../../../src/measures/assessment.ts';
import { bridgeSpan } from '../../../src/measures/bridge-span.ts';
import { contoursPerLayer } from '../../../src/measures/contours-per-layer.ts';
import { finestFeature } from '../../../src/measures/finest-feature.ts';
import { mass } from '../../../src/measures/mass.ts';
import { newIslands } from '../../../src/measures/new-islands.ts';
import { overhangArea } from '../../../src/measures/overhang-area.ts';
import { partCost } from '../../../src/measures/part-cost.ts';
import { printTime } from '../../../src/measures/print-time.ts';
import { supportVolume } from '../../../src/measures/support-volume.ts';
import { weakestSection } from '../../../src/measures/weakest-section.ts';
import { aChannelOf, aPlateFor } from '../../support/printed-plate.ts';

const MEASURES = [
  overhangArea,
  bridgeSpan,
  newIslands,
  contoursPerLayer,
  supportVolume,
  finestFeature,
  weakestSection,
  mass,
  printTime,
  partCost,
];

const brief = briefSchema.parse({
  format: 'anfract-brief',
  version: 1,
  plate: { outline: { kind: 'round', diameter_mm: 60 }, thickness_mm: 10 },
  air: { supply: { kind: 'flow', flow_m3_per_h: 10 } },
});

function assess(exact: boolean, bore_mm: number) {
  const design = {
    plate: aPlateFor({ thickness_mm: 10 }),
    channels: [
      aChannelOf(
        [
          [0, 0, 0],
          [0, 0, 10],
        ],
        bore_mm,
      ),
    ],
  };
  return createAssessment(brief, design, sampleDesign(design), exact);
}

describe('printing measures', () => {
  it('read the estimate inside the loop and the raster for archived designs', () => {
    expect(assess(false, 5).get(printAnalysis).form).toBe('estimate');
    expect(assess(true, 5).get(printAnalysis).form).toBe('raster');
  });

  it('give finite numbers with a meaning, validity and source', () => {
    for (const exact of [false, true]) {
      const assessment = assess(exact, 5);
      for (const measure of MEASURES) {
        expect(Number.isFinite(measure.evaluate(assessment)), measure.id).toBe(true);
        expect(measure.meaning.length).toBeGreaterThan(30);
        expect(measure.validity.length).toBeGreaterThan(30);
        expect(measure.source.length).toBeGreaterThan(10);
      }
    }
  });

  it('say when the finest opening falls below what the process prints', () => {
    // Shrinkage 0.2 mm, least feature 0.8 mm.
    expect(finestFeature.outside?.(assess(false, 1.5))).toBe(null);
    expect(finestFeature.outside?.(assess(false, 0.9))).toMatch(/0\.70 mm .* 0\.8/);
  });
});
