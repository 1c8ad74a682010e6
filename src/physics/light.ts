/** Light through a straight tube, without any from its walls. */
import { acos } from '../numeric/index.ts';

/**
 * Share of the light of a diffuse entrance that leaves a straight round tube without touching it.
 *
 *   F = (X - sqrt(X^2 - 4)) / 2,  X = 2 + 4 (L/D)^2
 *
 * @param slenderness length over diameter [-], 0 or more.
 * @returns share [-], 1 for no length; black walls add nothing, grey walls up to several times more.
 * @throws RangeError if the slenderness is negative or not a number.
 * @example directViewFactor(2) // 0.05572809
 * Source: view factor of equal coaxial discs, any handbook of radiation; exact.
 */
export function directViewFactor(slenderness: number): number {
  if (!(slenderness >= 0))
    throw new RangeError(`Length over diameter is ${slenderness}; it must be 0 or more.`);
  const x = 2 + 4 * slenderness * slenderness;
  // (X - sqrt(X^2 - 4)) / 2 without the cancellation for long tubes.
  return 2 / (x + Math.sqrt(x * x - 4));
}

/**
 * Share of a disc that another of its size covers.
 *
 *   (2/pi) (acos s - s sqrt(1 - s^2))
 *
 * @param shift s: distance of the centres over the diameter, 0 or more; nothing is covered from 1 on.
 * @example discOverlap(0.5) // 0.3910022
 * Source: plane geometry.
 */
export function discOverlap(shift: number): number {
  if (shift >= 1) return 0;
  return (2 / Math.PI) * (acos(shift) - shift * Math.sqrt(1 - shift * shift));
}
