/**
 * asin, acos, atan and atan2 from + - * / and sqrt alone.
 *
 * After fdlibm (e_asin.c, e_acos.c, s_atan.c, e_atan2.c), which asks for this notice:
 *
 *   Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 *   Developed at SunPro, a Sun Microsystems, Inc. business.
 *   Permission to use, copy, modify, and distribute this software is freely granted,
 *   provided that this notice is preserved.
 */
import { headOf } from './bits.ts';

const HALF_PI_HEAD = 1.570796326794896558;
const HALF_PI_TAIL = 6.12323399573676603587e-17;
const QUARTER_PI_HEAD = 7.85398163397448278999e-1;
const PI_HEAD = Math.PI;
const PI_TAIL = 1.2246467991473532e-16;

const P0 = 1.66666666666666657415e-1;
const P1 = -3.25565818622400915405e-1;
const P2 = 2.01212532134862925881e-1;
const P3 = -4.00555345006794114027e-2;
const P4 = 7.91534994289814532176e-4;
const P5 = 3.4793310759602116757e-5;
const Q1 = -2.40339491173441421878;
const Q2 = 2.02094576023350569471;
const Q3 = -6.8828397160545329303e-1;
const Q4 = 7.70381505559019352791e-2;

/** (asin(x) - x)/x^3 as a function of t = x^2. */
function ratio(t: number): number {
  const p = t * (P0 + t * (P1 + t * (P2 + t * (P3 + t * (P4 + t * P5)))));
  const q = 1 + t * (Q1 + t * (Q2 + t * (Q3 + t * Q4)));
  return p / q;
}

/**
 * Angle in -pi/2..pi/2 whose sine is x, within 1 unit in the last place.
 *
 * @param x sine [-], -1..1; outside or NaN gives NaN.
 * @returns angle [rad].
 * @example asin(0.5) // 0.5235987755982989
 * Source: fdlibm e_asin.c.
 */
export function asin(x: number): number {
  const a = Math.abs(x);
  if (!(a <= 1)) return NaN;
  if (a === 1) return x * HALF_PI_HEAD + x * HALF_PI_TAIL;
  if (a < 0.5) {
    if (a < 7.450580596923828e-9) return x;
    return x + x * ratio(x * x);
  }
  const t = (1 - a) * 0.5;
  const r = ratio(t);
  const s = Math.sqrt(t);
  let y: number;
  if (a >= 0.975) {
    y = HALF_PI_HEAD - (2 * (s + s * r) - HALF_PI_TAIL);
  } else {
    const w = headOf(s);
    const c = (t - w * w) / (s + w);
    const p = 2 * s * r - (HALF_PI_TAIL - 2 * c);
    const q = QUARTER_PI_HEAD - 2 * w;
    y = QUARTER_PI_HEAD - (p - q);
  }
  return x > 0 ? y : -y;
}

/**
 * Angle in 0..pi whose cosine is x, within 1 unit in the last place.
 *
 * @param x cosine [-], -1..1; outside or NaN gives NaN.
 * @returns angle [rad].
 * @example acos(0.5) // 1.0471975511965979
 * Source: fdlibm e_acos.c.
 */
export function acos(x: number): number {
  const a = Math.abs(x);
  if (!(a <= 1)) return NaN;
  if (a === 1) return x > 0 ? 0 : PI_HEAD + 2 * HALF_PI_TAIL;
  if (a < 0.5) {
    if (a < 6.938893903907228e-18) return HALF_PI_HEAD + HALF_PI_TAIL;
    return HALF_PI_HEAD - (x - (HALF_PI_TAIL - x * ratio(x * x)));
  }
  const z = (1 - a) * 0.5;
  const s = Math.sqrt(z);
  const r = ratio(z);
  if (x < 0) return PI_HEAD - 2 * (s + (r * s - HALF_PI_TAIL));
  const head = headOf(s);
  const c = (z - head * head) / (s + head);
  return 2 * (head + (r * s + c));
}

const A0 = 3.33333333333329318027e-1;
const A1 = -1.99999999998764832476e-1;
const A2 = 1.42857142725034663711e-1;
const A3 = -1.1111110405462355788e-1;
const A4 = 9.09088713343650656196e-2;
const A5 = -7.69187620504482999495e-2;
const A6 = 6.66107313738753120669e-2;
const A7 = -5.83357013379057348645e-2;
const A8 = 4.97687799461593236017e-2;
const A9 = -3.6531572744216915527e-2;
const A10 = 1.62858201153657823623e-2;

/**
 * Angle in -pi/2..pi/2 whose tangent is x, within 1 unit in the last place.
 *
 * @param x tangent [-], any value, infinities included; NaN gives NaN.
 * @returns angle [rad].
 * @example atan(1) // 0.7853981633974483
 * Source: fdlibm s_atan.c.
 */
export function atan(x: number): number {
  const a = Math.abs(x);
  if (a < 3.725290298461914e-9) return x;
  if (a >= 7.378697629483821e19) {
    return x > 0 ? HALF_PI_HEAD + HALF_PI_TAIL : -HALF_PI_HEAD - HALF_PI_TAIL;
  }
  if (!(a === a)) return NaN;
  // atan(a) = head + tail + atan(t) with a small t.
  let t = a;
  let head = 0;
  let tail = 0;
  if (a >= 2.4375) {
    t = -1 / a;
    head = HALF_PI_HEAD;
    tail = HALF_PI_TAIL;
  } else if (a >= 1.1875) {
    t = (a - 1.5) / (1 + 1.5 * a);
    head = 9.82793723247329054082e-1;
    tail = 1.39033110312309984516e-17;
  } else if (a >= 0.6875) {
    t = (a - 1) / (a + 1);
    head = QUARTER_PI_HEAD;
    tail = 3.06161699786838301793e-17;
  } else if (a >= 0.4375) {
    t = (2 * a - 1) / (2 + a);
    head = 4.63647609000806093515e-1;
    tail = 2.26987774529616870924e-17;
  }
  const z = t * t;
  const w = z * z;
  const s1 = z * (A0 + w * (A2 + w * (A4 + w * (A6 + w * (A8 + w * A10)))));
  const s2 = w * (A1 + w * (A3 + w * (A5 + w * (A7 + w * A9))));
  const y = a < 0.4375 ? t - t * (s1 + s2) : head - (t * (s1 + s2) - tail - t);
  return x < 0 ? -y : y;
}

/**
 * Angle of the point (x, y) from the x axis, in -pi..pi, within 1 unit in the last place.
 *
 * @param y ordinate, any unit shared with x; NaN gives NaN.
 * @param x abscissa.
 * @returns angle [rad]; signed zeros and infinities as in ECMAScript.
 * @example atan2(1, -1) // 2.356194490192345
 * Source: fdlibm e_atan2.c.
 */
export function atan2(y: number, x: number): number {
  if (!(x === x && y === y)) return NaN;
  const xNegative = x < 0 || (x === 0 && 1 / x < 0);
  const yNegative = y < 0 || (y === 0 && 1 / y < 0);
  let angle: number;
  if (y === 0) angle = xNegative ? PI_HEAD : 0;
  else if (x === 0) angle = HALF_PI_HEAD;
  else if (Math.abs(x) === Infinity) {
    const q = Math.abs(y) === Infinity ? QUARTER_PI_HEAD : 0;
    angle = xNegative ? (q === 0 ? PI_HEAD : 3 * QUARTER_PI_HEAD) : q;
  } else if (Math.abs(y) === Infinity) angle = HALF_PI_HEAD;
  else {
    const q = Math.abs(y / x);
    let z: number;
    if (q > 1.152921504606847e18) z = HALF_PI_HEAD;
    else if (xNegative && q < 8.673617379884035e-19) z = 0;
    else z = atan(q);
    angle = xNegative ? PI_HEAD - (z - PI_TAIL) : z;
  }
  return yNegative ? -angle : angle;
}
