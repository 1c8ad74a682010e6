import { END } from '../design/index.ts';
import { flowAnalysis } from './analyses/flow.ts';
import type { Measure } from './measure.ts';

export const flowEvenness: Measure = {
  id: 'flowEvenness',
  label: 'flow evenness',
  unit: '-',
  better: 'higher',
  meaning: 'Least over greatest bulk velocity at the inlet ports, at design flow; 1 is even.',
  validity:
    'Even pressure on both faces: differences come from the channels alone. Swirl, hub shadow and uneven approach of a fan are not modelled.',
  source: 'Definition; flow split as in pressureDrop_Pa.',
  standing: 'handbook',
  evaluate: (assessment) => {
    const velocity = assessment.get(flowAnalysis).shapeVelocity_m_per_s;
    let least = Number.POSITIVE_INFINITY;
    let greatest = 0;
    const { sides } = assessment.samples;
    for (let m = 0; m < velocity.length; m += 1) {
      // Exits of a plenum are no inlet ports of the plate.
      if (sides !== null && sides.kind[2 * m] === END.plenum) continue;
      const U = velocity[m];
      least = Math.min(least, U);
      greatest = Math.max(greatest, U);
    }
    return least / greatest;
  },
};
