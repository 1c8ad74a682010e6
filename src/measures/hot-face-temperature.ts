import { hotFace_C } from './analyses/heat.ts';
import { heatDoubts, withoutHeat } from './analyses/heat-doubts.ts';
import type { Measure } from './measure.ts';
import { HEAT_CAUTION, HEAT_SOURCE, HEAT_VALIDITY } from './thermal-resistance.ts';

export const hotFaceTemperature: Measure = {
  id: 'hotFaceTemperature_C',
  label: 'plate at the hot face',
  unit: 'C',
  better: 'lower',
  meaning:
    'Mean temperature of the plate where it touches the hot body, its hottest place: to be held against what the material stands.',
  validity: HEAT_VALIDITY,
  source: HEAT_SOURCE,
  standing: 'handbook',
  caution: HEAT_CAUTION,
  unavailable: withoutHeat,
  evaluate: hotFace_C,
  outside: heatDoubts,
};
