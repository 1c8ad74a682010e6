/** Friction of curved channels: secondary flow. Dean number De = Re sqrt(D_h/(2R)). */
import { pow } from '../numeric/index.ts';

/**
 * Laminar friction of a long curved tube over that of a straight one.
 *
 *   M = 1/{1 - [1 - (11.6/De)^0.45]^(1/0.45)},  1 below De 11.6
 *
 * @param De Dean number; measured for 11.6..2000 and R/D > 7.5, beyond that extrapolated.
 * @example whiteFactor(100) // 1.53023
 * Source: White 1929, Proc. R. Soc. A 123:645.
 */
export function whiteFactor(De: number): number {
  if (De <= 11.6) return 1;
  return 1 / (1 - pow(1 - pow(11.6 / De, 0.45), 1 / 0.45));
}

/**
 * Turbulent Darcy factor of a long curved tube.
 *
 *   y = Re (D/2R)^2;  f = (0.029 + 0.304 y^-0.25)/sqrt(2R/D) up to y = 300,  0.316 y^-0.2/sqrt(2R/D) above
 *
 * @param ratio D/(2R) [-].
 * @example itoCurvedFriction(10000, 0.1) // 0.0395706
 * Source: Ito 1959, J. Basic Eng. 81:123 (y > 0.034); from memory, within 3.1 % of Mori & Nakayama 1967.
 */
export function itoCurvedFriction(Re: number, ratio: number): number {
  const y = Re * ratio * ratio;
  const rise = y > 300 ? 0.316 * pow(y, -0.2) : 0.029 + 0.304 / Math.sqrt(Math.sqrt(y));
  return rise * Math.sqrt(ratio);
}

/**
 * Inverse of the arc length over which secondary flow follows a change of curvature [1/m].
 *
 *   lag = min(3 D_h, sqrt(R D_h))
 *
 * Centrifugal acceleration U^2/R carries fluid across D_h while the stream moves on by about
 * sqrt(R D_h): the development length of flow in a bend (scaling of Yao & Berger 1975, J. Fluid
 * Mech. 67:177; from memory). The cap of 3 D_h is an own heuristic for nearly straight stretches,
 * where what was set up before fades. Looked at on computed flows (tests/reference/cfd.test.ts):
 * fixed lags of 3, 2 and 1 D_h give -11..+8, -8..+11 and -3..+16 % on the steady bends there, this
 * one -3..+12 %, and it is the best of them on the unsteady tight bends.
 *
 * @example inverseLag(1, 1) // 1
 */
export function inverseLag(curvature_per_m: number, D_h_m: number): number {
  return Math.max(1 / (3 * D_h_m), Math.sqrt(curvature_per_m / D_h_m));
}
