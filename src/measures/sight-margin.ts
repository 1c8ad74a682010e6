import { sightAnalysis } from './analyses/sight.ts';
import type { Measure } from './measure.ts';

/**
 * Hidden deeper than this reads as this [mm]. Far inside the solid the best line is ill-defined: what
 * is found moved by 20 mm from one sampling to the next, which a search takes for progress.
 */
const DEEP_mm = 2;

/**
 * How far the short fit may fall short of the best line [mm]. It is added inside the search: a search
 * at the limit otherwise offers only designs that the exact form then refuses, and its archive stays
 * empty.
 */
const SHORT_mm = 0.1;

export const sightMargin: Measure = {
  id: 'sightMargin_mm',
  label: 'line of sight',
  unit: 'mm',
  better: 'lower',
  meaning:
    'Radius of the widest straight beam that passes the plate untouched; negative: how far the best line of sight runs through solid, at most 2 mm.',
  validity:
    'Inside the search the best line is found by a short fit, which may fall up to 0.15 mm short and is read 0.1 mm wider; archived designs are searched with 2048 further lines.',
  source: 'Geometry: least greatest miss of a line through the stations (Lawson 1961).',
  standing: 'exact',
  evaluate: (assessment) => {
    const found_mm = assessment.get(sightAnalysis).worst_mm + (assessment.exact ? 0 : SHORT_mm);
    return Math.max(-DEEP_mm, found_mm);
  },
};
