import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const finestFeature: Measure = {
  id: 'finestFeature_mm',
  label: 'finest opening',
  unit: 'mm',
  better: 'higher',
  meaning:
    "Finest opening as printed: the least bore less the shrinkage of holes, or a pocket's mouth.",
  validity:
    'Openings only; walls are measured by the thinnest wall. Shrinkage is one figure for all bores, really it varies with size and direction.',
  source: 'Common practice of filament printing, no source (holes come out 0.1 to 0.3 mm small).',
  standing: 'common practice',
  evaluate: (assessment) => assessment.get(printAnalysis).finestFeature_mm,
  outside: (assessment) => {
    const finest_mm = assessment.get(printAnalysis).finestFeature_mm;
    const least_mm = assessment.brief.process.minimumFeature_mm;
    return finest_mm < least_mm
      ? `The finest opening prints ${finest_mm.toFixed(2)} mm wide, below process.minimumFeature_mm ${least_mm}: it may close.`
      : null;
  },
};
