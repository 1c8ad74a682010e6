/**
 * The brief: what the engineer asks for. One schema is the source of the type, of the
 * defaults and of the JSON Schema for editors. Every dimensional key carries its unit.
 */
import * as z from 'zod';

// zod probes for eval unless told not to; a strict content policy would report that.
z.config({ jitless: true });

export const BRIEF_FORMAT = 'anfract-brief';
export const BRIEF_VERSION = 1;

const positive = z.number().positive();
const point = z.tuple([z.number(), z.number()]);

const outlineSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('round'),
      diameter_mm: z.number().min(10).max(600),
    }),
    z.strictObject({
      kind: z.literal('rectangle'),
      width_mm: z.number().min(10).max(600),
      height_mm: z.number().min(10).max(600),
      cornerRadius_mm: z.number().min(0).max(300).default(0),
    }),
    z.strictObject({
      kind: z.literal('polygon'),
      points_mm: z.array(point).min(3).max(200),
    }),
  ])
  .describe('Outer edge of the plate, seen along the air stream; the origin is the plate centre.');

const mountingSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({
      kind: z.literal('frame'),
      frame_mm: z.union(
        [40, 50, 60, 70, 80, 92, 120, 140].map((n) => z.literal(n)) as [z.ZodLiteral<number>],
      ),
    }),
    z.strictObject({
      kind: z.literal('holes'),
      holes: z
        .array(
          z.strictObject({
            x_mm: z.number(),
            y_mm: z.number(),
            diameter_mm: z.number().min(0.5).max(50),
          }),
        )
        .max(64),
    }),
  ])
  .describe('Mounting holes: none, those of a common axial-fan frame, or explicit ones.');

const thicknessSchema = z
  .union([
    z.number().min(0.8).max(60),
    z.strictObject({ min_mm: z.number().min(0.8).max(60), max_mm: z.number().min(0.8).max(60) }),
  ])
  .describe('Plate thickness along the air stream: one value, or a range for the search.');

const plateSchema = z.strictObject({
  outline: outlineSchema,
  thickness_mm: thicknessSchema,
  rim_mm: z.number().min(0).max(100).default(3).describe('Solid border kept free of channels.'),
  mounting: mountingSchema.prefault({ kind: 'none' }),
  build: z
    .enum(['flat', 'edge', 'any'])
    .default('flat')
    .describe(
      'How it is printed: inlet face on the bed, standing on its edge (-y down), or either.',
    ),
});

const supplySchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('flow'), flow_m3_per_h: positive.max(5000) }),
  z.strictObject({
    kind: z.literal('fan'),
    curve: z
      .array(z.strictObject({ flow_m3_per_h: z.number().min(0), pressure_Pa: z.number().min(0) }))
      .min(2)
      .max(200)
      .describe('Static pressure over flow, flow strictly rising.'),
    designFlow_m3_per_h: positive
      .max(5000)
      .optional()
      .describe('Flow at which pressure drop is quoted; default 60 % of the free flow.'),
  }),
]);

const airSchema = z.strictObject({
  route: z
    .discriminatedUnion('kind', [z.strictObject({ kind: z.literal('through') })])
    .prefault({ kind: 'through' })
    .describe('Where air enters and leaves. through: in at one face, out at the other.'),
  temperature_C: z.number().min(-40).max(200).default(20),
  altitude_m: z.number().min(-400).max(9000).default(0),
  supply: supplySchema,
  reverseShare: z
    .number()
    .min(0)
    .max(1)
    .default(0.4)
    .describe('Flow of a purge in reverse, as a share of the design flow.'),
});

const safetySchema = z.strictObject({
  bladeDistance_mm: z
    .number()
    .min(0)
    .max(500)
    .default(10)
    .describe('Clear distance from the outlet face to the moving parts behind the plate.'),
  reach: z
    .enum(['fromAge14', 'fromAge3'])
    .default('fromAge14')
    .describe('Which group of people can reach the plate.'),
});

const dustSchema = z.strictObject({
  density_kg_per_m3: z.number().min(50).max(20000).default(2650),
  classes: z
    .array(
      z.strictObject({ diameter_um: z.number().min(0.1).max(1000), massShare: positive.max(1) }),
    )
    .min(1)
    .max(40)
    .optional()
    .describe('Mass shares by diameter, adding up to 1; default: fine test dust, band middles.'),
});

const processSchema = z.strictObject({
  lineWidth_mm: z.number().min(0.1).max(2).default(0.4),
  layerHeight_mm: z.number().min(0.02).max(1).default(0.2),
  overhangLimit_deg: z
    .number()
    .min(0)
    .max(80)
    .default(45)
    .describe('Steepest down-facing surface printed without support, measured from the vertical.'),
  bridgeLimit_mm: z.number().min(0).max(60).default(10),
  minimumWall_mm: z.number().min(0.2).max(10).default(0.8),
  minimumFeature_mm: z.number().min(0.1).max(10).default(0.8),
  holeShrinkage_mm: z
    .number()
    .min(0)
    .max(1)
    .default(0.2)
    .describe('How much smaller than drawn a printed bore comes out, on the diameter.'),
  printSpeed_mm_per_s: z.number().min(1).max(1000).default(60),
  travelSpeed_mm_per_s: z.number().min(1).max(2000).default(150),
  volumeRate_mm3_per_s: z.number().min(0.1).max(200).default(12),
  retraction_s: z.number().min(0).max(5).default(0.3),
  layerChange_s: z.number().min(0).max(60).default(2),
  minimumLayer_s: z.number().min(0).max(120).default(6),
  materialDensity_kg_per_m3: z.number().min(200).max(12000).default(1240),
  materialPrice_per_kg: z.number().min(0).max(10000).default(25),
  machineRate_per_h: z.number().min(0).max(10000).default(3),
  currency: z.string().min(1).max(8).default('EUR'),
});

const limitSchema = z.strictObject({
  measure: z.string(),
  atMost: z.number().optional(),
  atLeast: z.number().optional(),
});

const goalsSchema = z.strictObject({
  objectives: z
    .array(z.string())
    .min(1)
    .max(8)
    .default(['pressureDrop_Pa', 'dustCapture', 'partCost']),
  limits: z
    .array(limitSchema)
    .max(30)
    .default([])
    .describe(
      'Besides these, overlap, thinnest wall and support follow the process (see the check).',
    ),
});

const span = (min: number, max: number) =>
  z.strictObject({ min: z.number().min(min).max(max), max: z.number().min(min).max(max) });

const routesSchema = z.strictObject({
  lattices: z
    .array(z.enum(['square', 'hexagonal', 'rings']))
    .min(1)
    .default(['square', 'hexagonal', 'rings']),
  sections: z
    .array(z.enum(['round', 'teardrop', 'slot', 'polygon']))
    .min(1)
    .default(['round', 'teardrop', 'slot', 'polygon']),
  motifs: z
    .array(z.enum(['alike', 'mirrored', 'turned', 'stepped', 'free']))
    .min(1)
    .default(['alike', 'mirrored', 'turned', 'stepped', 'free']),
  bore_mm: span(0.5, 100).prefault({ min: 2, max: 8 }).describe('Inscribed diameter of a channel.'),
  ligament_mm: span(0.2, 60)
    .prefault({ min: 0.8, max: 8 })
    .describe('Nominal solid between neighbouring ports; with the bore it gives the pitch.'),
  pockets: z.boolean().default(true),
  maxChannels: z.number().int().min(1).max(1000).default(300),
});

const searchSchema = z.strictObject({
  population: z.number().int().min(8).max(5000).default(96),
  generations: z.number().int().min(1).max(100000).default(200),
  seed: z.string().min(1).max(200).default('anfract'),
  timeLimit_s: positive
    .optional()
    .describe('Stops early, saved and resumable; the front then depends on speed.'),
  stallGenerations: z.number().int().min(0).max(100000).default(60),
  archive: z.number().int().min(8).max(5000).default(200),
});

export const briefSchema = z.strictObject({
  format: z.literal(BRIEF_FORMAT),
  version: z.literal(BRIEF_VERSION),
  name: z.string().min(1).max(120).default('unnamed plate'),
  plate: plateSchema,
  air: airSchema,
  safety: safetySchema.prefault({}),
  dust: dustSchema.prefault({}),
  process: processSchema.prefault({}),
  goals: goalsSchema.prefault({}),
  routes: routesSchema.prefault({}),
  search: searchSchema.prefault({}),
});

/** A checked brief with every default filled in. */
export type Brief = z.output<typeof briefSchema>;
/** A brief as written by a person: defaults may be left out. */
export type BriefInput = z.input<typeof briefSchema>;
export type Outline = Brief['plate']['outline'];
export type Process = Brief['process'];
export type Limit = Brief['goals']['limits'][number];
