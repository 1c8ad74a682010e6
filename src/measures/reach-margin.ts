import { REACH_CAUTION } from '../physics/index.ts';
import { openingsAnalysis } from './analyses/openings.ts';
import type { Measure } from './measure.ts';

export const reachMargin: Measure = {
  id: 'reachMargin_mm',
  label: 'reach margin',
  unit: 'mm',
  better: 'higher',
  meaning:
    'Way to the moving parts beyond the safety distance for the opening; negative: a finger may reach them.',
  validity:
    'The way is measured along z, and in plates with side exits straight from the place passed to the port before the blades (through the mouth in the plenum): bends between earn no credit. The opening counts at the narrowest place that must be passed.',
  source: 'ISO 13857:2019 tables 4 and 5, from memory; where sources disagree the larger distance.',
  standing: 'handbook',
  caution: REACH_CAUTION,
  evaluate: (assessment) => assessment.get(openingsAnalysis).reachMargin_mm,
};
