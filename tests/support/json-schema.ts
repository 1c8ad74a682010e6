/** A second reader of JSON Schema: as much of draft 2020-12 as our exported schemas use. */
interface Node {
  readonly [word: string]: unknown;
}

/** Whether a JSON value is an object. */
export const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const WORDS = new Set(
  (
    '$schema title description default type const enum pattern minimum maximum exclusiveMinimum ' +
    'exclusiveMaximum minLength maxLength minItems maxItems items prefixItems properties required ' +
    'additionalProperties patternProperties propertyNames anyOf oneOf'
  ).split(' '),
);

function typeOf(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'array';
  return typeof value;
}

/** Every fault of `value` against `schema`, as "path: word"; throws on a word it does not know. */
export function schemaFaults(schema: unknown, value: unknown, path = '$'): string[] {
  if (schema === true) return [];
  if (schema === false) return [`${path}: false`];
  if (!isObject(schema)) throw new Error(`${path}: no schema`);
  const node: Node = schema;
  const unknown = Object.keys(node).filter((word) => !WORDS.has(word));
  if (unknown.length > 0) throw new Error(`${path}: unknown words ${unknown.join(' ')}`);
  const faults: string[] = [];
  const hold = (word: string, ok: boolean): void => {
    if (!ok) faults.push(`${path}: ${word}`);
  };
  const kind = typeOf(value);
  if (node['type'] === 'integer') hold('type', kind === 'number' && Number.isInteger(value));
  else if (node['type'] !== undefined) hold('type', kind === node['type']);
  if ('const' in node) hold('const', value === node['const']);
  if (Array.isArray(node['enum'])) hold('enum', node['enum'].includes(value));
  const bound = (word: string): number | null => {
    const limit = node[word];
    return typeof limit === 'number' ? limit : null;
  };
  if (typeof value === 'number') {
    hold('minimum', value >= (bound('minimum') ?? -Infinity));
    hold('maximum', value <= (bound('maximum') ?? Infinity));
    hold('exclusiveMinimum', value > (bound('exclusiveMinimum') ?? -Infinity));
    hold('exclusiveMaximum', value < (bound('exclusiveMaximum') ?? Infinity));
  }
  if (typeof value === 'string') {
    hold('minLength', value.length >= (bound('minLength') ?? 0));
    hold('maxLength', value.length <= (bound('maxLength') ?? Infinity));
    const { pattern } = node;
    if (typeof pattern === 'string') hold('pattern', new RegExp(pattern, 'u').test(value));
  }
  if (Array.isArray(value)) {
    hold('minItems', value.length >= (bound('minItems') ?? 0));
    hold('maxItems', value.length <= (bound('maxItems') ?? Infinity));
    const first = Array.isArray(node['prefixItems']) ? node['prefixItems'] : [];
    value.forEach((entry, i) => {
      const item = i < first.length ? first[i] : (node['items'] ?? true);
      faults.push(...schemaFaults(item, entry, `${path}[${i}]`));
    });
  }
  if (isObject(value)) faults.push(...objectFaults(node, value, path));
  for (const word of ['anyOf', 'oneOf']) {
    const branches = node[word];
    if (!Array.isArray(branches)) continue;
    const fits = branches.filter((branch) => schemaFaults(branch, value, path).length === 0).length;
    hold(word, word === 'anyOf' ? fits > 0 : fits === 1);
  }
  return faults;
}

function objectFaults(node: Node, value: Record<string, unknown>, path: string): string[] {
  const faults: string[] = [];
  const properties = isObject(node['properties']) ? node['properties'] : {};
  const patterns = isObject(node['patternProperties']) ? node['patternProperties'] : {};
  const required = Array.isArray(node['required']) ? node['required'] : [];
  for (const key of required) if (!(String(key) in value)) faults.push(`${path}.${key}: required`);
  for (const [key, entry] of Object.entries(value)) {
    const at = `${path}.${key}`;
    const pattern = Object.keys(patterns).find((source) => new RegExp(source, 'u').test(key));
    if (node['propertyNames'] !== undefined) {
      faults.push(...schemaFaults(node['propertyNames'], key, at));
    }
    if (Object.hasOwn(properties, key)) faults.push(...schemaFaults(properties[key], entry, at));
    else if (pattern !== undefined) faults.push(...schemaFaults(patterns[pattern], entry, at));
    else faults.push(...schemaFaults(node['additionalProperties'] ?? true, entry, at));
  }
  return faults;
}
