/** Point sets that fill a cube more evenly than random ones. */

/**
 * Radical inverse of an integer: its digits mirrored behind the point.
 *
 * One coordinate of the Halton sequence; take distinct primes as bases for the coordinates.
 *
 * @param index 0, 1, 2 ...
 * @param base integer, 2 or more.
 * @returns number in 0 <= x < 1.
 * @example radicalInverse(6, 2) // 0.375
 * @example radicalInverse(5, 3) // 0.7777777778
 * Source: Halton 1960.
 */
export function radicalInverse(index: number, base: number): number {
  let left = index;
  let scale = 1;
  let sum = 0;
  while (left > 0) {
    const next = Math.floor(left / base);
    scale /= base;
    sum += (left - next * base) * scale;
    left = next;
  }
  return sum;
}
