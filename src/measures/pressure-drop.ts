import { flowAnalysis } from './analyses/flow.ts';
import type { Measure } from './measure.ts';
import { flowDoubts } from './analyses/flow-doubts.ts';

export const pressureDrop: Measure = {
  id: 'pressureDrop_Pa',
  label: 'pressure drop',
  unit: 'Pa',
  better: 'lower',
  meaning:
    'Total pressure before the plate minus ambient pressure behind it, at design flow, in open air.',
  validity:
    'Even pressure on both faces, dry air, below 1 kPa. Within 13 % of computed steady laminar flow in straight, S-shaped and pocketed bores of 4 to 8 diameters; friction is +-30 % between Re 2300 and 4000; losses of tight laminar bends are of ranking grade.',
  source:
    'Developing friction: Muzychka & Yovanovich 2009; turbulent: Haaland 1983; curvature: White 1929, Ito 1959; bends and cones: Rennels & Hudson 2012; inlet: Idelchik; how they combine is an own heuristic, checked against computed flow.',
  standing: 'handbook',
  evaluate: (assessment) => assessment.get(flowAnalysis).pressureDrop_Pa,
  outside: (assessment) => flowDoubts(assessment),
};
