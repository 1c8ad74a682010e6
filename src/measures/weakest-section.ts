import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const weakestSection: Measure = {
  id: 'weakestSection',
  label: 'weakest section',
  unit: '-',
  better: 'higher',
  meaning:
    'Least share of solid over all flat cuts normal to x, y and z and along the rows of channels, against the plate without channels and holes.',
  validity:
    'Cuts along other directions, or zigzag from port to port, may be weaker. The estimate, and cuts along rows, spread each channel over its bore and are good to a few hundredths.',
  source: 'Own definition after ligament efficiency of perforated plates.',
  standing: 'heuristic',
  caution:
    'A ranking of designs, not a strength calculation: prove a part that carries load or guards people by test.',
  evaluate: (assessment) => assessment.get(printAnalysis).weakestSection,
};
