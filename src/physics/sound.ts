/** Sound in small channels: bands, damping at the wall, mass of the openings, cut-on, flow noise. */
import { exp, log, log10 } from '../numeric/index.ts';
import type { Air } from './air.ts';

/** Centres of the octave bands [Hz], IEC 61260-1. */
export const OCTAVE_BANDS_Hz = [63, 125, 250, 500, 1000, 2000, 4000, 8000] as const;

/** Lowest eigenvalue of cross modes in a round duct: first zero of J1' [-]; exact. */
const FIRST_CROSS_MODE = 1.8411837813;

/**
 * A frequency within an octave band: the middle of one of `count` equal parts on a logarithmic scale.
 *
 * @param centre_Hz nominal centre; the band spans a factor of 2 about it.
 * @example bandFrequency(1000, 0, 1) // 1000
 * @example bandFrequency(1000, 1, 2) // 1189.2071
 */
export function bandFrequency(centre_Hz: number, part: number, count: number): number {
  return centre_Hz * exp(Math.LN2 * ((part + 0.5) / count - 0.5));
}

/**
 * Transmission loss [dB] of a share of sound power.
 *
 * @example transmissionLoss(0.1) // 10
 */
export function transmissionLoss(powerShare: number): number {
  return -10 * log10(powerShare);
}

/**
 * Damping of plane waves by friction and heat at the wall of a wide tube, over sqrt(frequency) and
 * per radius: alpha = w sqrt(f)/a.
 *
 *   alpha = sqrt(omega nu/2)/(a c) [1 + (gamma - 1)/sqrt(Pr)]  [Np/m]
 *
 * The same term delays the wave, k = omega/c + (1 - j) alpha, and lifts the characteristic impedance
 * by 1 + (1 - j) e, e = (alpha_friction - alpha_heat)/(omega/c).
 *
 * @param radius_m a: twice area over perimeter. Range: a sqrt(omega/nu) above 10; narrower tubes are
 * damped more (Zwikker & Kosten 1949).
 * @param out receives alpha [Np/m] and e [-].
 * Source: Kirchhoff 1868, wide tube; Pierce, Acoustics (1981), chapter 10; from memory. gamma 1.4.
 */
export function wallDamping(
  air: Air,
  frequency_Hz: number,
  radius_m: number,
  out: Float64Array,
): void {
  const omega = 2 * Math.PI * frequency_Hz;
  const friction =
    Math.sqrt(0.5 * omega * air.kinematicViscosity_m2_per_s) / (radius_m * air.soundSpeed_m_per_s);
  const heat = (friction * 0.4) / Math.sqrt(air.prandtl);
  out[0] = friction + heat;
  out[1] = ((friction - heat) * air.soundSpeed_m_per_s) / omega;
}

/**
 * Radius over thickness of the boundary layer of an oscillation: a sqrt(omega/nu) [-].
 *
 * @example shearNumber(0.001, 1000, 1.5e-5) // 20.4665
 */
export function shearNumber(
  radius_m: number,
  frequency_Hz: number,
  viscosity_m2_per_s: number,
): number {
  return radius_m * Math.sqrt((2 * Math.PI * frequency_Hz) / viscosity_m2_per_s);
}

/**
 * How much of the end correction of a lone opening is left among neighbours [0..1].
 *
 *   1 - 1.4092 x + .33818 x^3 + .06793 x^5 - .02287 x^6 + .03015 x^7 - .01641 x^8
 *
 * @param share x: opening over cell, as a ratio of diameters: sqrt(area/cell area). 1 in a wide wall
 * for x = 0, none where the opening fills its cell.
 * @example neighbourFactor(0) // 1
 * @example neighbourFactor(0.5) // 0.3396
 * Source: Fok 1941, series as used by Melling 1973 (J. Sound Vib. 29:1); from memory. At x = 1 the
 * series ends at -.012, read as 0.
 */
export function neighbourFactor(share: number): number {
  const x = Math.min(1, share);
  const cube = x * x * x;
  const tail = 0.06793 + x * (-0.02287 + x * (0.03015 - 0.01641 * x));
  return Math.max(0, 1 - 1.4092 * x + cube * (0.33818 + x * x * tail));
}

/**
 * Length by which the air in front of an opening lengthens the plug within [m].
 *
 *   8/(3 pi) a neighbourFactor,  a = sqrt(S/pi)
 *
 * @param area_m2 S of the opening; openings up to 3 : 1 count as round ones of the same area.
 * @param cell_m2 part of the plate's face that belongs to the opening.
 * @example endLength(Math.PI, 1e12) // 0.848824
 * Source: piston in a wide wall (Rayleigh); Ingard 1953 for openings in plates.
 */
export function endLength(area_m2: number, cell_m2: number): number {
  const radius = Math.sqrt(area_m2 / Math.PI);
  return (8 / (3 * Math.PI)) * radius * neighbourFactor(Math.sqrt(area_m2 / cell_m2));
}

/**
 * Frequency above which a channel carries more than plane waves [Hz]: 1.841 c/(pi D).
 *
 * @param width_m widest opening across, wall to wall; exact for round ducts, safe for others.
 * @example cutOnFrequency(0.005, 343.2) // 40228
 */
export function cutOnFrequency(width_m: number, soundSpeed_m_per_s: number): number {
  return (FIRST_CROSS_MODE * soundSpeed_m_per_s) / (Math.PI * width_m);
}

/** Area at which a speed of 1 m/s reads 0 dB of `flowNoiseIndex` [mm2]; arbitrary. */
const INDEX_AREA_mm2 = 100;

/**
 * Index of the noise that air makes in openings, against 1 m/s through 100 mm2.
 *
 *   10 log10( sum A U^n / (100 mm2 (1 m/s)^n) )   [dB]
 *
 * An index, not a level: how loud a given flow is depends on edges, turbulence and the room.
 *
 * @param weighted_mm2 sum of area times speed to the power n, in mm2 (m/s)^n.
 * @example flowNoiseIndex(100) // 0
 * Source: powers n of Curle 1955 (6: wall dipoles), Ffowcs Williams & Hall 1970 (5: edges),
 * Lighthill 1952 (8: free turbulence); the sum over openings is a heuristic.
 */
export function flowNoiseIndex(weighted_mm2: number): number {
  return 10 * log10(weighted_mm2 / INDEX_AREA_mm2);
}

/**
 * Speed to a power.
 *
 * @example speedPower(2, 6) // 64
 */
export function speedPower(speed_m_per_s: number, exponent: number): number {
  return speed_m_per_s > 0 ? exp(exponent * log(speed_m_per_s)) : 0;
}

/** Sharp-edged holes so many diameters long can whistle, at Strouhal numbers f t/U in this range. */
const WHISTLE = { shortest: 0.5, longest: 2, leastStrouhal: 0.2, mostStrouhal: 0.35 };

/**
 * Frequencies at which a sharp-edged hole may whistle [Hz], or null where it is too short or too long.
 *
 *   f = St U/t,  St .2 to .35, t/D .5 to 2
 *
 * @param length_m t @param bore_m D @param speed_m_per_s U in the hole.
 * @example whistleRange(0.005, 0.005, 10) // [400, 700]
 * Source: hole tones of thick orifices, from memory; the ranges are rough.
 */
export function whistleRange(
  length_m: number,
  bore_m: number,
  speed_m_per_s: number,
): readonly [number, number] | null {
  const slenderness = length_m / bore_m;
  if (slenderness < WHISTLE.shortest || slenderness > WHISTLE.longest) return null;
  const rate = speed_m_per_s / length_m;
  return [WHISTLE.leastStrouhal * rate, WHISTLE.mostStrouhal * rate];
}
