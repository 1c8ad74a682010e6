/**
 * exp and expm1 from + - * / alone.
 *
 * After fdlibm (e_exp.c, s_expm1.c), which asks for this notice:
 *
 *   Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 *   Permission to use, copy, modify, and distribute this software is freely granted,
 *   provided that this notice is preserved.
 */
import { powerOfTwo, scaleByPowerOfTwo } from './bits.ts';

const LN2_HEAD = 6.9314718036912381649e-1;
const LN2_TAIL = 1.90821492927058770002e-10;
const INVERSE_LN2 = Math.LOG2E;

const P1 = 1.66666666666666019037e-1;
const P2 = -2.77777777770155933842e-3;
const P3 = 6.61375632143793436117e-5;
const P4 = -1.6533902205465251539e-6;
const P5 = 4.13813679705723846039e-8;

/**
 * Exponential function e^x, within 1 unit in the last place.
 *
 * @param x any value [-]; above 709.78 infinity, below -745.13 zero, NaN gives NaN.
 * @returns e^x [-].
 * @example exp(1) // 2.718281828459045
 * Source: fdlibm e_exp.c.
 */
export function exp(x: number): number {
  if (!(x < 709.782712893384)) return x > 0 ? Infinity : NaN;
  if (x < -745.1332191019411) return 0;
  const a = Math.abs(x);
  let k = 0;
  let hi = x;
  let lo = 0;
  if (a > 0.34657359027997264) {
    k = a < 1.0397207708399179 ? Math.sign(x) : Math.trunc(INVERSE_LN2 * x + (x < 0 ? -0.5 : 0.5));
    hi = x - k * LN2_HEAD;
    lo = k * LN2_TAIL;
  } else if (a < 3.725290298461914e-9) return 1 + x;
  const r = hi - lo;
  const t = r * r;
  const c = r - t * (P1 + t * (P2 + t * (P3 + t * (P4 + t * P5))));
  if (k === 0) return 1 - ((r * c) / (c - 2) - r);
  const y = 1 - (lo - (r * c) / (2 - c) - hi);
  // Scaling in one step is exact unless the result is subnormal or touches the top.
  return k >= -1021 && k < 1024 ? y * powerOfTwo(k) : scaleByPowerOfTwo(y, k);
}

const Q1 = -3.33333333333331316428e-2;
const Q2 = 1.58730158725481460165e-3;
const Q3 = -7.93650757867487942473e-5;
const Q4 = 4.00821782732936239552e-6;
const Q5 = -2.01099218183624371326e-7;

/**
 * e^x - 1 without loss near zero, within 1 unit in the last place.
 *
 * @param x any value [-]; NaN gives NaN.
 * @returns e^x - 1 [-].
 * @example expm1(1e-10) // 1.00000000005e-10
 * Source: fdlibm s_expm1.c.
 */
export function expm1(x: number): number {
  if (!(x < 709.782712893384)) return x > 0 ? Infinity : NaN;
  if (x < -38.8162429036404) return -1;
  const a = Math.abs(x);
  let k = 0;
  let r = x;
  let c = 0;
  if (a > 0.34657359027997264) {
    let hi: number;
    let lo: number;
    if (a < 1.0397207708399179) {
      k = Math.sign(x);
      hi = x - k * LN2_HEAD;
      lo = k * LN2_TAIL;
    } else {
      k = Math.trunc(INVERSE_LN2 * x + (x < 0 ? -0.5 : 0.5));
      hi = x - k * LN2_HEAD;
      lo = k * LN2_TAIL;
    }
    r = hi - lo;
    c = hi - r - lo;
  } else if (a < 5.551115123125783e-17) return x;
  const half = 0.5 * r;
  const hxs = r * half;
  const r1 = 1 + hxs * (Q1 + hxs * (Q2 + hxs * (Q3 + hxs * (Q4 + hxs * Q5))));
  let t = 3 - r1 * half;
  let e = hxs * ((r1 - t) / (6 - r * t));
  if (k === 0) return r - (r * e - hxs);
  e = r * (e - c) - c;
  e -= hxs;
  if (k === -1) return 0.5 * (r - e) - 0.5;
  if (k === 1) return r < -0.25 ? -2 * (e - (r + 0.5)) : 1 + 2 * (r - e);
  if (k <= -2 || k > 56) return scaleByPowerOfTwo(1 - (e - r), k) - 1;
  if (k < 20) {
    t = 1 - powerOfTwo(-k);
    return (t - (e - r)) * powerOfTwo(k);
  }
  t = powerOfTwo(-k);
  return (r - (e + t) + 1) * powerOfTwo(k);
}
