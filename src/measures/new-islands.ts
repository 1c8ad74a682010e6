import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const newIslands: Measure = {
  id: 'newIslands',
  label: 'new islands',
  unit: '-',
  better: 'lower',
  meaning:
    'Pieces of a layer, at least one line square, that begin in the air with nothing below them.',
  validity:
    'Exact form counts them in every layer. The estimate sees only feet of a polygonal outline printed on edge: channels together can make islands it misses.',
  source: 'Own definition by connected pieces of each layer.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(printAnalysis).newIslands,
};
