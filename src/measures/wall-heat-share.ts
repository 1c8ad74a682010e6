import { heatAnalysis } from './analyses/heat.ts';
import { heatDoubts, withoutHeat } from './analyses/heat-doubts.ts';
import type { Measure } from './measure.ts';
import { HEAT_CAUTION, HEAT_SOURCE, HEAT_VALIDITY } from './thermal-resistance.ts';

export const wallHeatShare: Measure = {
  id: 'wallHeatShare',
  label: 'wall put to use',
  unit: '-',
  better: 'higher',
  meaning:
    'Heat to the air over what the same walls would give if all of them were as hot as the hot body: a fin efficiency with the joint and the warming of the air in it.',
  validity: HEAT_VALIDITY,
  source: HEAT_SOURCE,
  standing: 'handbook',
  caution: HEAT_CAUTION,
  unavailable: withoutHeat,
  evaluate: (assessment) => assessment.get(heatAnalysis).wallShare,
  outside: heatDoubts,
};
