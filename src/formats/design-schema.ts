/** What a design file may hold. Bounds are those of the design room, so that all are told at once. */
import * as z from 'zod';
import { briefJsonSchema, jsonSchemaOf } from '../brief/index.ts';
import type { JsonSchema } from '../brief/index.ts';

export const DESIGN_FORMAT = 'anfract-design';
export const DESIGN_VERSION = 1;

const bounded = (min: number, max: number, meaning: string): z.ZodNumber =>
  z.number().min(min).max(max).describe(meaning);

const place = (meaning: string): z.ZodNumber => bounded(-1000, 1000, meaning);

const direction = z
  .tuple([z.number(), z.number(), z.number()])
  .nullable()
  .describe('Direction along the air stream, any length; null leaves the end free.')
  .default([0, 0, 1]);

const sectionSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('round') }),
    z.strictObject({ kind: z.literal('teardrop') }),
    z.strictObject({
      kind: z.literal('slot'),
      aspect: bounded(1, 100, 'Long side over short side; the short side is the bore.'),
    }),
    z.strictObject({
      kind: z.literal('polygon'),
      sides: z.int().min(3).max(12).describe('Number of sides about the bore.'),
    }),
  ])
  .describe('Cross-section normal to the centreline.');

const pocketSchema = z.strictObject({
  at: bounded(0, 1, "Middle of the pocket as a share of the channel's length."),
  length_mm: bounded(0.1, 200, 'Mouth length along the channel, ramps included.'),
  depth_mm: bounded(0, 100, 'Greatest depth beyond the wall.'),
  width_deg: bounded(5, 360, 'Mouth width around the channel.'),
  side_deg: bounded(-3600, 3600, 'Side it bulges to, from the first axis of the section.'),
  lip_mm: bounded(
    0,
    30,
    'Lip inwards at the downstream edge of the mouth; left out: none.',
  ).optional(),
});

const placementSchema = z.strictObject({
  x_mm: place('Where the origin of the points comes to stand.'),
  y_mm: place('Where the origin of the points comes to stand.'),
  turn_deg: bounded(-3600, 3600, 'Turn about the air stream, after mirroring.').default(0),
  mirrored: z.boolean().describe('Whether x is mirrored first.').default(false),
});

const bore = bounded(0.2, 200, 'Diameter of the inscribed circle.');

const end = z.enum(['face', 'rim', 'plenum']);

const plenumSchema = z
  .strictObject({
    innerRadius_mm: bounded(0, 1000, 'Inner radius of the ring; 0 makes a disc.'),
    outerRadius_mm: bounded(0.1, 1000, 'Outer radius.'),
    floor_mm: bounded(0, 60, 'Height of the floor over the inlet face.'),
    eaves_mm: bounded(0, 60, 'Height at which the roof begins to lean in at 45 degrees.'),
    top_mm: bounded(0, 60, 'Height of the flat top.'),
  })
  .describe('Ring-shaped cavity about the plate centre in which channels meet.');

const channelSchema = z.strictObject({
  points_mm: z
    .array(
      z
        .tuple([place('x [mm].'), place('y [mm].'), place('z along the air stream [mm].')])
        .describe('Point as [x, y, z] [mm], relative to each placement.'),
    )
    .min(2)
    .max(200)
    .describe(
      'Centreline from the inlet face z = 0 to the outlet face z = thickness, or where the ends say.',
    ),
  inlet: end.describe('Where the air comes in; left out: at the inlet face.').optional(),
  outlet: end.describe('Where the air goes out; left out: at the outlet face.').optional(),
  inletDirection: direction,
  outletDirection: direction,
  section: sectionSchema.prefault({ kind: 'round' }),
  bore_mm: z
    .union([bore, z.array(bore).min(1).max(200)])
    .describe('One bore, or bores at equal steps along the channel.'),
  roll_deg: bounded(-3600, 3600, "Turn of the section's first axis from +x.").default(0),
  pockets: z.array(pocketSchema).max(20).describe('Side pockets.').default([]),
  teeth: z
    .strictObject({
      height_mm: bounded(0.05, 20, 'Height of a tooth, inwards from the wall.'),
      pitch_mm: bounded(0.2, 200, 'From tooth to tooth along the channel.'),
    })
    .describe('Saw teeth all around the wall, to stir the air.')
    .optional(),
  at: z
    .array(placementSchema)
    .max(2000)
    .describe('Every place where this channel stands; left out: once, as its points say.')
    .prefault([{ x_mm: 0, y_mm: 0 }]),
});

export const designFileSchema = z.strictObject({
  format: z.literal(DESIGN_FORMAT).describe('What kind of file this is.'),
  version: z.literal(DESIGN_VERSION).describe('Version of the format.'),
  name: z.string().min(1).max(120).describe('Name of the design.').default('unnamed design'),
  brief: z
    .record(z.string(), z.unknown())
    .describe(
      'The brief it answers: plate, air, process ... (format and version may be left out).',
    ),
  thickness_mm: bounded(0.8, 60, 'Plate thickness; left out: that of the brief.').optional(),
  build: z
    .enum(['flat', 'edge'])
    .describe("Build direction; left out: that of the brief, flat for 'any'.")
    .optional(),
  channels: z.array(channelSchema).min(1).max(2000).describe('Every different channel.'),
  plenum: plenumSchema.optional(),
  genes: z
    .record(z.string().max(100), z.number())
    .describe('Genes it was decoded from, if any: for information.')
    .optional(),
});

export type ChannelInFile = z.output<typeof channelSchema>;

/**
 * JSON Schema of the design file.
 *
 * @param measures ids of all measures, for completion in editors.
 */
export function designJsonSchema(measures?: readonly string[]): JsonSchema {
  const schema = jsonSchemaOf(designFileSchema, `anfract design, version ${DESIGN_VERSION}`);
  const { $schema: _, required, ...brief } = briefJsonSchema(measures);
  const needed = Array.isArray(required)
    ? required.filter((key) => key !== 'format' && key !== 'version')
    : [];
  const properties: unknown = schema['properties'];
  if (typeof properties !== 'object' || properties === null) {
    throw new Error('the JSON Schema of the design file has no properties');
  }
  return { ...schema, properties: { ...properties, brief: { ...brief, required: needed } } };
}
