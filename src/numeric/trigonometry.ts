/**
 * sin, cos and tan from + - * / alone, so that every engine gives the same bits.
 *
 * The polynomials and the argument reduction follow fdlibm (k_sin.c, k_cos.c, k_tan.c,
 * e_rem_pio2.c), which asks for this notice:
 *
 *   Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 *   Developed at SunPro, a Sun Microsystems, Inc. business.
 *   Permission to use, copy, modify, and distribute this software is freely granted,
 *   provided that this notice is preserved.
 *
 * Huge arguments are reduced with exact integers instead of fdlibm's table of 2/pi.
 */
import { headOf, highWord } from './bits.ts';
import { reduceHuge } from './huge-angle.ts';

const S1 = -1.66666666666666324348e-1;
const S2 = 8.33333333332248946124e-3;
const S3 = -1.98412698298579493134e-4;
const S4 = 2.75573137070700676789e-6;
const S5 = -2.50507602534068634195e-8;
const S6 = 1.58969099521155010221e-10;

const C1 = 4.16666666666666019037e-2;
const C2 = -1.38888888888741095749e-3;
const C3 = 2.48015872894767294178e-5;
const C4 = -2.75573143513906633035e-7;
const C5 = 2.0875723212981748279e-9;
const C6 = -1.13596475577881948265e-11;

const TWO_OVER_PI = 6.36619772367581382433e-1;
// pi/2 in pieces of 33 bits each with what they leave: products with n < 2^20 are exact.
const HALF_PI_1 = 1.57079632673412561417;
const HALF_PI_1T = 6.07710050650619224932e-11;
const HALF_PI_2 = 6.0771005063039659766e-11;
const HALF_PI_2T = 2.02226624879595063154e-21;
const HALF_PI_3 = 2.0222662487111664558e-21;
const HALF_PI_3T = 8.47842766036889956997e-32;

/** 2^19 pi/2: beyond it n times a piece of pi/2 may round. */
const MEDIUM_LIMIT = 823549;

const rest = new Float64Array(2);

/** sine of x + y for |x| <= pi/4, y the tail of x. */
function kernelSin(x: number, y: number): number {
  const z = x * x;
  const w = z * z;
  const r = S2 + z * (S3 + z * S4) + z * w * (S5 + z * S6);
  const v = z * x;
  return x - (z * (0.5 * y - v * r) - y - v * S1);
}

/** cosine of x + y for |x| <= pi/4, y the tail of x. */
function kernelCos(x: number, y: number): number {
  const z = x * x;
  const w = z * z;
  const r = z * (C1 + z * (C2 + z * C3)) + w * w * (C4 + z * (C5 + z * C6));
  const hz = 0.5 * z;
  const v = 1 - hz;
  return v + (1 - v - hz + (z * r - x * y));
}

/**
 * Writes x - n pi/2 into `rest` (head, tail) and returns n modulo 4 (or any n congruent to it).
 */
function reduce(x: number): number {
  if (Math.abs(x) > MEDIUM_LIMIT) return reduceHuge(x, rest);
  const n = Math.round(x * TWO_OVER_PI);
  let r = x - n * HALF_PI_1;
  let w = n * HALF_PI_1T;
  let y = r - w;
  const e = (highWord(x) >> 20) & 0x7ff;
  if (e - ((highWord(y) >> 20) & 0x7ff) > 16) {
    let t = r;
    w = n * HALF_PI_2;
    r = t - w;
    w = n * HALF_PI_2T - (t - r - w);
    y = r - w;
    if (e - ((highWord(y) >> 20) & 0x7ff) > 49) {
      t = r;
      w = n * HALF_PI_3;
      r = t - w;
      w = n * HALF_PI_3T - (t - r - w);
      y = r - w;
    }
  }
  rest[0] = y;
  rest[1] = r - y - w;
  return n;
}

/** pi/4: no reduction is needed up to here. */
const QUARTER_PI = 0.7853981633974483;
/** Below this sin x and tan x equal x to the last bit. */
const TINY = 7.450580596923828e-9;

/**
 * Sine of an angle, within 1 unit in the last place.
 *
 * @param x angle [rad], any finite value; NaN or infinity gives NaN.
 * @returns sine [-].
 * @example sin(0.5235987755982988) // 0.49999999999999994
 * Source: fdlibm k_sin.c.
 */
export function sin(x: number): number {
  if (Math.abs(x) <= QUARTER_PI) return Math.abs(x) < TINY ? x : kernelSin(x, 0);
  if (!(Math.abs(x) < Infinity)) return NaN;
  const n = reduce(x) & 3;
  const r = n & 1 ? kernelCos(rest[0], rest[1]) : kernelSin(rest[0], rest[1]);
  return n & 2 ? -r : r;
}

/**
 * Cosine of an angle, within 1 unit in the last place.
 *
 * @param x angle [rad], any finite value; NaN or infinity gives NaN.
 * @returns cosine [-].
 * @example cos(1.0471975511965976) // 0.5000000000000001
 * Source: fdlibm k_cos.c.
 */
export function cos(x: number): number {
  if (Math.abs(x) <= QUARTER_PI) return kernelCos(x, 0);
  if (!(Math.abs(x) < Infinity)) return NaN;
  const n = reduce(x) & 3;
  const r = n & 1 ? kernelSin(rest[0], rest[1]) : kernelCos(rest[0], rest[1]);
  return n === 1 || n === 2 ? -r : r;
}

const T0 = 3.33333333333334091986e-1;
const T1 = 1.33333333333201242699e-1;
const T2 = 5.39682539762260521377e-2;
const T3 = 2.18694882948595424599e-2;
const T4 = 8.86323982359930005737e-3;
const T5 = 3.59207910759131235356e-3;
const T6 = 1.45620945432529025516e-3;
const T7 = 5.88041240820264096874e-4;
const T8 = 2.46463134818469906812e-4;
const T9 = 7.817944429395570923e-5;
const T10 = 7.14072491382608190305e-5;
const T11 = -1.85586374855275456654e-5;
const T12 = 2.59073051863633712884e-5;
const QUARTER_PI_HEAD = 7.85398163397448278999e-1;
const QUARTER_PI_TAIL = 3.06161699786838301793e-17;

/** tan(x + y), or -1/tan(x + y) when `inverted`, for |x| <= pi/4. */
function kernelTan(head: number, tail: number, inverted: boolean): number {
  let x = head;
  let y = tail;
  const large = Math.abs(x) >= 0.6744;
  const negative = x < 0;
  if (large) {
    // tan grows steep near pi/4: there work with pi/4 - x.
    if (negative) {
      x = -x;
      y = -y;
    }
    x = QUARTER_PI_HEAD - x + (QUARTER_PI_TAIL - y);
    y = 0;
  }
  const z = x * x;
  const w = z * z;
  let r = T1 + w * (T3 + w * (T5 + w * (T7 + w * (T9 + w * T11))));
  const v0 = z * (T2 + w * (T4 + w * (T6 + w * (T8 + w * (T10 + w * T12)))));
  const s = z * x;
  r = y + z * (s * (r + v0) + y);
  r += T0 * s;
  const t = x + r;
  if (large) {
    const v = inverted ? -1 : 1;
    return (negative ? -1 : 1) * (v - 2 * (x - ((t * t) / (t + v) - r)));
  }
  if (!inverted) return t;
  // -1/(x+r) rounded once: the quotient is split so that its error can be fed back.
  const heads = headOf(t);
  const tails = r - (heads - x);
  const a = -1 / t;
  const q = headOf(a);
  return q + a * (1 + q * heads + q * tails);
}

/**
 * Tangent of an angle, within 1 unit in the last place.
 *
 * @param x angle [rad], any finite value; NaN or infinity gives NaN.
 * @returns tangent [-].
 * @example tan(0.7853981633974483) // 0.9999999999999999
 * Source: fdlibm k_tan.c.
 */
export function tan(x: number): number {
  if (Math.abs(x) <= QUARTER_PI) return Math.abs(x) < TINY ? x : kernelTan(x, 0, false);
  if (!(Math.abs(x) < Infinity)) return NaN;
  const n = reduce(x);
  return kernelTan(rest[0], rest[1], (n & 1) === 1);
}
