/** What front, history and checkpoint files may hold. */
import * as z from 'zod';
import { briefJsonSchema, jsonSchemaOf } from '../brief/index.ts';
import type { JsonSchema } from '../brief/index.ts';

export const FRONT_FORMAT = 'anfract-front';
export const FRONT_VERSION = 1;
export const CHECKPOINT_FORMAT = 'anfract-checkpoint';
export const CHECKPOINT_VERSION = 1;

const count = z.int().min(0);
const reading = z.number().nullable();
const brief = z.record(z.string(), z.unknown()).describe('The brief as used.');

const measureSchema = z.strictObject({
  id: z.string().min(1),
  label: z.string(),
  unit: z.string(),
  better: z.enum(['lower', 'higher']),
  meaning: z.string(),
  validity: z.string(),
  source: z.string(),
  standing: z.string(),
  caution: z.string().exactOptional(),
});

const geneSchema = z.strictObject({
  name: z.string().min(1),
  kind: z.enum(['real', 'integer', 'choice']),
  min: z.number(),
  max: z.number(),
  options: z.array(z.string()).exactOptional(),
});

const startSchema = z.strictObject({
  label: z.string(),
  feasible: z.boolean(),
  failure: z.string().nullable(),
  readings: z.array(reading),
  hypervolume: z.number(),
});

const designSchema = z.strictObject({
  // It becomes part of file names.
  id: z.string().regex(/^d\d{3,9}$/u),
  origin: z.string(),
  genes: z.array(z.number()),
  readings: z.array(reading).describe('In the order of `measures`; null where there is none.'),
  limits: z.array(
    z.strictObject({
      measure: z.string(),
      bound: z.enum(['atMost', 'atLeast']),
      value: z.number(),
      margin: z.number().describe('How far inside the limit; negative: broken.'),
    }),
  ),
  outside: z.array(z.string()).describe('Ranges of validity that this design leaves.'),
  refinedChange: z.array(reading).describe('Relative change at twice the sampling.'),
});

export const frontSchema = z.strictObject({
  format: z.literal(FRONT_FORMAT),
  version: z.literal(FRONT_VERSION),
  anfract: z.string().describe('Version of anfract that made it.'),
  brief,
  generation: count,
  evaluations: count,
  objectives: z.array(z.string()).min(1),
  hypervolume: z.strictObject({
    value: z.number(),
    ideal: z.array(z.number()),
    reference: z.array(z.number()),
  }),
  genes: z.array(geneSchema),
  measures: z.array(measureSchema),
  starts: z.array(startSchema),
  designs: z.array(designSchema),
  nearest: designSchema.nullable().describe('The nearest miss when no design met every limit.'),
});

export const historySchema = z.strictObject({
  generation: count,
  evaluations: count,
  feasibleShare: z.number(),
  archived: count,
  hypervolume: z.number(),
  best: z.array(reading),
});

export const checkpointSchema = z.strictObject({
  format: z.literal(CHECKPOINT_FORMAT),
  version: z.literal(CHECKPOINT_VERSION),
  anfract: z.string(),
  brief,
  search: z.unknown(),
  archive: z.unknown(),
  history: z.array(historySchema),
});

/** JSON Schema of the front file. */
export function frontJsonSchema(): JsonSchema {
  const schema = jsonSchemaOf(frontSchema, `anfract front, version ${FRONT_VERSION}`);
  const { $schema: _, ...inner } = briefJsonSchema();
  const properties: unknown = schema['properties'];
  if (typeof properties !== 'object' || properties === null) {
    throw new Error('the JSON Schema of the front file has no properties');
  }
  return { ...schema, properties: { ...properties, brief: inner } };
}
