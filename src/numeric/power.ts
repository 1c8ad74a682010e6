/**
 * pow, cbrt and hypot from + - * / and sqrt alone.
 *
 * pow and cbrt after fdlibm and msun (e_pow.c, s_cbrt.c), which ask for this notice:
 *
 *   Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 *   Permission to use, copy, modify, and distribute this software is freely granted,
 *   provided that this notice is preserved.
 */
import { headOf, fromWords, highWord, scaleByPowerOfTwo, withHighWord } from './bits.ts';

const L1 = 5.99999999999994648725e-1;
const L2 = 4.28571428578550184252e-1;
const L3 = 3.33333329818377432918e-1;
const L4 = 2.72728123808534006489e-1;
const L5 = 2.30660745775561754067e-1;
const L6 = 2.06975017800338417784e-1;
const P1 = 1.66666666666666019037e-1;
const P2 = -2.77777777770155933842e-3;
const P3 = 6.61375632143793436117e-5;
const P4 = -1.6533902205465251539e-6;
const P5 = 4.13813679705723846039e-8;
const LN2 = Math.LN2;
const LN2_HEAD = 6.93147182464599609375e-1;
const LN2_TAIL = -1.90465429995776804525e-9;
/** 2/(3 ln 2) and its two parts. */
const CP = 9.61796693925975554329e-1;
const CP_HEAD = 9.61796700954437255859e-1;
const CP_TAIL = -7.02846165095275826516e-9;
const LOG2_1_5_HEAD = 5.84962487220764160156e-1;
const LOG2_1_5_TAIL = 1.35003920212974897128e-8;
const TWO_53 = 9007199254740992;

/**
 * x raised to y, within 1 unit in the last place.
 *
 * @param x base [-].
 * @param y exponent [-].
 * @returns x^y [-]; special values as in ECMAScript: x^0 = 1, (+-1)^(+-infinity) = NaN, a negative
 *   base with a broken exponent gives NaN.
 * @example pow(2, 0.5) // 1.4142135623730951
 * Source: fdlibm e_pow.c.
 */
export function pow(x: number, y: number): number {
  if (y === 0) return 1;
  const a = Math.abs(x);
  if (!(a > 0 && a < Infinity && Math.abs(y) < Infinity)) return specialPow(x, y);
  let sign = 1;
  if (x < 0) {
    if (Math.floor(y) !== y) return NaN;
    const half = y * 0.5;
    if (Math.floor(half) !== half) sign = -1;
  }
  if (y === 1) return x;
  if (y === 2) return x * x;
  if (y === 0.5 && x > 0) return Math.sqrt(x);
  if (a === 1) return sign;
  // Beyond 2^64 every base but 1 overflows or vanishes.
  if (Math.abs(y) > 1.8446744073709552e19) {
    const size = a > 1 === y > 0 ? Infinity : 0;
    return sign * size;
  }
  return sign * positivePow(a, y);
}

/** Cases with a zero, an infinity or a NaN. */
function specialPow(x: number, y: number): number {
  if (!(x === x && y === y)) return NaN;
  const a = Math.abs(x);
  if (Math.abs(y) === Infinity) {
    if (a === 1) return NaN;
    return a > 1 === y > 0 ? Infinity : 0;
  }
  const half = y * 0.5;
  const odd = Math.floor(y) === y && Math.floor(half) !== half;
  const big = (a === Infinity) === y > 0;
  const negative = odd && (x < 0 || 1 / x < 0);
  if (big) return negative ? -Infinity : Infinity;
  return negative ? -0 : 0;
}

/** a^y for positive finite a other than 1: log2 to about 70 bits, times y, then 2^ of it. */
function positivePow(a: number, y: number): number {
  let ax = a;
  let n = 0;
  let ix = highWord(ax);
  if (ix < 0x00100000) {
    ax *= TWO_53;
    n = -53;
    ix = highWord(ax);
  }
  n += (ix >> 20) - 0x3ff;
  const j = ix & 0x000fffff;
  ix = j | 0x3ff00000;
  let upper = false;
  if (j > 0x3988e) {
    if (j < 0xbb67a) upper = true;
    else {
      n += 1;
      ix -= 0x00100000;
    }
  }
  ax = withHighWord(ax, ix);
  const bp = upper ? 1.5 : 1;
  // ss = (x - bp)/(x + bp), head and tail.
  let u = ax - bp;
  let v = 1 / (ax + bp);
  const ss = u * v;
  const sHead = headOf(ss);
  let tHead = headOf(ax + bp);
  let tTail = ax - (tHead - bp);
  const sTail = v * (u - sHead * tHead - sHead * tTail);
  let s2 = ss * ss;
  let r = s2 * s2 * (L1 + s2 * (L2 + s2 * (L3 + s2 * (L4 + s2 * (L5 + s2 * L6)))));
  r += sTail * (sHead + ss);
  s2 = sHead * sHead;
  tHead = headOf(3 + s2 + r);
  tTail = r - (tHead - 3 - s2);
  u = sHead * tHead;
  v = sTail * tHead + tTail * ss;
  let pHead = headOf(u + v);
  let pTail = v - (pHead - u);
  let zHead = CP_HEAD * pHead;
  let zTail = CP_TAIL * pHead + pTail * CP + (upper ? LOG2_1_5_TAIL : 0);
  const dp = upper ? LOG2_1_5_HEAD : 0;
  const t1 = headOf(zHead + zTail + dp + n);
  const t2 = zTail - (t1 - n - dp - zHead);
  // y log2(a) in two parts.
  const y1 = headOf(y);
  pTail = (y - y1) * t1 + y * t2;
  pHead = y1 * t1;
  let z = pTail + pHead;
  if (z >= 1024) {
    // 8.0085662595372944e-17 = -(1024 - log2(greatest double + half a unit)).
    if (z > 1024 || pTail + 8.008566259537294e-17 > z - pHead) return Infinity;
  } else if (z <= -1075) {
    if (z < -1075 || pTail <= z - pHead) return 0;
  }
  // 2^(head + tail).
  const k = Math.round(z);
  pHead -= k;
  const t = headOf(pTail + pHead);
  zHead = t * LN2_HEAD;
  zTail = (pTail - (t - pHead)) * LN2 + t * LN2_TAIL;
  z = zHead + zTail;
  const w = zTail - (z - zHead);
  const tt = z * z;
  const c = z - tt * (P1 + tt * (P2 + tt * (P3 + tt * (P4 + tt * P5))));
  const rr = (z * c) / (c - 2) - (w + z * w);
  z = 1 - (rr - z);
  return scaleByPowerOfTwo(z, k);
}

const TWO_54 = 18014398509481984;

/**
 * Cube root, within 1 unit in the last place.
 *
 * @param x any value, sign kept; NaN gives NaN.
 * @returns cube root of x.
 * @example cbrt(27) // 3
 * Source: msun s_cbrt.c.
 */
export function cbrt(x: number): number {
  if (x === 0 || !(Math.abs(x) < Infinity)) return x;
  const high = highWord(x);
  const sign = high & 0x80000000;
  let hx = high & 0x7fffffff;
  let t: number;
  if (hx < 0x00100000) {
    hx = highWord(x * TWO_54) & 0x7fffffff;
    t = fromWords(sign | (Math.floor(hx / 3) + 696219795), 0);
  } else {
    t = fromWords(sign | (Math.floor(hx / 3) + 715094163), 0);
  }
  const r = t * t * (t / x);
  t *=
    1.87595182427177009643 +
    r * (-1.88497979543377169875 + r * 1.62142972010535446614) +
    r * r * r * (-0.758397934778766047437 + r * 0.145996192886612446982);
  // Rounded to 23 bits (Veltkamp's split) t*t is exact; one Newton step then reaches full accuracy.
  const scaled = t * 1073741825;
  t = scaled - (scaled - t);
  const s = t * t;
  const q = x / s;
  return t + t * ((q - t) / (t + t + q));
}

/**
 * Length of a vector of two or three components, within 2 units in the last place.
 *
 *   sqrt(x^2 + y^2 + z^2)
 *
 * @param x first component, any unit shared by all.
 * @param y second component.
 * @param z third component, 0 when left out.
 * @returns length; no overflow on the way, infinity if any component is infinite.
 * @example hypot(3, 4, 12) // 13
 */
export function hypot(x: number, y: number, z = 0): number {
  const sum = x * x + y * y + z * z;
  if (sum > 1e-280 && sum < 1e300) return Math.sqrt(sum);
  const a = Math.abs(x);
  const b = Math.abs(y);
  const c = Math.abs(z);
  if (a === Infinity || b === Infinity || c === Infinity) return Infinity;
  const largest = Math.max(a, b, c);
  if (largest === 0 || !(largest === largest)) return largest;
  const u = a / largest;
  const v = b / largest;
  const w = c / largest;
  return largest * Math.sqrt(u * u + v * v + w * w);
}
