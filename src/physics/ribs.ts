/**
 * Ribs across the stream on a channel's wall: more friction, and in turbulent flow more heat transfer.
 * Saw teeth are taken as the ribs of the published tests, whose section was rectangular.
 */
import { cbrt, exp, log, log10, pow } from '../numeric/index.ts';
import { gnielinskiNusselt } from './convection.ts';
import { FULLY_TURBULENT, LAMINAR_LIMIT, blendedFriction, turbulentShare } from './friction.ts';

/** Ribs all around a wall. */
export interface Ribs {
  /** Height over the diameter between the feet [-]. */
  readonly height: number;
  /** Distance from rib to rib over their height [-]. */
  readonly pitch: number;
}

/** Range of the tests behind the correlations (Webb, Eckert & Goldstein 1971, from memory). */
export const RIB_RANGE = {
  height: { min: 0.01, max: 0.04 },
  pitch: { min: 10, max: 40 },
  reynolds: { min: 6000, max: 100_000 },
  /** Height in wall units from which on viscosity no longer counts [-]. */
  roughFrom: 35,
} as const;
/** From here on the heat transfer begins to follow the correlation. */
const HEAT_FROM = 25;
/** Below this the index is that of this Reynolds number at most. */
const INDEX_FROM = 10_000;
/** Most of (Nu/Nu0)/(f/f0)^(1/3) below that height. */
const ROUGHNESS_INDEX = 1.2;
/** Least sqrt(8/f), for ribs far beyond any test. */
const LEAST_ROOT = 1;

/**
 * Darcy factor of a ribbed tube, fully rough flow.
 *
 *   sqrt(8/f) = 2.5 ln(1/(2 e/D)) - 3.75 + 0.95 (p/e)^0.53
 *
 * @param ribs e/D 0.01..0.04, p/e 10..40, e+ above 35 (`ribHeightPlus`).
 * @example ribRoughFriction({ height: 0.04, pitch: 10 }) // 0.2391841
 * @example ribRoughFriction({ height: 0.02, pitch: 10 }) // 0.1416095
 * Source: Webb, Eckert & Goldstein 1971, Int. J. Heat Mass Transfer 14:601; constants from memory.
 */
export function ribRoughFriction({ height, pitch }: Ribs): number {
  const root = 2.5 * log(1 / (2 * height)) - 3.75 + 0.95 * pow(pitch, 0.53);
  const bounded = Math.max(LEAST_ROOT, root);
  return 8 / (bounded * bounded);
}

/**
 * Height of the ribs in wall units, e+ = (e/D) Re sqrt(f/8), f fully rough.
 *
 * @example ribHeightPlus(10000, { height: 0.04, pitch: 10 }) // 69.16417
 */
export function ribHeightPlus(Re: number, ribs: Ribs): number {
  return ribs.height * Re * Math.sqrt(ribRoughFriction(ribs) / 8);
}

/**
 * Nusselt number of a ribbed tube.
 *
 *   St = (f/8)/(1 + sqrt(f/8) [4.5 (e+)^0.28 Pr^0.57 - 0.95 (p/e)^0.53]),  Nu = St Re Pr
 *
 * @param ribs as for `ribRoughFriction`; Pr 0.71..38 in the tests.
 * @example ribNusselt(10000, 0.71, { height: 0.04, pitch: 10 }) // 83.58881
 * @example ribNusselt(20000, 0.71, { height: 0.04, pitch: 40 }) // 99.02284
 * Source: Webb, Eckert & Goldstein 1971; constants from memory.
 */
export function ribNusselt(Re: number, Pr: number, ribs: Ribs): number {
  const eighth = ribRoughFriction(ribs) / 8;
  const plus = ribHeightPlus(Re, ribs);
  const layer = 4.5 * pow(plus, 0.28) * pow(Pr, 0.57) - 0.95 * pow(ribs.pitch, 0.53);
  return (eighth * Re * Pr) / (1 + Math.sqrt(eighth) * layer);
}

/**
 * What ribs add to the argument (e/3.7)^1.11 + 6.9/Re of Haaland's turbulent friction.
 *
 *   10^(-1/(1.8 sqrt f)),  f = ribRoughFriction
 *
 * so that a great Reynolds number gives the fully rough value and vanishing ribs the smooth one.
 * Within 2 % of the correlation from e+ = 35 on. Ribs closer than p/e = 10, over which the stream
 * skims, keep the friction of 10; it falls there in truth.
 *
 * @example ribRoughness({ height: 0, pitch: 10 }) // 0
 * Source: own joining of Webb, Eckert & Goldstein 1971 to Haaland 1983.
 */
export function ribRoughness({ height, pitch }: Ribs): number {
  if (!(height > 0)) return 0;
  const rough = ribRoughFriction({ height, pitch: Math.max(pitch, RIB_RANGE.pitch.min) });
  return exp(-Math.LN10 / (1.8 * Math.sqrt(rough)));
}

/**
 * Rise of laminar friction by ribs.
 *
 *   1 + ((1 - 2 e/D)^-4 - 1) min(1, 10 e/p)
 *
 * @example ribLaminarRise({ height: 0.1, pitch: 10 }) // 2.44140625
 * @example ribLaminarRise({ height: 0, pitch: 10 }) // 1
 * Source: constricted diameter D - 2 e (Kandlikar 2005, closely set roughness); that ribs further
 * apart than ten heights count by their share: own heuristic.
 */
export function ribLaminarRise({ height, pitch }: Ribs): number {
  const open = 1 - 2 * height;
  const square = open * open;
  return 1 + (1 / (square * square) - 1) * Math.min(1, RIB_RANGE.pitch.min / pitch);
}

/**
 * Friction with ribs over friction without, at any Reynolds number: laminar `ribLaminarRise`,
 * turbulent Haaland with `ribRoughness`, the same passage between as in `blendedFriction`.
 *
 * @param fRe laminar f Re of the section. @param roughness of the wall itself, eps/D.
 * @returns 1 or more; 1 for ribs of no height.
 * @example ribbedFriction(20000, { height: 0.04, pitch: 20 }, 64, 0).toFixed(2) // '6.01'
 * @example ribbedFriction(1000, { height: 0, pitch: 10 }, 64, 0) // 1
 */
export function ribbedFriction(Re: number, ribs: Ribs, fRe: number, roughness: number): number {
  if (!(ribs.height > 0)) return 1;
  const laminar = ribLaminarRise(ribs);
  if (Re <= LAMINAR_LIMIT) return laminar;
  const w = turbulentShare(Re);
  const at = Math.max(Re, FULLY_TURBULENT);
  const wall = roughness > 0 ? pow(roughness / 3.7, 1.11) : 0;
  const inverse = -1.8 * log10(wall + ribRoughness(ribs) + 6.9 / at);
  const turbulent = 1 / (inverse * inverse);
  const ribbed = ((1 - w) * laminar * fRe) / LAMINAR_LIMIT + w * turbulent;
  return ribbed / blendedFriction(Re, roughness, fRe);
}

/**
 * Heat transfer with ribs over heat transfer without, at any Reynolds number.
 *
 * - Laminar: 1. Low ribs stand in slow air; no gain is credited.
 * - Turbulent, e+ above 35: `ribNusselt` over Gnielinski; below 25 a rough wall,
 *   (f/f0)^(0.68 Pr^0.215) for f/f0 up to 4, capped at (Nu/Nu0)/(f/f0)^(1/3) = 1.2; a smooth
 *   passage between 25 and 35. Below Re 10000 the index is at most that of Re 10000: towards 4000
 *   Gnielinski's smooth value falls faster than tests on ribs would bear out.
 * - Between Re 2300 and 4000 a straight line, as for smooth channels.
 * - Beyond the tests: no more gain than at e/D = 0.04; less in proportion to p/e below 10 (the stream
 *   skims over) and to 40 e/p above 40.
 *
 * @returns 1 or more; 1 for ribs of no height.
 * @example ribbedHeat(10000, 0.71, { height: 0.04, pitch: 10 }) // 2.78371
 * @example ribbedHeat(20000, 0.71, { height: 0.04, pitch: 20 }) // 2.318709
 * @example ribbedHeat(1500, 0.71, { height: 0.04, pitch: 10 }) // 1
 * Source: Webb, Eckert & Goldstein 1971; rough walls Norris 1970 (from memory); cap, passages and
 * what holds beyond the tests: own heuristic.
 */
export function ribbedHeat(Re: number, Pr: number, ribs: Ribs): number {
  if (!(ribs.height > 0) || Re <= LAMINAR_LIMIT) return 1;
  const w = Math.min(1, (Re - LAMINAR_LIMIT) / (FULLY_TURBULENT - LAMINAR_LIMIT));
  const { pitch, height } = RIB_RANGE;
  const tested: Ribs = {
    height: Math.min(ribs.height, height.max),
    pitch: Math.min(pitch.max, Math.max(pitch.min, ribs.pitch)),
  };
  const rise = turbulentRise(Math.max(Re, FULLY_TURBULENT), Pr, tested);
  const spaced = Math.min(1, ribs.pitch / pitch.min) * Math.min(1, pitch.max / ribs.pitch);
  return 1 + w * spaced * Math.max(0, rise - 1);
}

function turbulentRise(Re: number, Pr: number, ribs: Ribs): number {
  const friction = ribbedFriction(Re, ribs, 64, 0);
  const most =
    Re < INDEX_FROM ? turbulentIndex(INDEX_FROM, Pr, ribs) * cbrt(friction) : Number.MAX_VALUE;
  const norris = pow(Math.min(4, friction), 0.68 * pow(Pr, 0.215));
  const rough = Math.min(norris, ROUGHNESS_INDEX * cbrt(friction));
  const t = (ribHeightPlus(Re, ribs) - HEAT_FROM) / (RIB_RANGE.roughFrom - HEAT_FROM);
  if (t <= 0) return rough;
  const webb = Math.min(most, ribNusselt(Re, Pr, ribs) / gnielinskiNusselt(Re, Pr));
  if (t >= 1) return webb;
  return rough + t * t * (3 - 2 * t) * (webb - rough);
}

/** Index of fully rough ribs at a Reynolds number. */
function turbulentIndex(Re: number, Pr: number, ribs: Ribs): number {
  const heat = ribNusselt(Re, Pr, ribs) / gnielinskiNusselt(Re, Pr);
  return pumpingIndex(heat, ribbedFriction(Re, ribs, 64, 0));
}

/**
 * Gain of heat transfer at equal pumping power.
 *
 *   eta = (Nu/Nu0)/(f/f0)^(1/3)
 *
 * @example pumpingIndex(2.78371, 7.598019) // 1.41598
 * Source: definition of Webb 1981 and Gee & Webb 1980 (Int. J. Heat Mass Transfer 23:1127).
 */
export function pumpingIndex(heat: number, friction: number): number {
  return heat / cbrt(friction);
}

/** In which ways ribs leave the tests behind the correlations, in words; none when they do not. */
export function ribDoubts(Re: number, ribs: Ribs): string[] {
  const { height, pitch, reynolds, roughFrom } = RIB_RANGE;
  const doubts: string[] = [];
  const plus = ribHeightPlus(Re, ribs);
  if (Re <= LAMINAR_LIMIT) {
    doubts.push(`laminar (Re ${Re.toFixed(0)}): more friction, no gain in heat transfer credited`);
  } else if (plus < roughFrom) {
    doubts.push(`e+ ${plus.toFixed(0)} is below ${roughFrom}: taken as roughness, index capped`);
  }
  if (Re > LAMINAR_LIMIT && leaves(Re, reynolds)) {
    doubts.push(`Re ${Re.toFixed(0)} outside ${reynolds.min}..${reynolds.max}`);
  }
  if (leaves(ribs.height, height)) {
    doubts.push(`height over bore ${ribs.height.toFixed(3)} outside ${height.min}..${height.max}`);
  }
  if (leaves(ribs.pitch, pitch)) {
    doubts.push(`pitch over height ${ribs.pitch.toFixed(1)} outside ${pitch.min}..${pitch.max}`);
  }
  return doubts;
}

/** Whether a value lies outside a range by more than rounding. */
function leaves(
  value: number,
  { min, max }: { readonly min: number; readonly max: number },
): boolean {
  return value < min * (1 - 1e-9) || value > max * (1 + 1e-9);
}
