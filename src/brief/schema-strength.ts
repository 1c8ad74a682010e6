/** A push on the plate in a brief. Defaults: common practice and from memory, no source. */
import * as z from 'zod';
import { bounded } from './schema-plate.ts';

export const strengthSchema = z
  .strictObject({
    push_N: bounded(
      0.1,
      100000,
      'Push on the middle of the plate: a finger about 30, product tests 100 to 250, a hand leaning 500.',
    ).default(100),
    padRadius_mm: bounded(
      0.5,
      300,
      'Radius of the round pad over which the push is spread.',
    ).default(10),
    support: z
      .enum(['simple', 'clamped'])
      .describe('How the outer edge is held: resting on a frame, or clamped all round.')
      .default('simple'),
    modulus_GPa: bounded(
      0.001,
      500,
      "Young's modulus of the print: PLA 2.0-3.3, PETG 1.7-2.1, ABS and ASA 1.6-2.2.",
    ).default(2),
    strength_MPa: bounded(
      0.1,
      5000,
      'Tensile strength within a layer: PLA 40-60, PETG 35-50, ABS and ASA 25-40.',
    ).default(40),
    acrossLayers: bounded(
      0.05,
      1,
      'Strength across layers over that within one; it counts for plates built on edge.',
    ).default(0.5),
    safetyFactor: bounded(1, 20, 'Strength over the stress that is allowed.').default(3),
    lasting: z
      .boolean()
      .describe('Whether the push stays on: plastics creep, the modulus is then halved.')
      .default(false),
  })
  .describe('A push on the plate; left out: no deflection or stress is worked out.');
