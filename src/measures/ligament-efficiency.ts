import { ligamentAnalysis } from './analyses/ligaments.ts';
import type { Measure } from './measure.ts';

export const ligamentEfficiencyMeasure: Measure = {
  id: 'ligamentEfficiency',
  label: 'ligament efficiency',
  unit: '-',
  better: 'higher',
  meaning:
    'Solid between a channel and its nearest neighbour over their pitch, at the depth where it is least; the lower quartile of the channels. 1 without neighbours.',
  validity:
    'Seen along the air, sections cut parallel to the faces and taken as convex, pockets as deep all round. Up to 16 channels at 5 depths in the search, 48 at 9 depths in the exact form.',
  source: "Ligament efficiency (p - d) / p of perforated plates (O'Donnell & Langer 1962).",
  standing: 'handbook',
  evaluate: (assessment) => assessment.get(ligamentAnalysis).efficiency,
};
