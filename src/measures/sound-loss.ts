import { soundAnalysis } from './analyses/sound.ts';
import type { Measure } from './measure.ts';
import { notAsked, notThrough } from './on-demand.ts';

/** Below this, damping is stronger than the wide-tube law says. */
const LEAST_SHEAR = 10;

export const soundLoss: Measure = {
  id: 'soundLoss_dB',
  label: 'sound loss',
  unit: 'dB',
  better: 'higher',
  meaning:
    'Transmission loss of the plate for sound at normal incidence: mean of the octave bands of sound.bands_Hz, 500 Hz to 4 kHz by default.',
  validity:
    'Plane waves in every channel and rigid walls, no flow: below the first cross mode (1.841 c/(pi D), 40 kHz at 5 mm) and cells under half a wave. Bends are not felt by waves far longer than the bore. Sound through the solid, oblique sound and the room are left out. A vent plate hardly blocks fan tones: expect 0 to 10 dB.',
  source:
    'Transfer matrices (Munjal 2014), end masses with neighbours (Fok 1941), wall damping (Kirchhoff 1868), averaged over each band as power. Pockets count as volumes beside the channel.',
  standing: 'handbook',
  unavailable: (brief) => notThrough(brief, soundLoss.id) ?? notAsked(brief, soundLoss.id, 'sound'),
  evaluate: (assessment) => assessment.get(soundAnalysis).loss_dB,
  outside: (assessment) => {
    const { highest_Hz, cutOn_Hz, cellLimit_Hz, leastShear } = assessment.get(soundAnalysis);
    const reasons: string[] = [];
    if (cutOn_Hz < highest_Hz) {
      reasons.push(
        `channels carry cross modes from ${cutOn_Hz.toFixed(0)} Hz, below the ${highest_Hz.toFixed(0)} Hz that count`,
      );
    }
    if (cellLimit_Hz < highest_Hz) {
      reasons.push(
        `channels stand over half a wave apart from ${cellLimit_Hz.toFixed(0)} Hz, below the ${highest_Hz.toFixed(0)} Hz that count`,
      );
    }
    if (leastShear < LEAST_SHEAR) {
      reasons.push(
        `the narrowest bore is ${leastShear.toFixed(1)} boundary layers wide at the lowest frequency; under ${LEAST_SHEAR} sound is damped more than shown`,
      );
    }
    if (assessment.samples.teeth !== null) {
      reasons.push('sound passes the bores as if they had no teeth');
    }
    return reasons.length > 0 ? reasons.join('; ') : null;
  },
};
