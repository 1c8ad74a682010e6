/** Numbers as people read them in tables. */

/**
 * A number to four significant digits, without an exponent where it can be helped; '-' for none.
 *
 * @example figure(12.34567) // '12.35'
 * @example figure(123456.7) // '123457'
 * @example figure(0) // '0'
 * @example figure(null) // '-'
 */
export function figure(value: number | null): string {
  if (value === null) return '-';
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e6 || size < 1e-4) return value.toExponential(2);
  return size >= 1e4 ? value.toFixed(0) : String(Number(value.toPrecision(4)));
}
