/** Reading and writing the bits of a double: what the portable functions scale and split with. */

const double = new Float64Array(1);
const words = new Uint32Array(double.buffer);
double[0] = 1;
// 1 is 0x3ff00000_00000000: where its high word shows up tells the byte order of the machine.
const HIGH = words[1] === 0x3ff00000 ? 1 : 0;
const LOW = 1 - HIGH;

/** Upper 32 bits of a double as a signed integer: sign, exponent, first 20 bits of the fraction. */
export function highWord(x: number): number {
  double[0] = x;
  return words[HIGH] | 0;
}

/** Lower 32 bits of a double as an unsigned integer. */
export function lowWord(x: number): number {
  double[0] = x;
  return words[LOW];
}

/** The double with the given upper and lower 32 bits. */
export function fromWords(high: number, low: number): number {
  words[HIGH] = high;
  words[LOW] = low;
  return double[0];
}

/** x with its upper 32 bits replaced. */
export function withHighWord(x: number, high: number): number {
  double[0] = x;
  words[HIGH] = high;
  return double[0];
}

/**
 * First 26 bits of x, rounded: products of two such heads are exact. |x| below 2^996.
 *
 * Arithmetic instead of clearing the low word: a store of half a double followed by a load of the
 * whole stalls the processor, which made `pow` half as fast.
 *
 * Source: Veltkamp 1968, Dekker 1971.
 */
export function headOf(x: number): number {
  const scaled = 134217729 * x;
  return scaled - (scaled - x);
}

// Every power of two a double can hold, by exact halving and doubling; a look-up does not stall.
const powers = new Float64Array(1074 + 1024);
powers[1074] = 1;
for (let k = 1; k < 1024; k++) powers[1074 + k] = 2 * powers[1073 + k];
for (let k = 1; k <= 1074; k++) powers[1074 - k] = 0.5 * powers[1075 - k];

/** Power of two 2^k, -1074 <= k <= 1023. */
export function powerOfTwo(k: number): number {
  return powers[k + 1074];
}

/** x * 2^k, rounding once, for any integer k. */
export function scaleByPowerOfTwo(x: number, k: number): number {
  let y = x;
  let n = k;
  if (n > 1023) {
    y *= 8.98846567431158e307;
    n -= 1023;
    if (n > 1023) {
      y *= 8.98846567431158e307;
      n = Math.min(n - 1023, 1023);
    }
  } else if (n < -1022) {
    // 2^-969 keeps 53 bits of room, so that a subnormal result is rounded only once.
    y *= 2.004168360008973e-292;
    n += 969;
    if (n < -1022) {
      y *= 2.004168360008973e-292;
      n = Math.max(n + 969, -1022);
    }
  }
  return y * powerOfTwo(n);
}
