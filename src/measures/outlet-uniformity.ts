import { outletSpeedAnalysis } from './analyses/outlet-speed.ts';
import type { Measure } from './measure.ts';

export const outletUniformity: Measure = {
  id: 'outletUniformity',
  label: 'outlet uniformity',
  unit: '-',
  better: 'higher',
  meaning:
    'Uniformity index of air speed over the outlet ports, weighted by area: 1 when all blow alike.',
  validity:
    'Bulk speeds at the ports: jets mix and slow within some ten bores behind the plate. Even pressure on both faces: swirl and uneven approach of a fan are not modelled; the shadow of its hub and corners is, roughly, where air.supply.swept is given.',
  source:
    'Uniformity index 1 - sum(A |U - mean|) / (2 A mean) (Weltens et al. 1993, from memory); flow split as in pressureDrop_Pa.',
  standing: 'handbook',
  evaluate: (assessment) => assessment.get(outletSpeedAnalysis).uniformity,
};
