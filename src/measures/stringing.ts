import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

const MM3_PER_CM3 = 1000;

export const stringing: Measure = {
  id: 'stringingIndex_per_cm3',
  label: 'stringing index',
  unit: '1/cm3',
  better: 'lower',
  meaning:
    'Retractions per volume of the part: each ends a contour, crosses a void and may leave a string in a channel.',
  validity:
    'Ranks designs of one process; how much a material strings, and whether strings can be cleared from a bent channel, it does not know.',
  source: 'Own heuristic; common practice of filament printing, no source.',
  standing: 'heuristic',
  evaluate: (assessment) => {
    const { retractions, solidVolume_mm3 } = assessment.get(printAnalysis);
    return (MM3_PER_CM3 * retractions) / solidVolume_mm3;
  },
};
