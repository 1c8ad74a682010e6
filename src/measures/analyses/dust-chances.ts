/** Chances of a grain: to miss the wall, to find a pocket's mouth, to stay in it. */
import { radians } from '../../numeric/index.ts';

/** Reach of the outer strip on each side of its middle: 60 degrees, own heuristic. */
const STRIP_rad = radians(60);

/**
 * Arc cosine within 7e-5, a sixth of the time of the exact one: asked per class and step beside a
 * pocket's mouth.
 *
 *   acos x = sqrt(1 - x) (a0 + a1 x + a2 x^2 + a3 x^3),  0 <= x <= 1
 *
 * Source: Abramowitz & Stegun 1964, Handbook of Mathematical Functions, 4.4.45 (from memory, tested).
 */
function roughAcos(cosine: number): number {
  const x = Math.min(1, Math.abs(cosine));
  const angle = Math.sqrt(1 - x) * (1.5707288 + x * (-0.2121144 + x * (0.074261 - x * 0.0187293)));
  return cosine < 0 ? Math.PI - angle : angle;
}

/**
 * Part of the outer strip that a mouth takes, from the cosine of the angle between their middles.
 *
 * @example mouthCover(1, 2.0943951024) // 1
 * @example mouthCover(-1, 1) // 0
 */
export function mouthCover(cosine: number, width_rad: number): number {
  const off = roughAcos(cosine);
  const overlap = Math.min(STRIP_rad + 0.5 * width_rad - off, 2 * STRIP_rad, width_rad);
  return Math.max(0, overlap) / (2 * STRIP_rad);
}

/**
 * Chance that a grain which finds the mouth stays for the pocket's shape, O B; fading to nothing
 * for pockets shallower than the process can print.
 *
 * @example pocketHold(6, 3, 0.8) // 0.5
 */
export function pocketHold(length_mm: number, depth_mm: number, minimumFeature_mm: number): number {
  const depth = Math.min(depth_mm, 0.5 * length_mm);
  if (!(depth > 0)) return 0;
  const open = Math.min(1, Math.max(0.3, 1 - (0.7 * (length_mm / depth - 6)) / 6));
  const t = Math.min(1, depth / minimumFeature_mm);
  return ((open * depth) / (depth + 0.5 * length_mm)) * t * t * (3 - 2 * t);
}

/**
 * Overlap of two equal circles whose centres are `shift` diameters apart, over their area.
 *
 * (1 - s)^1.5 (1 + 0.227 s): within 0.008 of (2/pi) (acos s - s sqrt(1 - s^2)).
 *
 * @example boreOverlap(0.5) // 0.394
 */
export function boreOverlap(shift: number): number {
  const open = 1 - Math.min(1, shift);
  return open * Math.sqrt(open) * (1.227 - 0.227 * open);
}

/** exp(-x) for x >= 0 by a rational form: within 0.03 % up to 0.4, 0.4 % at 1, always in 0..1. */
export function decay(x: number): number {
  return 1 / (1 + x * (1 + x * (0.5 + x * (1 / 6 + x * (1 / 24)))));
}
