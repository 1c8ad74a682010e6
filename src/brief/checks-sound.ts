/** Cross-checks of sound: every band once. */
import type { Check } from './check.ts';
import { fault } from './faults.ts';

const bands: Check = {
  reads: ['sound.bands_Hz'],
  run: ({ sound }) => {
    if (sound === undefined) return [];
    const { bands_Hz } = sound;
    return bands_Hz.flatMap((band, i) => {
      const first = bands_Hz.indexOf(band);
      if (first === i) return [];
      const allowed = `differ from sound.bands_Hz[${first}]`;
      return [fault(`sound.bands_Hz[${i}]`, `${band} again`, allowed, 'Name each band once.')];
    });
  },
};

export const SOUND_CHECKS: readonly Check[] = [bands];
