import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const overhangArea: Measure = {
  id: 'overhangArea_mm2',
  label: 'overhang',
  unit: 'mm2',
  better: 'lower',
  meaning:
    "Area of down-facing wall that lies flatter than the process's overhang limit, the bed apart.",
  validity:
    'One degree of slack on the limit, so that a sampled roof at exactly the limit counts as printable. Estimate: walls as if running along the centreline. Exact: triangles of the wall.',
  source: 'Common practice of filament printing, no source (limit of 45 degrees).',
  standing: 'common practice',
  evaluate: (assessment) => assessment.get(printAnalysis).overhangArea_mm2,
};
