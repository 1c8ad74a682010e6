import { tearAnalysis } from './analyses/tear.ts';
import type { Measure } from './measure.ts';
import { STRENGTH_CAUTION, needsPush } from './strength-words.ts';

export const tearShare: Measure = {
  id: 'tearShare',
  label: 'weakest tear',
  unit: '-',
  better: 'higher',
  meaning:
    'Solid on the weakest tear from edge to edge, straight, askew or zigzag from channel to channel, over the straight distance between its ends.',
  validity:
    'Ligaments by their mean over the depths, so that a tear may follow leaning channels; sections taken as convex, pockets as deep all round. Mounting holes count as openings. An upper bound: ligaments at half depth and 6 to 32 starting places in the search, at 5 depths and up to 32 in the exact form; corners of less than half the narrow width do not count.',
  source: 'Own definition; shortest path of Dijkstra 1959 over the ligaments.',
  standing: 'heuristic',
  caution: STRENGTH_CAUTION,
  unavailable: needsPush,
  evaluate: (assessment) => assessment.get(tearAnalysis).share,
};
