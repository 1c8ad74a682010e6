import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const partCost: Measure = {
  id: 'partCost',
  label: 'cost',
  unit: 'currency',
  better: 'lower',
  meaning:
    "Cost of one printed plate in the brief's currency: mass times material price plus print time times machine rate.",
  validity: 'No labour, supports, scrap or setting up. As good as print time and mass.',
  source: 'Common practice of filament printing, no source.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).cost,
};
