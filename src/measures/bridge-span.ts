import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const bridgeSpan: Measure = {
  id: 'bridge_mm',
  label: 'longest bridge',
  unit: 'mm',
  better: 'lower',
  meaning:
    'Longest ceiling line printed in the air between two supported ends; a ledge that closes a bore counts as half a bridge.',
  validity:
    'Of x, the direction across and the diagonals, the one in which a ceiling is held best. Exact form to one pixel at each end; the estimate from the width of the roof.',
  source:
    'Common practice of filament printing, no source (bridges to some 10 mm where the inside cannot be cleaned).',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).bridge_mm,
};
