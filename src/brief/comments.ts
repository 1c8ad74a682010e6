/** Comments in JSON: keys that begin with "//". */

/** Deepest nesting accepted; every format of this program stays below 12. */
const NESTING_LIMIT = 64;

/**
 * A copy of a JSON value without its comments: keys that begin with "//" are left out at any
 * depth.
 *
 * @param value plain data; anything but arrays and plain objects is passed through.
 * @throws RangeError when nested deeper than `NESTING_LIMIT` (or in a circle).
 * @example JSON.stringify(withoutComments({ '//': 'why', a: [{ '// b': 'note', b: 1 }] })) // '{"a":[{"b":1}]}'
 */
export function withoutComments(value: unknown): unknown {
  return strip(value, 0);
}

function strip(value: unknown, depth: number): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (depth > NESTING_LIMIT) throw new RangeError(`nested deeper than ${NESTING_LIMIT} levels`);
  if (Array.isArray(value)) return value.map((entry) => strip(entry, depth + 1));
  // fromEntries defines own properties, so that a key "__proto__" stays plain data.
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => !key.startsWith('//'))
      .map(([key, entry]) => [key, strip(entry, depth + 1)]),
  );
}
