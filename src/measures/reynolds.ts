import { FULLY_TURBULENT, LAMINAR_LIMIT } from '../physics/index.ts';
import { flowAnalysis } from './analyses/flow.ts';
import type { Measure } from './measure.ts';

export const reynolds: Measure = {
  id: 'reynolds',
  label: 'Reynolds number',
  unit: '-',
  better: 'lower',
  meaning:
    'Greatest Reynolds number of any channel at design flow, on hydraulic diameter, mean along it.',
  validity: `Below ${LAMINAR_LIMIT} the stream is laminar, above ${FULLY_TURBULENT} turbulent; a rough short inlet may trip it from about 1500 (from memory).`,
  source: 'Definition; flow split as in pressureDrop_Pa.',
  standing: 'handbook',
  evaluate: (assessment) => assessment.get(flowAnalysis).maxReynolds,
  outside: (assessment) => {
    const Re = assessment.get(flowAnalysis).maxReynolds;
    if (Re <= LAMINAR_LIMIT || Re >= FULLY_TURBULENT) return null;
    return `Re ${Re.toFixed(0)} lies between ${LAMINAR_LIMIT} and ${FULLY_TURBULENT}: laminar or turbulent cannot be told`;
  },
};
