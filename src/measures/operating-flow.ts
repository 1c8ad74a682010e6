import { flowAnalysis } from './analyses/flow.ts';
import type { Measure } from './measure.ts';
import { flowDoubts } from './analyses/flow-doubts.ts';

export const operatingFlow: Measure = {
  id: 'operatingFlow_m3_per_h',
  label: 'flow on the fan',
  unit: 'm3/h',
  better: 'higher',
  meaning: 'Flow at which the fan delivers exactly the pressure the plate asks for.',
  validity:
    'Needs a fan curve in the brief. Static pressure, straight lines between its points, scaled from 1.2 kg/m3 to the air at hand; of several crossings the stable one with the greatest flow. A guard close to the blades lowers the curve itself, which is not modelled.',
  source: 'Fan laws; AMCA 201 on the system effect (from memory); plate as in pressureDrop_Pa.',
  standing: 'handbook',
  unavailable: ({ air }) =>
    air.supply.kind === 'flow'
      ? 'An operating point needs a fan: set air.supply to { "kind": "fan", "curve": [...] }.'
      : null,
  evaluate: (assessment) => assessment.get(flowAnalysis).operatingFlow_m3_per_h ?? Number.NaN,
  outside: (assessment) => {
    const flow = assessment.get(flowAnalysis);
    const others = flow.otherCrossings_m3_per_h;
    const hunting =
      others.length > 0
        ? `the fan curve is met at ${others.map((q) => q.toFixed(1)).join(', ')} m3/h as well: the fan may settle there or hunt`
        : null;
    const doubts = flowDoubts(assessment);
    return hunting && doubts ? `${hunting}; ${doubts}` : (hunting ?? doubts);
  },
};
