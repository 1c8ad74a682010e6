/**
 * The brief: what the engineer asks for. One schema is the source of the type, of the
 * defaults and of the JSON Schema for editors. Every dimensional key carries its unit.
 */
import * as z from 'zod';
import { airSchema, dustSchema, safetySchema } from './schema-air.ts';
import { batchSchema } from './schema-batch.ts';
import { calibrationSchema } from './schema-calibration.ts';
import { correctionSchema } from './schema-correction.ts';
import { heatSchema } from './schema-heat.ts';
import { plateSchema } from './schema-plate.ts';
import { processSchema } from './schema-process.ts';
import { lightSchema } from './schema-light.ts';
import { goalsSchema, routesSchema, searchSchema } from './schema-search.ts';
import { soundSchema } from './schema-sound.ts';
import { strengthSchema } from './schema-strength.ts';

export const BRIEF_FORMAT = 'anfract-brief';
export const BRIEF_VERSION = 1;

export const briefSchema = z.strictObject({
  format: z.literal(BRIEF_FORMAT).describe('What kind of file this is.'),
  version: z.literal(BRIEF_VERSION).describe('Version of the format.'),
  name: z.string().min(1).max(120).describe('Name of the plate.').default('unnamed plate'),
  plate: plateSchema,
  air: airSchema,
  calibration: calibrationSchema.optional(),
  correction: correctionSchema.optional(),
  safety: safetySchema.prefault({}),
  dust: dustSchema.prefault({}),
  heat: heatSchema.optional(),
  sound: soundSchema.optional(),
  light: lightSchema.optional(),
  strength: strengthSchema.optional(),
  process: processSchema.prefault({}),
  batch: batchSchema.prefault({}),
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
