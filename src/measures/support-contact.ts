import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const supportContact: Measure = {
  id: 'supportContact_mm2',
  label: 'support contact',
  unit: 'mm2',
  better: 'lower',
  meaning:
    'Area of the part that support touches: ceilings that neither the layer below nor a bridge carries, and what the support stands on inside the part. Scars to clean, and inside a channel not to be reached.',
  validity:
    'As the support volume, from the same layers. The fast form takes support in a channel to stand on a floor as large as its ceiling.',
  source:
    'Common practice of filament printing, no source; the rule for closing bores is an own heuristic.',
  standing: 'heuristic',
  evaluate: (assessment) => {
    const { supportArea_mm2, supportFooting_mm2 } = assessment.get(printAnalysis);
    return supportArea_mm2 + supportFooting_mm2;
  },
};
