import { fillAnalysis } from './analyses/dust-fill.ts';
import { dustCapture } from './dust-capture.ts';
import type { Measure } from './measure.ts';
import { isNamed } from './on-demand.ts';

export const captureWhenFull: Measure = {
  id: 'captureWhenFull',
  label: 'kept when full',
  unit: '-',
  better: 'higher',
  meaning:
    'Share of the dust mass that the plate still keeps when all its pockets are full: what sticks to bare walls at bends.',
  validity:
    'As dustCapture, a lower bound: dust that would have gone into a full pocket counts as lost, though some of it sticks further on. Full pockets also shed in lumps.',
  source: 'dustCapture less what pockets keep.',
  standing: 'heuristic',
  unavailable: (brief) => {
    if (!brief.routes.pockets) return 'The brief allows no pockets.';
    return brief.dust.load_mg_per_m3 !== undefined || isNamed(brief, captureWhenFull.id)
      ? null
      : 'Worked out on demand: name captureWhenFull in goals, or state dust.load_mg_per_m3.';
  },
  evaluate: (assessment) => assessment.get(fillAnalysis).captureFull,
  outside: (assessment) => dustCapture.outside?.(assessment) ?? null,
};
