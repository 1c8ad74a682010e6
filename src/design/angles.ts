/** Angles as the design room uses them: degrees at the door, cosines and sines inside. */
import { acos, asin, atan2, cos, degrees, radians, sin, tan } from '../numeric/index.ts';

export { acos, asin, atan2, cos, degrees, radians, sin, tan };

export const PI = Math.PI;
export const SQRT2 = Math.SQRT2;

/**
 * The same direction within [0, 360) degrees.
 *
 * @example normalTurn(-90) // 270
 */
export function normalTurn(angle_deg: number): number {
  const turn = angle_deg - 360 * Math.floor(angle_deg / 360);
  return turn >= 360 ? 0 : turn;
}

/**
 * Cosine of an angle in degrees, exact at quarter turns so that a turned plate is the same plate.
 *
 * @example cosDeg(90) // 0
 */
export function cosDeg(angle_deg: number): number {
  const turn = normalTurn(angle_deg);
  if (turn === 0) return 1;
  if (turn === 90 || turn === 270) return 0;
  if (turn === 180) return -1;
  return cos(radians(turn));
}

/**
 * Sine of an angle in degrees, exact at quarter turns.
 *
 * @example sinDeg(270) // -1
 */
export function sinDeg(angle_deg: number): number {
  const turn = normalTurn(angle_deg);
  if (turn === 0 || turn === 180) return 0;
  if (turn === 90) return 1;
  if (turn === 270) return -1;
  return sin(radians(turn));
}
