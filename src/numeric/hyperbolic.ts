/**
 * sinh, cosh and tanh from the portable exponentials.
 *
 * After fdlibm (e_sinh.c, e_cosh.c, s_tanh.c), which asks for this notice:
 *
 *   Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 *   Developed at SunPro, a Sun Microsystems, Inc. business.
 *   Permission to use, copy, modify, and distribute this software is freely granted,
 *   provided that this notice is preserved.
 */
import { exp, expm1 } from './exponential.ts';

/**
 * Hyperbolic sine, within 2 units in the last place.
 *
 * @param x any value [-]; NaN gives NaN.
 * @returns sinh x [-].
 * @example sinh(1) // 1.1752011936438014
 * Source: fdlibm e_sinh.c.
 */
export function sinh(x: number): number {
  const a = Math.abs(x);
  const h = x < 0 ? -0.5 : 0.5;
  if (a < 22) {
    if (a < 3.725290298461914e-9) return x;
    const t = expm1(a);
    return a < 1 ? h * (2 * t - (t * t) / (t + 1)) : h * (t + t / (t + 1));
  }
  if (a < 709.78) return h * exp(a);
  const w = exp(0.5 * a);
  return h * w * w;
}

/**
 * Hyperbolic cosine, within 2 units in the last place.
 *
 * @param x any value [-]; NaN gives NaN.
 * @returns cosh x [-].
 * @example cosh(1) // 1.543080634815
 * Source: fdlibm e_cosh.c.
 */
export function cosh(x: number): number {
  const a = Math.abs(x);
  if (a < 0.34657359027997264) {
    const t = expm1(a);
    const w = 1 + t;
    return 1 + (t * t) / (w + w);
  }
  if (a < 22) {
    const t = exp(a);
    return 0.5 * t + 0.5 / t;
  }
  if (a < 709.78) return 0.5 * exp(a);
  const w = exp(0.5 * a);
  return 0.5 * w * w;
}

/**
 * Hyperbolic tangent, within 2 units in the last place.
 *
 * @param x any value [-]; NaN gives NaN.
 * @returns tanh x [-].
 * @example tanh(0.5) // 0.46211715726000973
 * Source: fdlibm s_tanh.c.
 */
export function tanh(x: number): number {
  const a = Math.abs(x);
  if (a < 2.7755575615628914e-17 || !(a === a)) return x;
  let z = 1;
  if (a < 22) {
    if (a >= 1) z = 1 - 2 / (expm1(2 * a) + 2);
    else {
      const t = expm1(-2 * a);
      z = -t / (t + 2);
    }
  }
  return x < 0 ? -z : z;
}
