/** Canonical JSON: the same data always gives the same bytes. */

export interface JsonOptions {
  /**
   * What -0 becomes. refuse: an error, as for NaN. zero: 0, for files that people read, where the
   * sign says nothing. keep: -0, which JSON can write, for state that must come back bit by bit.
   */
  readonly negativeZero?: 'refuse' | 'zero' | 'keep';
}

const WIDTH = 100;

type Sign = NonNullable<JsonOptions['negativeZero']>;

function numberText(value: number, path: string, sign: Sign): string {
  if (!Number.isFinite(value)) throw new RangeError(`${path} is ${value}; JSON cannot hold it`);
  if (!Object.is(value, -0)) return String(value);
  if (sign === 'refuse') throw new RangeError(`${path} is -0; write 0 instead`);
  return sign === 'zero' ? '0' : '-0';
}

/** Text without line breaks, or null when the value is no scalar. */
function scalarText(value: unknown, path: string, sign: Sign): string | null {
  if (value === null) return 'null';
  switch (typeof value) {
    case 'number':
      return numberText(value, path, sign);
    case 'string':
      return JSON.stringify(value);
    case 'boolean':
      return String(value);
    case 'object':
      return null;
    default:
      throw new TypeError(`${path} is ${typeof value}; JSON cannot hold it`);
  }
}

function entriesOf(value: object, path: string): [string, unknown][] {
  if (ArrayBuffer.isView(value) || value instanceof Map || value instanceof Set) {
    throw new TypeError(`${path} is no plain data; turn it into an array or object first`);
  }
  return Object.entries(value).filter(([, entry]) => entry !== undefined);
}

/** One line, as short as JSON allows when `tight`, else with a space after each comma. */
function lineText(value: unknown, path: string, sign: Sign, tight: boolean): string {
  const scalar = scalarText(value, path, sign);
  if (scalar !== null) return scalar;
  const comma = tight ? ',' : ', ';
  if (Array.isArray(value)) {
    return `[${value.map((entry, i) => lineText(entry, `${path}[${i}]`, sign, tight)).join(comma)}]`;
  }
  if (typeof value !== 'object' || value === null) throw new TypeError(`${path} is no data`);
  const colon = tight ? ':' : ': ';
  const parts = entriesOf(value, path).map(
    ([key, entry]) => JSON.stringify(key) + colon + lineText(entry, `${path}.${key}`, sign, tight),
  );
  return tight || parts.length === 0 ? `{${parts.join(comma)}}` : `{ ${parts.join(comma)} }`;
}

function isFlat(value: readonly unknown[]): boolean {
  return value.every((entry) => typeof entry === 'number' || entry === null);
}

function blockText(value: unknown, path: string, sign: Sign, indent: string): string {
  const scalar = scalarText(value, path, sign);
  if (scalar !== null) return scalar;
  if (typeof value !== 'object' || value === null) throw new TypeError(`${path} is no data`);
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    // Rows of numbers stay on one line however long; other short lists do too.
    if (isFlat(value)) return lineText(value, path, sign, false);
    const line = value.some((entry) => typeof entry === 'object' && entry !== null)
      ? null
      : lineText(value, path, sign, false);
    if (line !== null && indent.length + line.length <= WIDTH) return line;
    const rows = value.map((entry, i) => inner + blockText(entry, `${path}[${i}]`, sign, inner));
    return `[\n${rows.join(',\n')}\n${indent}]`;
  }
  const entries = entriesOf(value, path);
  if (entries.length === 0) return '{}';
  const rows = entries.map(
    ([key, entry]) =>
      `${inner}${JSON.stringify(key)}: ${blockText(entry, `${path}.${key}`, sign, inner)}`,
  );
  return `{\n${rows.join(',\n')}\n${indent}}`;
}

/**
 * Writes data as JSON for people: keys in the order given, two spaces of indent, rows of numbers
 * on one line, shortest numbers that read back to the same bits, a line break at the end. Keys
 * whose value is undefined are left out.
 *
 * @param value plain data.
 * @param options see `JsonOptions`; -0 is refused by default.
 * @throws RangeError naming the place of NaN, an infinity or a refused -0; TypeError for what is
 *   no plain data.
 * @example writeJson({ b: [1, 0.1], a: undefined }) // '{\n  "b": [1, 0.1]\n}\n'
 */
export function writeJson(value: unknown, options: JsonOptions = {}): string {
  return `${blockText(value, '$', options.negativeZero ?? 'refuse', '')}\n`;
}

/**
 * Writes data as one line of JSON without spaces, ended by a line break: for JSON Lines.
 *
 * @throws as `writeJson`.
 * @example writeJsonLine({ a: [1, 2] }) // '{"a":[1,2]}\n'
 */
export function writeJsonLine(value: unknown, options: JsonOptions = {}): string {
  return `${lineText(value, '$', options.negativeZero ?? 'refuse', true)}\n`;
}
