import { flowAnalysis } from './analyses/flow.ts';
import type { Measure } from './measure.ts';

export const channelVelocity: Measure = {
  id: 'channelVelocity_m_per_s',
  label: 'fastest channel',
  unit: 'm/s',
  better: 'lower',
  meaning: 'Greatest bulk velocity at the narrowest place of any channel, at design flow.',
  validity:
    'Flow over printed area; the speed on the axis is up to twice as high in laminar flow. How the flow splits is as uncertain as half the pressure drop.',
  source: 'Continuity; flow split as in pressureDrop_Pa.',
  standing: 'handbook',
  evaluate: (assessment) => assessment.get(flowAnalysis).maxVelocity_m_per_s,
};
