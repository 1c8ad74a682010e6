/** Powers and roots with the exponents of variation, exact steps where the exponent allows them. */
import { exp, log } from '../numeric/index.ts';

/** The exponent n = eta + 1 of a distribution index, prepared for the hot loops. */
export interface Exponent {
  readonly n: number;
  /** n as a whole number for squaring, or 0 when it is not whole. */
  readonly whole: number;
  /** k when n = 2^k, so that a root is k square roots; otherwise -1. */
  readonly halvings: number;
}

/** Prepares eta + 1. @example createExponent(15).halvings // 4 */
export function createExponent(eta: number): Exponent {
  const n = eta + 1;
  const whole = Number.isInteger(n) && n <= 4096 ? n : 0;
  const isPowerOfTwo = whole > 0 && (whole & (whole - 1)) === 0;
  return { n, whole, halvings: isPowerOfTwo ? 31 - Math.clz32(whole) : -1 };
}

/**
 * x^n for x >= 0.
 *
 * @example power(2, createExponent(2)) // 8
 */
export function power(x: number, exponent: Exponent): number {
  let k = exponent.whole;
  // Four squarings instead of a loop with a test per bit: eta 15 is the rule for crossover.
  if (k === 16) {
    const x2 = x * x;
    const x4 = x2 * x2;
    const x8 = x4 * x4;
    return x8 * x8;
  }
  if (k === 0) return x > 0 ? exp(exponent.n * log(x)) : 0;
  let result = 1;
  let square = x;
  for (;;) {
    if ((k & 1) !== 0) result *= square;
    k >>= 1;
    if (k === 0) return result;
    square *= square;
  }
}

/**
 * x^(1/n) for x >= 0; square roots are correctly rounded, so this path is also the exact one.
 *
 * @example root(8, createExponent(2)).toFixed(12) // '2.000000000000'
 */
export function root(x: number, exponent: Exponent): number {
  const { halvings } = exponent;
  if (halvings === 4) return Math.sqrt(Math.sqrt(Math.sqrt(Math.sqrt(x))));
  if (halvings < 0) return x > 0 ? exp(log(x) / exponent.n) : 0;
  let y = x;
  for (let k = 0; k < halvings; k++) y = Math.sqrt(y);
  return y;
}
