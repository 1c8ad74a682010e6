/** Reduction of huge angles by pi/2 with exact integers: slow, and never met in a plate. */
import { highWord, lowWord, scaleByPowerOfTwo } from './bits.ts';

/** Bits behind the point of pi/2: 1024 for the greatest double, 53 for its digits, rest to spare. */
const BITS = 1216n;

let halfPi: bigint | undefined;

/** pi/2 times 2^BITS, from Machin's pi/4 = 4 atan(1/5) - atan(1/239). */
function scaledHalfPi(): bigint {
  const guard = 32n;
  const one = 1n << (BITS + guard);
  const atanOfInverse = (m: bigint): bigint => {
    let power = one / m;
    let sum = power;
    for (let k = 3n, sign = -1n; power !== 0n; k += 2n, sign = -sign) {
      power /= m * m;
      sum += (sign * power) / k;
    }
    return sum;
  };
  return (2n * (4n * atanOfInverse(5n) - atanOfInverse(239n))) >> guard;
}

/**
 * Writes x - n pi/2 (head and tail) into `rest` and returns n modulo 4.
 *
 * @param x finite angle of magnitude 1 or more [rad].
 * @param rest two numbers: the remainder in -pi/4..pi/4 and what its rounding left.
 */
export function reduceHuge(x: number, rest: Float64Array): number {
  halfPi ??= scaledHalfPi();
  const high = highWord(x);
  const exponent = ((high >> 20) & 0x7ff) - 1075;
  const mantissa = (BigInt((high & 0xfffff) | 0x100000) << 32n) | BigInt(lowWord(x));
  const scaled = mantissa << (BITS + BigInt(exponent));
  let n = scaled / halfPi;
  let left = scaled - n * halfPi;
  if (2n * left > halfPi) {
    n += 1n;
    left -= halfPi;
  }
  const sign = x < 0 ? -1 : 1;
  // 316 bits behind the point are left: no double lies nearer than 2^-62 to a multiple of pi/2.
  const kept = left >> 900n;
  const head = Number(kept);
  // Number(bigint) rounds correctly, so the difference is the exact rounding error.
  const tail = Number(kept - BigInt(head));
  rest[0] = sign * scaleByPowerOfTwo(head, -316);
  rest[1] = sign * scaleByPowerOfTwo(tail, -316);
  return sign * Number(n & 3n);
}
