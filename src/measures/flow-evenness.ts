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
    'Even pressure on both faces: differences come from the channels alone. Swirl and uneven approach of a fan are not modelled; the shadow of its hub and corners is, roughly, where air.supply.swept is given.',
  source: 'Definition; flow split as in pressureDrop_Pa.',
  standing: 'handbook',
  evaluate: (assessment) => {
    const { shapeVelocity_m_per_s, shapeFlow_m3_per_s, channelFlow_m3_per_s } =
      assessment.get(flowAnalysis);
    let least = Number.POSITIVE_INFINITY;
    let greatest = 0;
    const { sides, shapeOf } = assessment.samples;
    for (const [i, m] of shapeOf.entries()) {
      // Exits of a plenum are no inlet ports of the plate.
      if (sides !== null && sides.kind[2 * m] === END.plenum) continue;
      const own =
        channelFlow_m3_per_s === null ? 1 : channelFlow_m3_per_s[i] / shapeFlow_m3_per_s[m];
      const U = own * shapeVelocity_m_per_s[m];
      least = Math.min(least, U);
      greatest = Math.max(greatest, U);
    }
    return least / greatest;
  },
};
