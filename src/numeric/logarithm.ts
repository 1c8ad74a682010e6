/**
 * log, log1p, log2 and log10 from + - * / alone.
 *
 * After fdlibm (e_log.c, s_log1p.c, e_log10.c) and its later form in msun (k_log.h, e_log2.c),
 * which ask for this notice:
 *
 *   Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 *   Developed at SunPro, a Sun Microsystems, Inc. business.
 *   Permission to use, copy, modify, and distribute this software is freely granted,
 *   provided that this notice is preserved.
 */
import { headOf, highWord, powerOfTwo } from './bits.ts';

const LN2_HEAD = 6.9314718036912381649e-1;
const LN2_TAIL = 1.90821492927058770002e-10;
const L1 = 6.66666666666673513e-1;
const L2 = 3.999999999940941908e-1;
const L3 = 2.857142874366239149e-1;
const L4 = 2.222219843214978396e-1;
const L5 = 1.818357216161805012e-1;
const L6 = 1.531383769920937332e-1;
const L7 = 1.479819860511658591e-1;
const TWO_54 = 18014398509481984;

/** log((1 + s)/(1 - s)) - 2 s, divided by s. */
function series(s: number): number {
  const z = s * s;
  const w = z * z;
  return w * (L2 + w * (L4 + w * L6)) + z * (L1 + w * (L3 + w * (L5 + w * L7)));
}

/** The exponent that brings a positive normal number with this high word into sqrt(1/2)..sqrt(2). */
function exponentOf(high: number): number {
  return ((high + 0x95f64) >> 20) - 1023;
}

/**
 * Natural logarithm, within 1 unit in the last place.
 *
 * @param x positive [-]; 0 gives -infinity, negative or NaN gives NaN.
 * @returns ln x [-].
 * @example log(10) // 2.302585092994046
 * Source: fdlibm e_log.c.
 */
export function log(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return Infinity;
  let y = x;
  let k = 0;
  if (y < 2.2250738585072014e-308) {
    k = -54;
    y *= TWO_54;
  }
  const e = exponentOf(highWord(y));
  k += e;
  const f = y * powerOfTwo(-e) - 1;
  const s = f / (2 + f);
  const hfsq = 0.5 * f * f;
  const r = series(s);
  if (k === 0) return f - (hfsq - s * (hfsq + r));
  return k * LN2_HEAD - (hfsq - (s * (hfsq + r) + k * LN2_TAIL) - f);
}

/**
 * ln(1 + x) without loss near zero, within 1 unit in the last place.
 *
 * @param x above -1 [-]; -1 gives -infinity, less or NaN gives NaN.
 * @returns ln(1 + x) [-].
 * @example log1p(1e-10) // 9.9999999995e-11
 * Source: fdlibm s_log1p.c.
 */
export function log1p(x: number): number {
  if (!(x > -1)) return x === -1 ? -Infinity : NaN;
  if (x === Infinity) return Infinity;
  if (Math.abs(x) < 1.1102230246251565e-16) return x;
  if (x > -0.2928932188134524 && x < 0.41421356237309503) {
    const s = x / (2 + x);
    const hfsq = 0.5 * x * x;
    return x - (hfsq - s * (hfsq + series(s)));
  }
  const u = 1 + x;
  const k = exponentOf(highWord(u));
  // c restores what rounding 1 + x dropped.
  const c = k > 0 ? 1 - (u - x) : x - (u - 1);
  const f = u * powerOfTwo(-k) - 1;
  const s = f / (2 + f);
  const hfsq = 0.5 * f * f;
  const r = series(s);
  return k * LN2_HEAD - (hfsq - (s * (hfsq + r) + (k * LN2_TAIL + c / u)) - f);
}

const INVERSE_LN2_HEAD = 1.44269504072144627571;
const INVERSE_LN2_TAIL = 1.67517131648865118353e-10;

/**
 * Logarithm to base 2, within 1 unit in the last place; exact for powers of two.
 *
 * @param x positive [-]; 0 gives -infinity, negative or NaN gives NaN.
 * @returns log2 x [-].
 * @example log2(8) // 3
 * Source: msun e_log2.c.
 */
export function log2(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return Infinity;
  let y = x;
  let k = 0;
  if (y < 2.2250738585072014e-308) {
    k = -54;
    y *= TWO_54;
  }
  const e = exponentOf(highWord(y));
  k += e;
  const f = y * powerOfTwo(-e) - 1;
  if (f === 0) return k;
  const s = f / (2 + f);
  const hfsq = 0.5 * f * f;
  const r = s * (hfsq + series(s));
  const head = headOf(f - hfsq);
  const tail = f - head - hfsq + r;
  const valHead = head * INVERSE_LN2_HEAD;
  const valTail = (tail + head) * INVERSE_LN2_TAIL + tail * INVERSE_LN2_HEAD;
  const w = k + valHead;
  return valTail + (k - w + valHead) + w;
}

const INVERSE_LN10_HEAD = 4.34294481878168880939e-1;
const INVERSE_LN10_TAIL = 2.50829467116452752298e-11;
const LOG10_2_HEAD = 3.01029995663611771306e-1;
const LOG10_2_TAIL = 3.69423907715893078616e-13;

/**
 * Logarithm to base 10, within 1 unit in the last place.
 *
 * @param x positive [-]; 0 gives -infinity, negative or NaN gives NaN.
 * @returns log10 x [-].
 * @example log10(1000) // 3
 * Source: msun e_log10.c.
 */
export function log10(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return Infinity;
  let y = x;
  let k = 0;
  if (y < 2.2250738585072014e-308) {
    k = -54;
    y *= TWO_54;
  }
  const e = exponentOf(highWord(y));
  k += e;
  const f = y * powerOfTwo(-e) - 1;
  const s = f / (2 + f);
  const hfsq = 0.5 * f * f;
  const r = s * (hfsq + series(s));
  const head = headOf(f - hfsq);
  const tail = f - head - hfsq + r;
  const valHead = head * INVERSE_LN10_HEAD;
  const k2 = k * LOG10_2_HEAD;
  const w = k2 + valHead;
  const low = k * LOG10_2_TAIL + (tail + head) * INVERSE_LN10_TAIL + tail * INVERSE_LN10_HEAD;
  return low + (k2 - w + valHead) + w;
}
