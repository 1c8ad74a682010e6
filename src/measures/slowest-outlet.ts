import { outletSpeedAnalysis } from './analyses/outlet-speed.ts';
import type { Measure } from './measure.ts';

export const slowestOutlet: Measure = {
  id: 'slowestOutlet_m_per_s',
  label: 'slowest outlet',
  unit: 'm/s',
  better: 'higher',
  meaning: 'Bulk air speed at the outlet port of the slowest channel, at design flow.',
  validity:
    'Bulk speeds at the ports: jets mix and slow within some ten bores behind the plate. Even pressure on both faces: swirl and uneven approach of a fan are not modelled; the shadow of its hub and corners is, roughly, where air.supply.swept is given.',
  source: 'Continuity; flow split as in pressureDrop_Pa.',
  standing: 'handbook',
  evaluate: (assessment) => assessment.get(outletSpeedAnalysis).slowest_m_per_s,
};
