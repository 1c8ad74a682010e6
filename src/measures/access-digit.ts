import { REACH_CAUTION } from '../physics/index.ts';
import { openingsAnalysis } from './analyses/openings.ts';
import type { Measure } from './measure.ts';

export const accessDigit: Measure = {
  id: 'accessDigit',
  label: 'access digit (estimate)',
  unit: '-',
  better: 'higher',
  meaning:
    'Estimate of the first digit of an enclosure rating: 4 no wire of 1 mm passes, 3 no rod of 2.5 mm, 2 no sphere of 12.5 mm and the jointed finger ends short of the blades, 1 no sphere of 50 mm and it ends short of them, 0 none.',
  validity:
    'By the narrowest place that must be passed, 0.3 mm added for the print; the way as for the reach margin. Of the finger, 10 mm come out of an opening under 12 mm, else all 80 mm. Only the openings are judged, not the fit of the plate.',
  source:
    'Probes of IEC 60529 from memory and one public summary; the standard was not read. What the tip enters: own allowance.',
  standing: 'heuristic',
  caution: REACH_CAUTION,
  evaluate: (assessment) => assessment.get(openingsAnalysis).accessDigit,
};
