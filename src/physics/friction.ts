/** Wall friction of straight ducts: Darcy factor (four times the Fanning factor) everywhere. */
import { log10, pow } from '../numeric/index.ts';

/** Below this Reynolds number flow is treated as laminar, above FULLY_TURBULENT as turbulent. */
export const LAMINAR_LIMIT = 2300;
export const FULLY_TURBULENT = 4000;

/**
 * Share of turbulent behaviour, 0 below Re 2300 and 1 above 4000, without a kink.
 *
 *   w = t^2 (3 - 2 t),  t = (Re - 2300)/1700
 *
 * @example turbulentShare(3150) // 0.5
 * Source: own heuristic, after the interpolation of Gnielinski 2013 for heat transfer (linear there).
 */
export function turbulentShare(Re: number): number {
  if (Re <= LAMINAR_LIMIT) return 0;
  if (Re >= FULLY_TURBULENT) return 1;
  const t = (Re - LAMINAR_LIMIT) / (FULLY_TURBULENT - LAMINAR_LIMIT);
  return t * t * (3 - 2 * t);
}

/**
 * Turbulent friction, explicit form; within 1.3 % of Colebrook for Re 4e3..2e4.
 *
 *   1/sqrt f = -1.8 log10[(e/3.7)^1.11 + 6.9/Re]
 *
 * @example haalandFriction(10000, 0.01) // 0.0430449
 * Source: Haaland 1983, J. Fluids Eng. 105:89.
 */
export function haalandFriction(Re: number, e: number): number {
  const rough = e > 0 ? pow(e / 3.7, 1.11) : 0;
  const inverse = -1.8 * log10(rough + 6.9 / Re);
  return 1 / (inverse * inverse);
}

/**
 * Fully developed friction at any Reynolds number: laminar fRe/Re, turbulent Haaland, and between
 * 2300 and 4000 a smooth passage from fRe/2300 to Haaland at 4000, so that no flow is favoured by a jump.
 *
 * @param fRe laminar product of Darcy factor and Reynolds number, both on D_h [-].
 * @example blendedFriction(1000, 0, 64) // 0.064
 * Source: ends from handbooks; passage is an own heuristic, friction there is known to +-30 % only.
 */
export function blendedFriction(Re: number, e: number, fRe: number): number {
  if (Re <= LAMINAR_LIMIT) return fRe / Re;
  if (Re >= FULLY_TURBULENT) return haalandFriction(Re, e);
  const w = turbulentShare(Re);
  return ((1 - w) * fRe) / LAMINAR_LIMIT + w * haalandFriction(FULLY_TURBULENT, e);
}
