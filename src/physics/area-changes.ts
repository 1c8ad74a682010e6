/** Changes of section. K refers to the velocity in the small section. */
import { pow, sin, tan, atan } from '../numeric/index.ts';

/**
 * Turbulent loss of a conical diffuser without its wall friction (which is summed along the arc).
 *
 *   a <= 20 deg:  8.30 tan(a/2)^1.75 (1 - b^2)^2
 *   20..60:       [1.366 sqrt(sin(2(a - 15 deg))) - 0.170 - x](1 - b^2)^2,  x = 3.28 (0.0625 - b^4) sqrt((a - 20)/40) if b < 0.5
 *   60..180:      [1.205 - 0.20 sqrt((a - 60)/120)](1 - b^2)^2, b >= 0.5;
 *                 [1.205 - 3.28 (0.0625 - b^4) - 12.8 b^6 sqrt((a - 60)/120)](1 - b^2)^2, b < 0.5
 *
 * @param angle_deg total included angle a. @param b small/large diameter.
 * @example conicalDiffuser(90, 0.5) // 0.62156
 * Source: Rennels & Hudson 2012, Pipe Flow, ch. 11.
 */
export function conicalDiffuser(angle_deg: number, b: number): number {
  const gap = 1 - b * b;
  return diffuserFactor(angle_deg, b) * gap * gap;
}

function diffuserFactor(angle_deg: number, b: number): number {
  const radian = Math.PI / 180;
  if (angle_deg <= 20) return 8.3 * pow(tan((angle_deg / 2) * radian), 1.75);
  const b4 = b * b * b * b;
  const narrow = b < 0.5 ? 3.28 * (0.0625 - b4) : 0;
  if (angle_deg <= 60) {
    const wide = Math.sqrt((angle_deg - 20) / 40);
    return 1.366 * Math.sqrt(sin(2 * (angle_deg - 15) * radian)) - 0.17 - narrow * wide;
  }
  const wide = Math.sqrt((angle_deg - 60) / 120);
  return 1.205 - narrow - (b < 0.5 ? 12.8 * b4 * b * b : 0.2) * wide;
}

/** Total included angle of a cone that grows from diameter d1 to d2 over a length [deg]. */
export function coneAngle_deg(d1: number, d2: number, length: number): number {
  return 2 * atan((d2 - d1) / (2 * length)) * (180 / Math.PI);
}

/**
 * Share of a diffuser's pressure recovery that a stream manages: none below Re 1000, all above 1e4.
 *
 * Own heuristic: in laminar flow a diffuser's recovery is eaten by friction and separation, so the
 * speed lost there is lost; the wide, smooth passage keeps dp rising with flow.
 *
 * @example diffuserRecovery(5500) // 0.5
 */
export function diffuserRecovery(Re: number): number {
  const t = Math.min(1, Math.max(0, (Re - 1000) / 9000));
  return t * t * (3 - 2 * t);
}
