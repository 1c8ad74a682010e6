/** Losses of single bends, beyond the wall friction of their arc. */
import { exp, log, pow, sin } from '../numeric/index.ts';
import { FULLY_TURBULENT, haalandFriction } from './friction.ts';
import { readTable, tabulate } from './table.ts';

/** Least R/D the terms are read at; the formula's own limit. */
const TIGHTEST = 0.5;

/**
 * Separation and swirl of a smooth round bend, as K = base + slope f with Darcy factor f; the arc's
 * own friction f th R/D is left out because it is summed along the centreline.
 *
 *   base  = 0.10 sin(th/2)
 *   slope = 2.4 sin(th/2) + 6.6 [sqrt(sin(th/2)) + sin(th/2)]/(R/D)^(4 th/pi)
 *
 * Below 20 degrees, where the root would make many small turns dearer than one large one, the terms
 * are faded by sqrt(th/20 deg) (own heuristic).
 *
 * @param angle_rad th, 0..pi. @param tightness R/D, centreline radius over bore; below 0.5 taken as 0.5.
 * @param out receives base and slope.
 * Source: Rennels & Hudson 2012, Pipe Flow, ch. 15 (turbulent, R/D >= 0.5).
 */
function bendTerms(angle_rad: number, tightness: number, out: Float64Array): void {
  const s = sin(angle_rad / 2);
  const fade = smallTurnFade(angle_rad);
  out[0] = 0.1 * s * fade;
  const spread = exp(-((4 * angle_rad) / Math.PI) * log(Math.max(TIGHTEST, tightness)));
  out[1] = (2.4 * s + 6.6 * (Math.sqrt(s) + s) * spread) * fade;
}

/** Turn below which a bend's terms fade to zero in proportion to it [rad], 20 degrees. */
const SMALL_TURN = Math.PI / 9;

/** Fade of the terms for small turns: with sqrt(sin(th/2)) it makes them proportional to th. */
function smallTurnFade(angle_rad: number): number {
  return angle_rad < SMALL_TURN ? Math.sqrt(angle_rad / SMALL_TURN) : 1;
}

/** sin(th/2), ln(R/D) over sqrt(D/R) down to R/D = 400, and exp: the pieces of `bendTerms`. */
export const HALF_SINE = tabulate((x) => sin(x / 2), 0, Math.PI, 64);
export const LOG_TIGHTNESS = tabulate((x) => -2 * log(x), 0.05, Math.sqrt(1 / TIGHTEST), 256);
export const SPREAD = tabulate(exp, -16, 3, 256);

/** `bendTerms` from tables, within 1e-4 for R/D up to 400, where bends no longer count. */
export function bendTermsFast(angle_rad: number, tightness: number, out: Float64Array): void {
  const s = Math.max(0, readTable(HALF_SINE, angle_rad));
  const turn = readTable(LOG_TIGHTNESS, Math.sqrt(1 / Math.max(TIGHTEST, tightness)));
  const spread = readTable(SPREAD, -(4 / Math.PI) * angle_rad * turn);
  const fade = smallTurnFade(angle_rad);
  out[0] = 0.1 * s * fade;
  out[1] = (2.4 * s + 6.6 * (Math.sqrt(s) + s) * spread) * fade;
}

/**
 * Separation loss of a bend at any Reynolds number.
 *
 *   K = (base + slope f_Haaland(max(Re, 4000))) Re/(Re + 500)
 *
 * @example separationLoss(10000, 1, Math.PI / 2, 0) // 0.4178
 * Source: Rennels & Hudson 2012; the fade with Re below 4000 is an own heuristic: published laminar
 * bend losses differ by a factor 3 to 5, so this is of ranking grade.
 */
export function separationLoss(
  Re: number,
  tightness: number,
  angle_rad: number,
  e: number,
): number {
  const terms = new Float64Array(2);
  bendTerms(angle_rad, tightness, terms);
  const f = haalandFriction(Math.max(Re, FULLY_TURBULENT), e);
  return (terms[0] + terms[1] * f) * (Re / (Re + 500));
}

/**
 * Total loss of a smooth 90-degree bend by an independent correlation, for cross-checks.
 *
 *   K = 0.00431 a 90 Re^-0.17 (R/D)^0.84,  a = 0.95 + 4.42 (R/D)^-1.96,  Re (D/R)^2 > 364
 *
 * @example itoQuarterBend(10000, 2) // 0.30263
 * Source: Ito 1960, J. Basic Eng. 82:131.
 */
export function itoQuarterBend(Re: number, tightness: number): number {
  const a = 0.95 + 4.42 * pow(tightness, -1.96);
  return 0.00431 * a * 90 * pow(Re, -0.17) * pow(tightness, 0.84);
}
