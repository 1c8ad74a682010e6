/** What a computed flow says beyond its pressure drop, as it stands in the file. */
import * as z from 'zod';

const share = z.number().min(0).max(1);
const known = z
  .strictObject({ share, low: share, high: share })
  .describe('A share with its 95 % interval.');
const lifted = z
  .strictObject({ share, low: share, high: share })
  .describe('A share with the spread of published adhesion.');
const shear = z.strictObject({
  area_mm2: z.number().min(0),
  mean_Pa: z.number().min(0),
  top_Pa: z.number().min(0).describe('Reached or passed on one hundredth of the area.'),
});
const count = z.int().min(0);

const classSchema = z.strictObject({
  diameter_um: z.number().positive(),
  massShare: share,
  started: count,
  entered: count.describe('Came into the channel; the shares are of these.'),
  onFace: count.describe('Touched the inlet face beside the port.'),
  fellBack: count.describe('Fell back against the air.'),
  afloat: count.describe('Still in the air when patience ended.'),
  caught: known,
  inPockets: known,
});

export const findingsSchema = z
  .strictObject({
    digest: z
      .string()
      .regex(/^[0-9a-f]{64}$/u)
      .describe('SHA-256 of the dust and its gravity.'),
    wallShear: shear.describe('All walls of the channel.'),
    pocketShear: z.array(shear).max(1000),
    runsBack: share.describe("Share of the channel's air that moves against its axis."),
    runsBackInPockets: z.array(share).max(1000),
    dust: z.strictObject({
      caught: known.describe(
        'Of the mass that came into the channel; grains stay where they touch.',
      ),
      inPockets: known,
      dry: known.describe('The same for hard dry grains, which bounce off what they meet fast.'),
      dryInPockets: known,
      byPocket: z.array(share).max(1000),
      byTenth: z.array(share).length(10).describe('By tenths of the way through the channel.'),
      classes: z.array(classSchema).max(1000),
      lifted: lifted.describe('Of the landed mass, what the same stream would lift off again.'),
      purged: lifted.nullable().describe('Of the landed mass, what reversed air carries out.'),
    }),
  })
  .describe('Wall shear, backward flow and tracked dust.');

export type VerifyFindings = z.output<typeof findingsSchema>;
