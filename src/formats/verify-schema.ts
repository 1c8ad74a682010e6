/** What a file of computed flows may hold. */
import * as z from 'zod';
import { FLOW_FEATURES, jsonSchemaOf } from '../brief/index.ts';
import type { FlowFeature, JsonSchema } from '../brief/index.ts';
import { findingsSchema } from './verify-findings-schema.ts';

export const VERIFY_FORMAT = 'anfract-verify';
export const VERIFY_VERSION = 1;

/** Which number to trust. `by place`: it depends on what lies behind the plate. */
const TRUSTS = ['computed', 'either', 'by place', 'neither'] as const;
export type Trust = (typeof TRUSTS)[number];

const positive = z.number().positive();
const pascals = z.number().min(-1e7).max(1e7);
/** Plain file name within the run folder's `pictures`, or beside a design file. */
const fileName = z.string().regex(/^[A-Za-z0-9_][A-Za-z0-9._-]{0,120}$/u);

const gridSchema = z
  .strictObject({
    cellsAcross: positive,
    cells: z.int().positive(),
    steps: z.int().positive(),
    loss: z.number().describe('Pressure drop over the velocity pressure at the inlet port.'),
    scatter: z.number().min(0).describe('Greatest departure from that mean, relative.'),
    massError: z.number().describe('Flow in over flow through the bore, minus 1.'),
    converged: z.boolean(),
    retried: z.string().nullable().optional().describe('What had to be tried; null for nothing.'),
  })
  .describe('One of the two grids.');

const feature = z.number().min(-100).max(100);
const featureShape = Object.fromEntries(FLOW_FEATURES.map((name) => [name, feature])) as Record<
  FlowFeature,
  typeof feature
>;

const caseSchema = z
  .strictObject({
    design: z.string().min(1).max(120).describe('Id of the design, or name of its file.'),
    digest: z
      .string()
      .regex(/^[0-9a-f]{64}$/u)
      .describe('SHA-256 of the drawn plate and its air: a result belongs to no other.'),
    solver: z.int().positive().describe('Version of the solver.'),
    role: z.enum(['least', 'median', 'widest']).describe('Its flow among the channels.'),
    shape: z.int().min(0).describe('Distinct shape, counted from 0.'),
    shapes: z.int().positive(),
    channels: z.int().positive().describe('Channels of that shape.'),
    cells: positive.describe('Cells across the narrowest bore that were asked for.'),
    medianVelocity_m_per_s: positive.describe('Mean at the inlet port of the median channel.'),
    velocity_m_per_s: positive.describe('Mean at the inlet port of this channel.'),
    reynolds: positive,
    density_kg_per_m3: positive,
    estimate_Pa: pascals.describe('Handbook estimate, neither calibrated nor corrected.'),
    pressureDrop_Pa: pascals.describe('Computed.'),
    uncertainty_Pa: pascals.min(0).describe('Half width of what the computed value may be off.'),
    recovery_Pa: pascals.describe('Most that neighbouring jets may win back behind the plate.'),
    difference: z.number().describe('Estimate over computed, minus 1.'),
    grids: z.tuple([gridSchema, gridSchema]),
    trust: z.enum(TRUSTS).describe('Which of the two numbers to trust.'),
    verdict: z.string().describe('The same in words.'),
    features: z.strictObject(featureShape).describe('What a correction looks at.'),
    field: fileName.nullable().describe('Velocity field (.vti).'),
    slice: fileName.nullable().describe('Slice through it (.svg).'),
    findings: findingsSchema.optional(),
    landings: fileName.nullable().optional().describe('Where dust landed (.vtp).'),
  })
  .describe('One channel at one velocity.');

export const verifySchema = z.strictObject({
  format: z.literal(VERIFY_FORMAT),
  version: z.literal(VERIFY_VERSION),
  anfract: z.string().describe('Version of anfract that wrote it.'),
  cases: z.array(caseSchema).max(100_000),
});

/** One computed flow beside its estimate. */
export type VerifyCase = z.output<typeof caseSchema>;

/** JSON Schema of the file. */
export function verifyJsonSchema(): JsonSchema {
  return jsonSchemaOf(verifySchema, `anfract computed flows, version ${VERIFY_VERSION}`);
}
