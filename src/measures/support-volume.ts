import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const supportVolume: Measure = {
  id: 'supportVolume_mm3',
  label: 'support',
  unit: 'mm3',
  better: 'lower',
  meaning:
    'Void below surfaces that neither the layer below, nor a bridge within the limit, nor a closing bore carries, down to the next solid or the bed.',
  validity:
    'Small bores lying down are taken to carry themselves while their opening is at most half the bridge limit wide. Exact form: overhang steps up to sqrt 2 of the limit pass where they run diagonally to the pixels.',
  source:
    'Common practice of filament printing, no source; the rule for closing bores is an own heuristic.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).supportVolume_mm3,
};
