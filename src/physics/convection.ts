/**
 * Heat from a channel's wall to its air: Nusselt numbers on the hydraulic diameter D_h.
 *
 * x* = L/(D_h Re Pr) is the length that counts in laminar flow (the inverse of the Graetz number).
 */
import { cbrt, log, pow } from '../numeric/index.ts';
import { itoCurvedFriction } from './curved.ts';
import type { WallCondition } from './heat-ducts.ts';
import { FULLY_TURBULENT, LAMINAR_LIMIT } from './friction.ts';

/** Constants of Muzychka & Yovanovich 2004 by wall condition; from memory, checked as stated below. */
const LEVEQUE = { temperature: 0.409, flux: 0.501 } as const;
const ENTRY = { temperature: [0.564, 1.664], flux: [0.886, 1.909] } as const;

/**
 * Coefficient of the entry term of a boundary layer that starts at the inlet.
 *
 *   f(Pr) = a/[1 + (b Pr^(1/6))^(9/2)]^(2/9)
 *
 * @example entryFunction(0.71, 'temperature') // 0.3492
 * Source: Churchill & Ozoe 1973, as used by Muzychka & Yovanovich 2004; from memory.
 */
export function entryFunction(Pr: number, wall: WallCondition): number {
  const [a, b] = ENTRY[wall];
  return a / pow(1 + pow(b * pow(Pr, 1 / 6), 4.5), 2 / 9);
}

/**
 * Exponent that joins the entry term to the rest, m = 2.27 + 1.65 Pr^(1/3).
 *
 * @example entryExponent(0.71) // 3.742
 * Source: Muzychka & Yovanovich 2004; from memory.
 */
export function entryExponent(Pr: number): number {
  return 2.27 + 1.65 * cbrt(Pr);
}

/** What a laminar Nusselt number depends on besides x*. */
export interface LaminarDuct {
  /** Darcy factor times Reynolds number, developed, on D_h. */
  readonly fRe: number;
  /** Developed Nusselt number of this wall condition. */
  readonly developed: number;
  readonly prandtl: number;
  readonly wall: WallCondition;
}

/**
 * Mean Nusselt number from the inlet to x*, velocity and temperature both developing from a
 * uniform inlet; any section.
 *
 *   Nu = [ (2 f(Pr)/sqrt x*)^m + ( {1.5 c (fRe/(4 x*))^(1/3)}^5 + Nu_inf^5 )^(m/5) ]^(1/m)
 *   c = 0.409 (even wall temperature), 0.501 (even flux)
 *
 * The published form is on sqrt(A) and estimates Nu_inf and f Re from a rectangle; here they are the
 * section's own, and on D_h the section enters through them alone.
 *
 * @param x x* > 0. Within -1.7..-4.4 % of an own marching solution (round tube, Pr 0.71, even wall
 *   temperature, x* 4e-4..0.14); other sections: 12 % claimed.
 * @example meanNusselt(1e9, { fRe: 64, developed: 3.657, prandtl: 0.71, wall: 'temperature' }) // 3.657
 * Source: Muzychka & Yovanovich 2004, J. Heat Transfer 126:54; constants from memory.
 */
export function meanNusselt(x: number, duct: LaminarDuct): number {
  const { prandtl: Pr, wall } = duct;
  const m = entryExponent(Pr);
  const entry = (2 * entryFunction(Pr, wall)) / Math.sqrt(x);
  return pow(pow(entry, m) + pow(thermalEntryNusselt(x, duct), m), 1 / m);
}

/**
 * Mean Nusselt number from the inlet to x* for a velocity profile that is developed already.
 *
 *   Nu = ( {1.5 c (fRe/(4 x*))^(1/3)}^5 + Nu_inf^5 )^(1/5)
 *
 * @example thermalEntryNusselt(0.01, { fRe: 64, developed: 3.657, prandtl: 0.71, wall: 'temperature' }) // 7.2242
 * Source: Leveque 1928 joined to the developed value as in Muzychka & Yovanovich 2004.
 */
export function thermalEntryNusselt(x: number, duct: LaminarDuct): number {
  const leveque = 1.5 * LEVEQUE[duct.wall] * cbrt(duct.fRe / (4 * x));
  return pow(pow(leveque, 5) + pow(duct.developed, 5), 0.2);
}

/**
 * Developed laminar Nusselt number of a curved round tube, even wall temperature or even flux.
 *
 *   T:  { [3.657 + 4.343/(1 + 957/(De^2 Pr))^2]^3 + 1.158 [De/(1 + 0.477/Pr)]^1.5 }^(1/3)
 *   H1: { [4.364 + 4.636/(1 + 1342/(De^2 Pr))^2]^3 + 1.816 [De/(1 + 1.15/Pr)]^1.5 }^(1/3)
 *
 * @param De Re sqrt(D/(2R)), 0..2000. Another published form (Schmidt 1967) gives some 15-20 % less
 *   at De 150..450: take the rise as good to 20 %.
 * @example curvedNusselt(316.2278, 0.71, 'temperature') // 15.187
 * Source: Manlapaz & Churchill 1981, Chem. Eng. Commun. 9:185; from memory.
 */
export function curvedNusselt(De: number, Pr: number, wall: WallCondition): number {
  const square = De * De * Pr;
  if (!(square > 0)) return wall === 'temperature' ? 3.657 : 48 / 11;
  const isT = wall === 'temperature';
  const onset = 1 + (isT ? 957 : 1342) / square;
  const base = isT ? 3.657 + 4.343 / (onset * onset) : 48 / 11 + 4.636 / (onset * onset);
  const ratio = De / (1 + (isT ? 0.477 : 1.15) / Pr);
  return cbrt(base * base * base + (isT ? 1.158 : 1.816) * ratio * Math.sqrt(ratio));
}

/**
 * Turbulent Nusselt number of a long smooth tube.
 *
 *   Nu = (f/8)(Re - 1000) Pr/[1 + 12.7 sqrt(f/8)(Pr^(2/3) - 1)],  f = (0.79 ln Re - 1.64)^-2
 *
 * @param Re 4000 to 5e6.
 * @example gnielinskiNusselt(10000, 0.71) // 30.028
 * Source: Gnielinski 1976 with the friction of Petukhov 1970; about 10 %.
 */
export function gnielinskiNusselt(Re: number, Pr: number): number {
  const root = 0.79 * log(Re) - 1.64;
  const eighth = 1 / (8 * root * root);
  const third = cbrt(Pr);
  return (eighth * (Re - 1000) * Pr) / (1 + 12.7 * Math.sqrt(eighth) * (third * third - 1));
}

/**
 * Turbulent Nusselt number of a long curved tube over that of a straight one, by the analogy of heat
 * and momentum: as the friction rises, so does the heat transfer.
 *
 *   max(1, f_curved/f_straight),  f_curved after Ito 1959, f_straight = (0.79 ln Re - 1.64)^-2
 *
 * @param Re above 4000. @param ratio D/(2R) >= 0; 0 is straight.
 * @example turbulentRise(10000, 0.1) // 1.257
 * @example turbulentRise(10000, 0) // 1
 * Source: analogy as in Seban & McLaughlin 1963; a published fit for gases (Mori & Nakayama 1967) gives
 * about 1.6 there and does not tend to 1 in straight tubes, which a search would exploit.
 */
export function turbulentRise(Re: number, ratio: number): number {
  if (!(ratio > 0)) return 1;
  const root = 0.79 * log(Re) - 1.64;
  // Below y = Re ratio^2 of 0.034 the fit was not measured; it stays under the straight value there.
  return Math.max(1, itoCurvedFriction(Re, ratio) * root * root);
}

/**
 * Mean Nusselt number of a straight channel at any Reynolds number: laminar to 2300, turbulent from
 * 4000, straight line in Re between, so that no flow is favoured by a jump.
 *
 *   turbulent: Gnielinski times 1 + (D_h/L)^(2/3)
 *
 * @param slender L/D_h, > 0; tested above 1, shorter channels are extrapolated.
 * @example channelNusselt(10000, 10, { fRe: 64, developed: 3.657, prandtl: 0.71, wall: 'temperature' }) // 36.497
 * Source: Gnielinski 2013, Int. J. Heat Mass Transfer 63:134 (interpolation); laminar `meanNusselt`.
 */
export function channelNusselt(Re: number, slender: number, duct: LaminarDuct): number {
  const laminar = (at: number): number => meanNusselt(slender / (at * duct.prandtl), duct);
  if (Re <= LAMINAR_LIMIT) return laminar(Re);
  const short = cbrt(1 / slender);
  const entrance = 1 + short * short;
  const turbulent = (at: number): number => gnielinskiNusselt(at, duct.prandtl) * entrance;
  if (Re >= FULLY_TURBULENT) return turbulent(Re);
  const w = (Re - LAMINAR_LIMIT) / (FULLY_TURBULENT - LAMINAR_LIMIT);
  return (1 - w) * laminar(LAMINAR_LIMIT) + w * turbulent(FULLY_TURBULENT);
}
