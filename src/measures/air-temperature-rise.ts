import { heatAnalysis, heatFlow_W } from './analyses/heat.ts';
import { heatDoubts, withoutHeat } from './analyses/heat-doubts.ts';
import type { Measure } from './measure.ts';
import { HEAT_CAUTION, HEAT_SOURCE, HEAT_VALIDITY } from './thermal-resistance.ts';

export const airTemperatureRise: Measure = {
  id: 'airTemperatureRise_K',
  label: 'warming of the air',
  unit: 'K',
  better: 'lower',
  meaning: 'Mixed outlet air less incoming air, at the fan (else at the design flow).',
  validity: HEAT_VALIDITY,
  source: `Heat balance; ${HEAT_SOURCE}`,
  standing: 'handbook',
  caution: HEAT_CAUTION,
  unavailable: withoutHeat,
  evaluate: (assessment) =>
    heatFlow_W(assessment) / assessment.get(heatAnalysis).streams.total_W_per_K,
  outside: heatDoubts,
};
