import { sightAnalysis } from './analyses/sight.ts';
import type { Measure } from './measure.ts';

export const sightMargin: Measure = {
  id: 'sightMargin_mm',
  label: 'line of sight',
  unit: 'mm',
  better: 'lower',
  meaning:
    'Radius of the widest straight beam that passes the plate untouched; negative: how far the best line of sight runs through solid.',
  validity:
    'Inside the search the best line is found by a short fit and may fall up to 0.15 mm short; archived designs are searched with 2048 further lines.',
  source: 'Geometry: least greatest miss of a line through the stations (Lawson 1961).',
  standing: 'exact',
  evaluate: (assessment) => assessment.get(sightAnalysis).worst_mm,
};
