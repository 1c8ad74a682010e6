/** What a printed coupon taught: factors on the parts of the pressure drop. */
import * as z from 'zod';
import { bounded } from './schema-plate.ts';

/** Parts of the pressure drop that a calibration scales, in the order of its numbers. */
export const LOSS_PARTS = ['friction', 'ends', 'curvature', 'areaChanges'] as const;
export type LossPart = (typeof LOSS_PARTS)[number];

/** Bounds of a factor: beyond them the readings and the drawing do not belong together. */
export const FACTOR_MIN = 0.3;
export const FACTOR_MAX = 3;

const factorSchema = (part: string) =>
  z
    .strictObject({
      value: bounded(FACTOR_MIN, FACTOR_MAX, `Factor on the ${part}.`),
      low: bounded(0, 10, 'Lower end of its 95 % interval.'),
      high: bounded(0, 10, 'Upper end of its 95 % interval.'),
    })
    .describe(`Factor on the ${part}, with its 95 % interval.`);

export const calibrationSchema = z
  .strictObject({
    source: z.string().min(1).max(300).describe('What was measured: coupon, bench, date.'),
    friction: factorSchema('wall friction, the developing part included'),
    ends: factorSchema('losses of inlet and outlet'),
    curvature: factorSchema('losses of bends'),
    areaChanges: factorSchema('losses of widening bores'),
  })
  .describe('Factors fitted to readings of a printed coupon by `anfract calibrate`.');

export type Calibration = z.output<typeof calibrationSchema>;
