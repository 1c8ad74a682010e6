import { dustAnalysis } from './analyses/dust.ts';
import type { Measure } from './measure.ts';

export const pocketCapacity: Measure = {
  id: 'pocketCapacity_g',
  label: 'pocket capacity',
  unit: 'g',
  better: 'higher',
  meaning:
    'Dust that the pockets hold when full; a pocket that catches next to nothing hardly counts.',
  validity:
    'Volume drawn, filled to the wall with dust at 0.45 of its grain density. Real layers stop growing earlier.',
  source: 'Geometry; bulk share 0.45 of grain density: common practice, no source.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(dustAnalysis).capacity_g,
};
