/** Sound in a brief: which octave bands count, and how flow noise grows with speed. */
import * as z from 'zod';
import { bounded } from './schema-plate.ts';

export const soundSchema = z
  .strictObject({
    bands_Hz: z
      .array(
        z
          .literal([63, 125, 250, 500, 1000, 2000, 4000, 8000])
          .describe('Centre of an octave band.'),
      )
      .min(1)
      .max(8)
      .describe('Octave bands over which soundLoss_dB is averaged, by their centres.')
      .default([500, 1000, 2000, 4000]),
    noiseExponent: bounded(
      4,
      8,
      'Power of the air speed in flowNoiseIndex_dB: about 6 for noise from walls, 5 from edges.',
    ).default(6),
  })
  .describe('Sound through the plate; left out: only where a goal names a measure of sound.');

/** What a brief without the section means. */
export const SOUND_DEFAULTS = soundSchema.parse({});
