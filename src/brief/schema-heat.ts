/** Heat in a brief: a hot face, what it is made of, how much heat must go. */
import * as z from 'zod';
import { HEAT_MATERIAL_NAMES } from './heat-materials.ts';
import { bounded } from './schema-plate.ts';

export const heatSchema = z
  .strictObject({
    hotFace: z
      .enum(['inlet', 'outlet'])
      .describe('Face that sits on the hot body; its openings are open in that body too.')
      .default('outlet'),
    source: z
      .discriminatedUnion('kind', [
        z.strictObject({
          kind: z.literal('load'),
          heat_W: z.number().positive().max(100000).meta({
            description: 'Heat that must leave the hot body through the plate.',
            remedy: 'Give the heat in watts.',
          }),
        }),
        z.strictObject({
          kind: z.literal('face'),
          temperature_C: bounded(-40, 600, 'Temperature at which the hot body is held.'),
        }),
      ])
      .describe('What is known of the hot body: the heat it makes, or its temperature.'),
    material: z
      .enum(HEAT_MATERIAL_NAMES)
      .describe('Printed material, for typical values; the two keys below go before it.')
      .optional(),
    conductivity_W_per_mK: bounded(0.02, 500, 'Conductivity of the printed solid.').optional(),
    serviceTemperature_C: bounded(
      -40,
      1200,
      'Temperature that the printed solid should not pass; for plastics below the glass transition.',
    ).optional(),
    contactResistance_mm2K_per_W: bounded(
      0,
      100000,
      'Resistance of the joint between hot body and plate, per area; thin paste about 30, dry about 100 to 500 (from memory).',
    ).default(30),
  })
  .describe('A hot body on one face, for plates that exchange heat; left out: none.');
