import { REACH_CAUTION } from '../physics/index.ts';
import { OPENING_TOLERANCE_mm } from './analyses/openings.ts';
import { sightAnalysis } from './analyses/sight.ts';
import type { Measure } from './measure.ts';

export const straightRod: Measure = {
  id: 'straightRod_mm',
  label: 'straight rod',
  unit: 'mm',
  better: 'lower',
  meaning:
    'Thickest straight rigid rod, such as a screwdriver, that passes the plate, 0.3 mm added for the print; 0: none passes.',
  validity:
    'For information: holds for rigid rods only. A finger, a wire or a bent tool follows a bend, see the largest opening and the reach margin.',
  source: 'Geometry, as the line of sight; 0.3 mm: common practice, no source.',
  standing: 'exact',
  caution: REACH_CAUTION,
  evaluate: (assessment) => {
    const beam_mm = 2 * assessment.get(sightAnalysis).worst_mm;
    return Math.max(0, beam_mm + OPENING_TOLERANCE_mm);
  },
};
