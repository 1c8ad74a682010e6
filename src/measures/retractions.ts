import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const retractions: Measure = {
  id: 'retractions',
  label: 'retractions',
  unit: '-',
  better: 'lower',
  meaning: 'Retractions over the whole print: one for each contour of a layer beyond the first.',
  validity:
    'Contours as in contoursPerLayer; what a slicer saves by staying inside walls is left out.',
  source: 'Common practice of filament printing, no source.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).retractions,
};
