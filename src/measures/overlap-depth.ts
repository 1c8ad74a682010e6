import type { Measure } from './measure.ts';
import { clearanceAnalysis } from './clearance/clearance.ts';

export const overlapDepth: Measure = {
  id: 'overlapDepth_mm',
  label: 'overlap',
  unit: 'mm',
  better: 'lower',
  meaning:
    'How deep channels run into each other, themselves, mounting holes, the rim or out of a face: ' +
    'the deepest overlap of every pair, added up; exactly 0 for a sound part.',
  validity:
    'A guide for the search, not a size of the part: it falls to 0 as the overlaps open, and counts ' +
    'a pair that crosses twice once. Reaching into the rim counts by its depth.',
  source: 'Own definition on the walls of thinnestWall_mm.',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(clearanceAnalysis).overlapDepth_mm,
};
