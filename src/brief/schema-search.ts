/** Goals, routes and search budget in a brief. */
import * as z from 'zod';
import { bounded, whole } from './schema-plate.ts';

const measureId = z.string().min(1).max(80).describe('Id of a measure.');

const limitSchema = z.strictObject({
  measure: measureId,
  atMost: z.number().describe('Greatest value allowed, in the unit of the measure.').optional(),
  atLeast: z.number().describe('Least value allowed, in the unit of the measure.').optional(),
});

export const goalsSchema = z
  .strictObject({
    objectives: z
      .array(measureId)
      .min(1)
      .max(8)
      .describe('Measures to improve, each in its own direction.')
      .default(['pressureDrop_Pa', 'dustCapture', 'partCost']),
    limits: z
      .array(limitSchema)
      .max(100)
      .describe(
        'Bounds a design must keep. Two always apply and need not be written: overlapDepth_mm at ' +
          'most 0 and thinnestWall_mm at least process.minimumWall_mm. Entries here add to them or ' +
          'tighten them.',
      )
      .default([]),
  })
  .describe('Which measures are objectives and which are limits.');

const span = (min: number, max: number) =>
  z.strictObject({
    min: bounded(min, max, 'Least value.'),
    max: bounded(min, max, 'Greatest value.'),
  });

export const routesSchema = z
  .strictObject({
    lattices: z
      .array(z.enum(['square', 'hexagonal', 'rings']))
      .min(1)
      .max(3)
      .describe('Patterns in which the ports may lie.')
      .default(['square', 'hexagonal', 'rings']),
    sections: z
      .array(z.enum(['round', 'teardrop', 'slot', 'polygon']))
      .min(1)
      .max(4)
      .describe('Cross-sections a channel may have.')
      .default(['round', 'teardrop', 'slot', 'polygon']),
    motifs: z
      .array(z.enum(['alike', 'mirrored', 'turned', 'stepped', 'free']))
      .min(1)
      .max(5)
      .describe('Ways in which neighbouring channels may differ.')
      .default(['alike', 'mirrored', 'turned', 'stepped', 'free']),
    bore_mm: span(0.5, 100)
      .describe('Inscribed diameter of a channel.')
      .prefault({ min: 2, max: 8 }),
    ligament_mm: span(0.2, 60)
      .describe('Nominal solid between neighbouring ports; with the bore it gives the pitch.')
      .prefault({ min: 0.8, max: 8 }),
    pockets: z.boolean().describe('Whether channels may have side pockets.').default(true),
    pocketLips: z
      .boolean()
      .describe(
        'Whether pockets may have a lip at the downstream edge of their mouth; left out: none.',
      )
      .optional(),
    pocketTurns: z
      .boolean()
      .describe(
        'Whether pockets may stand elsewhere than on the outer side of a bend; left out: they do not.',
      )
      .optional(),
    sidePockets: z
      .boolean()
      .describe(
        'Whether channels with exits in the rim may have pockets too; left out: they have none.',
      )
      .optional(),
    teeth: z
      .boolean()
      .describe(
        'Whether channels may have saw teeth on their walls that stir the air; left out: none.',
      )
      .optional(),
    ribs: z
      .enum(['none', 'auto'])
      .describe(
        'Ribs in slots. auto: full-depth webs break a slot where its ceiling would bridge more than ' +
          'process.bridgeLimit_mm or it would be longer than longestSlat_mm.',
      )
      .default('none'),
    longestSlat_mm: bounded(
      1,
      600,
      "Longest slot, and free slat beside it, with ribs 'auto'; left out: only ceilings are broken.",
    ).optional(),
    maxChannels: whole(1, 1000, 'Most channels in a plate.').default(300),
  })
  .describe('Which channel routes the search may try.');

export const searchSchema = z
  .strictObject({
    population: whole(8, 5000, 'Designs per generation.').default(96),
    generations: whole(1, 100000, 'Most generations.').default(200),
    seed: z
      .string()
      .min(1)
      .max(200)
      .describe('Any text; the same brief and seed give the same front.')
      .default('anfract'),
    timeLimit_s: z
      .number()
      .positive()
      .max(31_536_000)
      .describe('Stops early, saved and resumable; the front then depends on speed.')
      .optional(),
    stallGenerations: whole(
      0,
      100000,
      'Stops after so many generations without progress; 0: never.',
    ).default(60),
    archive: whole(8, 5000, 'Most designs kept in the front.').default(200),
  })
  .describe('How long and how widely to search.');
