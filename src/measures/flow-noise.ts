import { flowNoiseAnalysis } from './analyses/sound-flow.ts';
import type { Measure } from './measure.ts';
import { notAsked } from './on-demand.ts';

export const flowNoise: Measure = {
  id: 'flowNoiseIndex_dB',
  label: 'flow noise index',
  unit: 'dB',
  better: 'lower',
  meaning:
    'How noise of the air in the channels grows with its speed: 10 log10 of the sum over channels of area times speed^n at the narrowest place, against 1 m/s through 100 mm2, at design flow.',
  validity:
    'An index to rank plates, not a sound level: 1 dB less is 1 dB less only between plates of like edges under the same fan. n = sound.noiseExponent, 6 by default (18 dB for twice the speed). Noise of the fan itself and tones are left out.',
  source:
    'Own heuristic on the power laws of Curle 1955 (n = 6, walls) and Ffowcs Williams & Hall 1970 (n = 5, edges).',
  standing: 'heuristic',
  caution:
    'Short sharp-edged holes and pockets that the air grazes can whistle; only a printed sample tells.',
  unavailable: (brief) => notAsked(brief, flowNoise.id, 'sound'),
  evaluate: (assessment) => assessment.get(flowNoiseAnalysis).index_dB,
  outside: (assessment) => {
    const { whistling, lowest_Hz, highest_Hz } = assessment.get(flowNoiseAnalysis);
    if (whistling === 0) return null;
    return `${whistling} channels are only 0.5 to 2 bores long and may whistle, somewhere from ${lowest_Hz.toFixed(0)} to ${highest_Hz.toFixed(0)} Hz at design flow: round their edges or thicken the plate`;
  },
};
