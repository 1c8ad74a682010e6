import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const contoursPerLayer: Measure = {
  id: 'contoursPerLayer',
  label: 'contours per layer',
  unit: '-',
  better: 'lower',
  meaning:
    'Closed contours of a layer, outer and inner, mean over the layers: each but the first costs a travel and a retraction and may leave strings.',
  validity:
    'Exact form counts pieces and holes of every layer; the estimate counts how often layers meet each channel.',
  source: 'Common practice of filament printing, no source.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).contoursPerLayer,
};
