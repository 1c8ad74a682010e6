/** Air that enters at one face and leaves through the rim, or the other way round. */
import * as z from 'zod';
import { bounded } from './schema-plate.ts';

export const sideRouteSchema = z
  .strictObject({
    kind: z.literal('side'),
    direction: z
      .enum(['outward', 'inward'])
      .describe(
        'outward: in at the inlet face, out through the rim, outlet face closed. inward: in through ' +
          'the rim, out at the outlet face, inlet face closed.',
      )
      .default('outward'),
    sectors: z
      .array(
        z.strictObject({
          from_deg: bounded(-360, 360, 'Where the sector begins, from +x counter-clockwise.'),
          to_deg: bounded(-360, 720, 'Where it ends, at most one turn further.'),
        }),
      )
      .min(1)
      .max(12)
      .describe(
        'Stretches of the rim with openings, as seen from the centre of the plate; default all around.',
      )
      .default([{ from_deg: 0, to_deg: 360 }]),
    merge: z
      .enum(['none', 'plenum', 'any'])
      .describe(
        'none: every channel has its own exit. plenum: all channels meet in one ring-shaped cavity ' +
          'inside the plate. any: the search decides.',
      )
      .default('none'),
  })
  .describe('Openings in one face and in the rim only.');

/** Openings in one face and in the rim, as a checked brief holds it. */
export type SideRoute = z.output<typeof sideRouteSchema>;
