import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const printTime: Measure = {
  id: 'printTime_h',
  label: 'print time',
  unit: 'h',
  better: 'lower',
  meaning:
    'Time to print one plate: laying lines, travel and retractions between contours, layer changes, least layer time.',
  validity:
    'Constant speeds, full infill, no supports. Slowing down at corners is left out and adds 20 to 40 % on short contours (common practice, no source).',
  source:
    'Common practice of filament printing, no source; travel between contours after Beardwood, Halton & Hammersley 1959.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).printTime_h,
};
