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
    'Cuts along other directions, or zigzag from port to port, may be weaker. The estimate in the search lays each channel as two boxes across the cuts: mostly good to a few hundredths, at most 0.2 off in sound random plates of four briefs (ranks as the raster does, correlation 0.90 to 0.98); archived designs count pixels.',
  source: 'Own definition after ligament efficiency of perforated plates.',
  standing: 'heuristic',
  caution:
    'A ranking of designs, not a strength calculation: prove a part that carries load or guards people by test.',
  evaluate: (assessment) => assessment.get(printAnalysis).weakestSection,
};
