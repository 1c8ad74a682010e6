import { dustAnalysis } from './analyses/dust.ts';
import type { Measure } from './measure.ts';

/** Shares below this are rounding. */
const ROUNDING = 1e-12;

export const dustCapture: Measure = {
  id: 'dustCapture',
  label: 'dust kept',
  unit: '-',
  better: 'higher',
  meaning:
    'Share of the dust mass that stays in the plate at design flow: thrown onto walls at bends or into pockets, and not blown off again.',
  validity:
    'For ranking plates, next to a test. Dry grains rebound from bare walls, which hold half of what sticks; sticky dust stays better. Gravity counts where the brief says dust.down; fibres are left out. This is for empty pockets: see pocketFillTime_h and captureWhenFull.',
  source:
    'Own heuristic on bend losses of Pui, Romay-Novas & Liu 1987, rebound of Wall, John, Wang & Goren 1990 and the threshold friction velocity of Shao & Lu 2000 (from memory).',
  standing: 'heuristic',
  evaluate: (assessment) => {
    const { capture } = assessment.get(dustAnalysis);
    // Straight channels keep nothing; what sums of rounding leave would pass for an objective.
    return capture < ROUNDING ? 0 : capture;
  },
  outside: ({ samples }) =>
    samples.teeth === null
      ? null
      : 'teeth stir dust onto the wall and catch it between them, which is not counted',
};
