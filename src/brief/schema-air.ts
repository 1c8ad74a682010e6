/** Air, people and dust in a brief. */
import * as z from 'zod';
import { bounded } from './schema-plate.ts';
import { sideRouteSchema } from './schema-side.ts';

const flow = z.number().positive().max(5000).meta({
  description: 'Volume flow through the whole plate.',
  remedy: 'Give the volume flow through the whole plate in cubic metres per hour.',
});

const supplySchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('flow'), flow_m3_per_h: flow }),
    z.strictObject({
      kind: z.literal('fan'),
      curve: z
        .array(
          z.strictObject({
            flow_m3_per_h: bounded(0, 5000, 'Flow at this point of the curve.'),
            pressure_Pa: bounded(0, 20000, 'Static pressure at this point of the curve.'),
          }),
        )
        .min(2)
        .max(200)
        .describe('Static pressure over flow, flow strictly rising.'),
      speedShare: bounded(
        0.1,
        3,
        'Speed over the speed of the curve: flow goes with it, pressure with its square.',
      ).default(1),
      swept: z
        .strictObject({
          diameter_mm: bounded(5, 1000, 'Outer diameter of the ring that the blades sweep.'),
          hub_mm: bounded(0, 900, 'Diameter of the hub in its middle.'),
          x_mm: bounded(-500, 500, 'Middle of the fan on the plate.').default(0),
          y_mm: bounded(-500, 500, 'Middle of the fan on the plate.').default(0),
        })
        .describe('Ring swept by the blades; ports outside it see little flow.')
        .optional(),
      designFlow_m3_per_h: flow
        .describe('Flow at which pressure drop is quoted; default 60 % of the free flow.')
        .optional(),
    }),
  ])
  .describe('What drives the air: a given flow, or a fan by its curve.');

export const airSchema = z
  .strictObject({
    route: z
      .discriminatedUnion('kind', [z.strictObject({ kind: z.literal('through') }), sideRouteSchema])
      .describe(
        'Where air enters and leaves. through: in at one face, out at the other. side: one face is ' +
          'closed, the other openings lie in the rim.',
      )
      .prefault({ kind: 'through' }),
    temperature_C: bounded(-40, 200, 'Air temperature.').default(20),
    altitude_m: bounded(-400, 9000, 'Height above sea level; it sets the air pressure.').default(0),
    supply: supplySchema,
    reverseShare: bounded(
      0,
      1,
      'Flow of a purge in reverse, as a share of the design flow.',
    ).default(0.4),
  })
  .describe('The air and what drives it; the supply has no default.');

export const safetySchema = z
  .strictObject({
    bladeDistance_mm: bounded(
      0,
      500,
      'Clear distance from the outlet face to the moving parts behind the plate; from the inlet face ' +
        'where the air leaves through the rim.',
    ).default(10),
    reach: z
      .enum(['fromAge14', 'fromAge3'])
      .describe('Which group of people can reach the plate.')
      .default('fromAge14'),
  })
  .describe('What lies behind the plate and who can reach it.');

export const dustSchema = z
  .strictObject({
    density_kg_per_m3: bounded(50, 20000, 'Density of a dust grain.').default(2650),
    classes: z
      .array(
        z.strictObject({
          diameter_um: bounded(0.1, 1000, 'Grain diameter.'),
          massShare: z.number().positive().max(1).describe('Share of the dust mass.'),
        }),
      )
      .min(1)
      .max(40)
      .describe(
        'Mass shares by diameter, adding up to 1 within 0.001; default: fine test dust, band middles.',
      )
      .optional(),
    load_mg_per_m3: bounded(
      0.001,
      100000,
      'Dust in the incoming air, for pocketFillTime_h; left out: 1 (a dusty room; around 10 at a mill, from memory).',
    ).optional(),
    down: z
      .union([
        z.enum(['alongAir', 'againstAir', 'minusY']),
        z.tuple([
          bounded(-1000, 1000, 'Along x.'),
          bounded(-1000, 1000, 'Along y.'),
          bounded(-1000, 1000, 'Along z.'),
        ]),
      ])
      .describe(
        'Which way is down, seen from the plate. alongAir: it lies and air blows down through it; ' +
          'againstAir: it lies and air rises; minusY: it stands upright, y up; or a vector [x, y, z]. ' +
          'Left out: gravity does not count.',
      )
      .optional(),
  })
  .describe('The dust that a trap plate meets.');
