/** What computed flows taught: a correction of the estimated pressure drop, with its doubt. */
import * as z from 'zod';
import { bounded, whole } from './schema-plate.ts';

/**
 * What the correction looks at, in the order of its numbers; `flowFeatures` of the measures says how
 * each is reckoned.
 */
export const FLOW_FEATURES = [
  'reynolds',
  'slenderness',
  'turning',
  'dean',
  'areaChange',
  'pockets',
  'openShare',
] as const;
export type FlowFeature = (typeof FLOW_FEATURES)[number];

/** Coefficients: one for the mean, one for each feature. */
export const CORRECTION_SIZE = FLOW_FEATURES.length + 1;

const rangeSchema = z.strictObject({
  low: bounded(-100, 100, 'Least value among the computed flows.'),
  high: bounded(-100, 100, 'Greatest value among them.'),
  middle: bounded(-100, 100, 'Mean, from which the feature is counted.'),
  scale: bounded(0.001, 100, 'Standard deviation, in which it is counted; 1 where all are alike.'),
});

const row = (size: number, meaning: string) =>
  z
    .array(bounded(-100, 100, 'Number.'))
    .length(size)
    .describe(meaning);

export const correctionSchema = z
  .strictObject({
    source: z.string().min(1).max(300).describe('Which flows were computed: runs, designs, date.'),
    cases: whole(1, 1_000_000, 'Computed flows behind it.'),
    designs: whole(1, 1_000_000, 'Designs they belong to.'),
    coefficients: row(
      CORRECTION_SIZE,
      'Of ln(computed / estimate): the mean, then one per standardised feature.',
    ),
    covariance: row(CORRECTION_SIZE * CORRECTION_SIZE, 'Of the coefficients, row by row.'),
    scatter: bounded(0, 3, 'Standard deviation of ln(computed / estimate) about the fit.'),
    width: bounded(1, 13, "Half width of a 95 % interval in standard deviations (Student's t)."),
    leverage: bounded(0, 1e6, 'Greatest leverage among the computed flows.'),
    features: z
      .strictObject({
        reynolds: rangeSchema.describe('ln(Re / 1000) at the inlet port.'),
        slenderness: rangeSchema.describe('ln(length / bore).'),
        turning: rangeSchema.describe('Half turns of the centreline.'),
        dean: rangeSchema.describe('ln(1 + Dean number / 100).'),
        areaChange: rangeSchema.describe('ln(outlet / inlet area).'),
        pockets: rangeSchema.describe("Pockets' volume over the channel's."),
        openShare: rangeSchema.describe('Open share of the inlet face.'),
      })
      .describe('Range and scale of every feature.'),
    error: z
      .strictObject({
        before: bounded(0, 10, 'RMS of ln(computed / estimate) without the correction.'),
        leftOut: bounded(0, 10, 'RMS of the same with it, each flow predicted from the others.'),
        designLeftOut: bounded(0, 10, 'The same, each design predicted from the others.')
          .nullable()
          .describe('Null with a single design.'),
      })
      .describe('What the correction is worth.'),
  })
  .describe('Correction of the pressure estimate by computed flows, fitted by `anfract correct`.');

export type Correction = z.output<typeof correctionSchema>;
