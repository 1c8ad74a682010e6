import { dustAnalysis } from './analyses/dust.ts';
import type { Measure } from './measure.ts';

export const dustCapture: Measure = {
  id: 'dustCapture',
  label: 'dust kept',
  unit: '-',
  better: 'higher',
  meaning:
    'Share of the dust mass that stays in the plate at design flow: thrown onto walls at bends or into pockets, and not blown off again.',
  validity:
    'For ranking plates, next to a test. Dry grains may rebound more, sticky dust less; gravity, fibres and the growing layer are left out.',
  source:
    'Own heuristic on bend losses of Pui, Romay-Novas & Liu 1987 and the threshold friction velocity of Shao & Lu 2000 (from memory).',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(dustAnalysis).capture,
};
