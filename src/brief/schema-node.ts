/** Reads a JSON Schema made from one of our schemas: what is allowed at a place, in words. */
import * as z from 'zod';
import type { Place } from './faults.ts';

/** The parts of a JSON Schema that our schemas use. `remedy` is our own annotation. */
export interface SchemaNode {
  readonly type?: string;
  readonly description?: string;
  readonly remedy?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly items?: SchemaNode;
  readonly prefixItems?: readonly SchemaNode[];
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: SchemaNode | boolean;
  readonly anyOf?: readonly SchemaNode[];
  readonly oneOf?: readonly SchemaNode[];
}

const made = new WeakMap<z.ZodType, SchemaNode>();

/** Writes a list of types (`number` or `null`) as a union, so that only one form need be read. */
function withUnions(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(withUnions);
  if (!isRecord(node)) return node;
  const { type, description, ...rest } = Object.fromEntries(
    Object.entries(node).map(([key, value]) => [
      key,
      // The keys of `properties` are names of a format, not words of JSON Schema.
      key === 'properties' && isRecord(value)
        ? Object.fromEntries(
            Object.entries(value).map(([name, child]) => [name, withUnions(child)]),
          )
        : withUnions(value),
    ]),
  );
  const said = description === undefined ? {} : { description };
  if (!Array.isArray(type))
    return type === undefined ? { ...said, ...rest } : { type, ...said, ...rest };
  const anyOf = type.map((kind) => (kind === 'null' ? { type: kind } : { type: kind, ...rest }));
  return { ...said, anyOf };
}

/** The JSON Schema of what may be written for a schema, made once. */
export function schemaNode(schema: z.ZodType): SchemaNode {
  let node = made.get(schema);
  if (node === undefined) {
    // A JSON Schema of draft 2020-12 has these parts by definition.
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion
    node = withUnions(
      z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }),
    ) as SchemaNode;
    made.set(schema, node);
  }
  return node;
}

/** Whether a value is a plain keyed object. */
export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function kindOf(value: unknown): string {
  if (value === null) return 'null';
  return Array.isArray(value) ? 'array' : typeof value;
}

/** The branch of a union that a value was meant for: by its `kind`, else by its type. */
export function branchFor(node: SchemaNode, value: unknown): SchemaNode {
  const branches = node.anyOf ?? node.oneOf;
  if (branches === undefined) return node;
  if (isRecord(value)) {
    const byKind = branches.find((branch) => branch.properties?.['kind']?.const === value['kind']);
    if (byKind !== undefined && value['kind'] !== undefined) return byKind;
  }
  const kind = kindOf(value);
  const byType = branches.filter(
    (branch) => branch.type === kind || (branch.type === 'integer' && kind === 'number'),
  );
  return byType.length === 1 ? byType[0] : node;
}

/** The node that describes a place, following unions by the value found there; null if none does. */
export function nodeAt(root: SchemaNode, value: unknown, place: Place): SchemaNode | null {
  let node: SchemaNode | undefined = root;
  let here: unknown = value;
  for (const step of place) {
    node = branchFor(node, here);
    if (typeof step === 'number') {
      node = node.prefixItems?.[step] ?? node.items;
      here = Array.isArray(here) ? here[step] : undefined;
    } else {
      const rest: SchemaNode | boolean | undefined = node.additionalProperties;
      node = node.properties?.[step] ?? (typeof rest === 'object' ? rest : undefined);
      here = isRecord(here) ? here[step] : undefined;
    }
    if (node === undefined) return null;
  }
  return node;
}

function list(words: readonly string[], joint: string): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${joint} ${words[words.length - 1]}`;
}

function literal(value: unknown): string {
  return typeof value === 'string' ? `'${value}'` : String(value);
}

function numberAllowed(node: SchemaNode): string {
  // zod writes the range of exact integers where no bound was set.
  const min = node.minimum === Number.MIN_SAFE_INTEGER ? undefined : node.minimum;
  const max = node.maximum === Number.MAX_SAFE_INTEGER ? undefined : node.maximum;
  const noun = node.type === 'integer' ? 'be a whole number' : 'be a number';
  const above = node.exclusiveMinimum;
  const below = node.exclusiveMaximum;
  if (min !== undefined && max !== undefined && above === undefined && below === undefined) {
    return node.type === 'integer'
      ? `${noun} between ${min} and ${max}`
      : `lie between ${min} and ${max}`;
  }
  const bounds = [
    ...(above === undefined ? [] : [`greater than ${above}`]),
    ...(min === undefined ? [] : [`at least ${min}`]),
    ...(below === undefined ? [] : [`less than ${below}`]),
    ...(max === undefined ? [] : [`at most ${max}`]),
  ];
  return bounds.length === 0 ? noun : `${noun} ${list(bounds, 'and')}`;
}

function countAllowed(min: number | undefined, max: number | undefined, noun: string): string {
  const few = min ?? 0;
  if (max === undefined) return few > 0 ? `at least ${few} ${noun}` : `any number of ${noun}`;
  return few === max ? `${few} ${noun}` : `${few} to ${max} ${noun}`;
}

/**
 * What a node allows, as the end of "it must ...".
 *
 * @example allowedText({ type: 'number', minimum: 1, maximum: 5 }) // 'lie between 1 and 5'
 * @example allowedText({ enum: ['flat', 'edge'] }) // 'be one of \'flat\' and \'edge\''
 */
export function allowedText(node: SchemaNode): string {
  if (node.const !== undefined) return `be ${literal(node.const)}`;
  if (node.enum !== undefined) return `be one of ${list(node.enum.map(literal), 'and')}`;
  const branches = node.anyOf ?? node.oneOf;
  if (branches !== undefined) {
    const kinds = branches.map((branch) => branch.properties?.['kind']?.const);
    if (kinds.every((kind) => kind !== undefined)) {
      return `be an object whose kind is one of ${list(kinds.map(literal), 'and')}`;
    }
    return list(branches.map(allowedText), 'or');
  }
  switch (node.type) {
    case 'number':
    case 'integer':
      return numberAllowed(node);
    case 'string':
      if (node.pattern !== undefined) return `be a text of the form ${node.pattern}`;
      return `be a text of ${countAllowed(node.minLength, node.maxLength, 'letters')}`;
    case 'array': {
      const exact = node.prefixItems?.length;
      const count = countAllowed(exact ?? node.minItems, exact ?? node.maxItems, 'entries');
      return `be a list of ${count}`;
    }
    case 'object':
      return node.properties === undefined
        ? 'be an object'
        : `be an object with the keys ${list(Object.keys(node.properties), 'and')}`;
    case 'boolean':
      return 'be true or false';
    case 'null':
      return 'be null';
    default:
      return 'be given as the format says';
  }
}
