import { leakAnalysis } from './analyses/sight.ts';
import type { Measure } from './measure.ts';

export const lightLeak: Measure = {
  id: 'lightLeak',
  label: 'light leak',
  unit: '-',
  better: 'lower',
  meaning:
    'Share of diffuse light entering the ports that leaves behind the plate without touching a wall; 0 when there is no line of sight.',
  validity:
    'Direct light only. Black walls (reflectance .05) add a few per cent of it, white ones up to several times as much, also where nothing is seen directly.',
  source:
    'Radiation view factor of the two ports through the channel, exact; lines sampled at fixed points: 2048 per shape when archived (from 256 where over 16 shapes share 32768), 32 inside the search.',
  standing: 'exact',
  evaluate: (assessment) => assessment.get(leakAnalysis).plate,
  outside: (assessment) =>
    assessment.samples.sides?.plenum && assessment.get(leakAnalysis).plate > 0
      ? 'through a plenum it is an upper bound: the light that enters the plenum directly'
      : null,
};
