import { sightAnalysis } from './analyses/sight.ts';
import type { Measure } from './measure.ts';

/**
 * Hidden deeper than this reads as this [mm]. Far inside the solid the best line is ill-defined: what
 * is found moved by 20 mm from one sampling to the next, which a search takes for progress.
 */
const DEEP_mm = 2;

export const sightMargin: Measure = {
  id: 'sightMargin_mm',
  label: 'line of sight',
  unit: 'mm',
  better: 'lower',
  meaning:
    'Radius of the widest straight beam that passes the plate untouched; negative: how far the best line of sight runs through solid, at most 2 mm.',
  validity:
    'Inside the search the best line is found by a short fit and may fall up to 0.15 mm short; archived designs are searched with 2048 further lines.',
  source: 'Geometry: least greatest miss of a line through the stations (Lawson 1961).',
  standing: 'exact',
  evaluate: (assessment) => Math.max(-DEEP_mm, assessment.get(sightAnalysis).worst_mm),
};
