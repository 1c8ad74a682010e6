import { accessRating, REACH_CAUTION } from '../physics/index.ts';
import { openingsAnalysis } from './analyses/openings.ts';
import type { Measure } from './measure.ts';

export const probeOpening: Measure = {
  id: 'probeOpening_mm',
  label: 'largest opening',
  unit: 'mm',
  better: 'lower',
  meaning:
    'Largest sphere that can be pushed through the plate: the narrowest place of the widest channel, plus 0.3 mm for the print.',
  validity:
    'Below 12.5 mm a test sphere of IP2X does not pass; the jointed test finger must be tried with the plate mounted.',
  source: 'Geometry; probes of IEC 60529 from memory; 0.3 mm: common practice, no source.',
  standing: 'exact',
  caution: REACH_CAUTION,
  evaluate: (assessment) => assessment.get(openingsAnalysis).probeOpening_mm,
  outside(assessment) {
    const opening_mm = assessment.get(openingsAnalysis).probeOpening_mm;
    if (accessRating(opening_mm) !== 'IP1X' && accessRating(opening_mm) !== 'none') return null;
    return `A sphere of ${opening_mm.toFixed(1)} mm passes: no protection against fingers (IP2X needs less than 12.5 mm).`;
  },
};
