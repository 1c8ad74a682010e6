import { ligamentAnalysis } from './analyses/ligaments.ts';
import type { Measure } from './measure.ts';

export const ligamentSlenderness: Measure = {
  id: 'ligamentSlenderness',
  label: 'slenderest ligament',
  unit: '-',
  better: 'lower',
  meaning:
    'Longest free length of the solid between two neighbouring channels over its width: long thin slats whip, sag and break; ribs shorten them. 0 without neighbours.',
  validity:
    'Free length: the narrower of the two channels, seen along the ligament. Ligaments at the outer edge are not looked at. Up to 16 channels at 5 depths in the search, 48 at 9 depths in the exact form.',
  source: 'Own definition; slats up to some 15 to 20 times as long as thick hold (no source).',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(ligamentAnalysis).slenderness,
};
