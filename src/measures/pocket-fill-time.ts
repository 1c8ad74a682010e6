import { DEFAULT_LOAD_mg_per_m3, dustLoad, fillAnalysis } from './analyses/dust-fill.ts';
import type { Measure } from './measure.ts';
import { isNamed } from './on-demand.ts';

export const pocketFillTime: Measure = {
  id: 'pocketFillTime_h',
  label: 'pockets half spent',
  unit: 'h',
  better: 'higher',
  meaning:
    'Time of steady air until the pockets catch half of what they catch empty, because the others are full; fades to 0 where all pockets together keep less than 3 % of the dust. After it the plate keeps less and less, down to captureWhenFull.',
  validity: `Dust load as in dust.load_mg_per_m3 (${DEFAULT_LOAD_mg_per_m3} mg/m3 when left out) at design flow, every pocket filled to its wall at 0.45 of the grain density, as far as dust lies in it by dust.down. Crusts, clumps and fibres fill pockets sooner.`,
  source:
    'Mass balance on dustCapture; bulk share 0.45 of grain density: common practice, no source.',
  standing: 'heuristic',
  unavailable: (brief) => {
    if (!brief.routes.pockets) return 'The brief allows no pockets.';
    return brief.dust.load_mg_per_m3 !== undefined || isNamed(brief, pocketFillTime.id)
      ? null
      : 'Worked out on demand: name pocketFillTime_h in goals, or state dust.load_mg_per_m3.';
  },
  evaluate: (assessment) => assessment.get(fillAnalysis).halfway_h,
  outside: (assessment) => {
    const { halfway_h, first_h } = assessment.get(fillAnalysis);
    if (halfway_h === 0 || first_h > 0.1 * halfway_h) return null;
    return `the first pocket is full after ${first_h.toFixed(1)} h at ${dustLoad(assessment.brief)} mg/m3, long before half of the catching is gone: pockets fill unevenly`;
  },
};
