import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

const MM_PER_M = 1000;

export const travel: Measure = {
  id: 'travel_m',
  label: 'travel',
  unit: 'm',
  better: 'lower',
  meaning: 'Way of the nozzle between contours over the whole print, laying nothing.',
  validity: 'A shortest tour over contours spread evenly; slicers do somewhat worse.',
  source:
    'Beardwood, Halton & Hammersley 1959, Proc. Camb. Phil. Soc. 55:299; contours as in contoursPerLayer.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).travel_mm / MM_PER_M,
};
