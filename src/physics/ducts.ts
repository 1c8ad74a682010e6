/** Laminar friction of duct shapes: the product f Re, Darcy factor and Reynolds number on D_h = 4A/P. */
import { exp } from '../numeric/index.ts';

/** Round tube, exact (Hagen-Poiseuille). */
export const ROUND_F_RE = 64;

/** Regular polygons of 3..12 sides. Own harmonic collocation, error below 1e-4; 3, 4, 6, 8 agree with Shah & London 1978. */
const POLYGON_F_RE = [
  53.3333, 56.9083, 58.9495, 60.2186, 61.0616, 61.6508, 62.0786, 62.3985, 62.6454, 62.839,
];

/** Circle with a roof of strength 0, 1/8 .. 1. Own harmonic collocation, error below 1e-4. */
const TEARDROP_F_RE = [64, 63.8403, 63.6068, 63.3499, 63.0838, 62.8152, 62.5478, 62.2838, 62.0246];

/**
 * Regular polygon.
 *
 * @param sides 3 or more; 3 to 12 from a table, above by 64 - (207.4 - 482/n)/n^2 (fit, within 0.02 %).
 * @example polygonFRe(4) // 56.9083
 * Source: own harmonic collocation, checked against Shah & London 1978.
 */
export function polygonFRe(sides: number): number {
  if (sides <= 12) return POLYGON_F_RE[Math.max(0, Math.round(sides) - 3)];
  return ROUND_F_RE - (207.4 - 482 / sides) / (sides * sides);
}

/**
 * Circle with a roof (teardrop): strength 0 is the plain circle, 1 the full 45-degree roof.
 * Between the tabulated strengths linear, error below 0.03 %.
 *
 * @example teardropFRe(1) // 62.0246
 * Source: own harmonic collocation.
 */
export function teardropFRe(roof: number): number {
  const t = Math.min(1, Math.max(0, roof)) * 8;
  const cell = Math.min(7, Math.trunc(t));
  return TEARDROP_F_RE[cell] + (t - cell) * (TEARDROP_F_RE[cell + 1] - TEARDROP_F_RE[cell]);
}

/**
 * Round-ended slot (obround) of any aspect = long side / short side.
 *
 * With short side 1 the flow per unit pressure gradient and viscosity is
 *   q = c/12 + 0.0175 + 0.007044 exp(-3.05 c),  c = aspect - 1
 * (flat middle as parallel plates, two round ends), and f Re = 2 D_h^2 A/q.
 *
 * @param aspect 1 (circle, 64) upward (parallel plates, 96).
 * @example slotFRe(2) // 68.096
 * Source: form exact at both ends; constants fitted to own harmonic collocation, within 0.03 % for aspect 1..5.
 */
export function slotFRe(aspect: number): number {
  const c = Math.max(0, aspect - 1);
  const area = c + Math.PI / 4;
  const D_h = (4 * area) / (2 * c + Math.PI);
  const q = c / 12 + 0.0175 + 0.007044 * exp(-3.05 * c);
  return (2 * D_h * D_h * area) / q;
}

/**
 * Rectangle, a = short/long.
 *
 *   f Re = 96 (1 - 1.3553 a + 1.9467 a^2 - 1.7012 a^3 + 0.9564 a^4 - 0.2537 a^5)
 *
 * @param a 0..1; error below 0.06 %.
 * @example rectangleFRe(0.5) // 62.2293
 * Source: Shah & London 1978, ch. VII.
 */
export function rectangleFRe(a: number): number {
  return 96 * (1 + a * (-1.3553 + a * (1.9467 + a * (-1.7012 + a * (0.9564 - 0.2537 * a)))));
}
