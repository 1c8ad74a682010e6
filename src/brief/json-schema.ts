/** JSON Schema for editors, made from the same schemas that read the files. */
import type * as z from 'zod';
import { isRecord, schemaNode } from './schema-node.ts';
import { BRIEF_VERSION, briefSchema } from './schema.ts';

export type JsonSchema = Readonly<Record<string, unknown>>;

/** Allows comments in every object that has a fixed set of keys, and drops our own annotations. */
function forEditors(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(forEditors);
  if (!isRecord(node)) return node;
  const entries: [string, unknown][] = [];
  for (const [key, value] of Object.entries(node)) {
    if (key === 'remedy') continue;
    // Keys of `properties` are names of the format, not words of JSON Schema.
    const inner =
      key === 'properties' && isRecord(value)
        ? Object.fromEntries(
            Object.entries(value).map(([name, child]) => [name, forEditors(child)]),
          )
        : key === 'default' || key === 'const' || key === 'enum'
          ? value
          : forEditors(value);
    entries.push([key, inner]);
    if (key === 'properties') entries.push(['patternProperties', { '^//': true }]);
  }
  return Object.fromEntries(entries);
}

/**
 * JSON Schema (draft 2020-12) of what may be written for a schema. Keys that begin with "//" are
 * allowed everywhere as comments.
 *
 * @param schema what reads the file.
 * @param title for editors.
 */
export function jsonSchemaOf(schema: z.ZodType, title: string): JsonSchema {
  const node = forEditors(schemaNode(schema));
  if (!isRecord(node)) throw new Error(`the schema of ${title} is no object`);
  const { $schema, ...rest } = node;
  return { $schema, title, ...rest };
}

/** Puts the enum of measure ids where a brief names measures. */
function withMeasures(
  node: unknown,
  measures: readonly string[],
  place: readonly string[],
): unknown {
  if (!isRecord(node)) return node;
  if (place.length === 0) return { ...node, enum: measures };
  const [step, ...rest] = place;
  if (!(step in node)) throw new Error(`the JSON Schema of the brief has no ${step}`);
  return { ...node, [step]: withMeasures(node[step], measures, rest) };
}

/**
 * JSON Schema of the brief.
 *
 * @param measures ids of all measures, for completion in editors; left out, any text is allowed.
 */
export function briefJsonSchema(measures?: readonly string[]): JsonSchema {
  const schema: unknown = jsonSchemaOf(briefSchema, `anfract brief, version ${BRIEF_VERSION}`);
  const goals = ['properties', 'goals', 'properties'];
  const filled =
    measures === undefined
      ? schema
      : [
          [...goals, 'objectives', 'items'],
          [...goals, 'limits', 'items', 'properties', 'measure'],
        ].reduce((node, place) => withMeasures(node, measures, place), schema);
  if (!isRecord(filled)) throw new Error('the JSON Schema of the brief is no object');
  return filled;
}
