/** The plate in a brief: outline, thickness, rim, mounting holes, build direction. */
import * as z from 'zod';
import { FAN_FRAMES } from './frames.ts';

// zod probes for eval unless told not to; a strict content policy would report that.
z.config({ jitless: true });

/** A number with its bounds, both included, and its meaning for people and editors. */
export function bounded(min: number, max: number, meaning: string): z.ZodNumber {
  return z.number().min(min).max(max).describe(meaning);
}

/** A whole number with its bounds, both included. */
export function whole(min: number, max: number, meaning: string): z.ZodInt {
  return z.int().min(min).max(max).describe(meaning);
}

const point = z
  .tuple([bounded(-300, 300, 'x [mm].'), bounded(-300, 300, 'y [mm].')])
  .describe('Corner as [x, y] [mm].');

const outlineSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('round'),
      diameter_mm: bounded(10, 600, 'Outer diameter.'),
    }),
    z.strictObject({
      kind: z.literal('rectangle'),
      width_mm: bounded(10, 600, 'Size along x.'),
      height_mm: bounded(10, 600, 'Size along y.'),
      cornerRadius_mm: bounded(0, 300, 'Radius of the four corners.').default(0),
    }),
    z.strictObject({
      kind: z.literal('polygon'),
      points_mm: z
        .array(point)
        .min(3)
        .max(200)
        .describe('Corners in order, either way round; the last joins the first.'),
    }),
  ])
  .describe('Outer edge of the plate, seen along the air stream; the origin is the plate centre.');

const mountingSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({
      kind: z.literal('frame'),
      frame_mm: z.literal(FAN_FRAMES.map((frame) => frame.frame_mm)).meta({
        description: 'Side of a common square axial-fan frame.',
        remedy: "For another frame give its holes one by one, with kind 'holes'.",
      }),
    }),
    z.strictObject({
      kind: z.literal('holes'),
      holes: z
        .array(
          z.strictObject({
            x_mm: bounded(-300, 300, 'Middle of the hole from the plate centre.'),
            y_mm: bounded(-300, 300, 'Middle of the hole from the plate centre.'),
            diameter_mm: bounded(0.5, 50, 'Hole diameter.'),
          }),
        )
        .max(64)
        .describe('Straight round holes through the plate.'),
    }),
  ])
  .describe('Mounting holes: none, those of a common axial-fan frame, or explicit ones.');

const thickness = z.number().min(0.8).max(60).meta({
  description: 'Plate thickness along the air stream.',
  remedy: 'Give the plate thickness along the air stream in mm.',
});

const thicknessSchema = z
  .union([thickness, z.strictObject({ min_mm: thickness, max_mm: thickness })])
  .describe('Plate thickness along the air stream: one value, or a range for the search.');

export const plateSchema = z
  .strictObject({
    outline: outlineSchema,
    thickness_mm: thicknessSchema,
    rim_mm: bounded(0, 100, 'Solid border kept free of channels.').default(3),
    mounting: mountingSchema.prefault({ kind: 'none' }),
    build: z
      .enum(['flat', 'edge', 'any'])
      .describe(
        'How it is printed: inlet face on the bed, standing on its edge (-y down), or either.',
      )
      .default('flat'),
  })
  .describe('The plate itself; it has no default.');
