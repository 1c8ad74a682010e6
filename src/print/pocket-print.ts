/** What side pockets add to a print: volume, overhanging ramps, bridges. */
import type { Pocket } from '../design/index.ts';

const RADIANS = Math.PI / 180;

/**
 * Volume a pocket adds to its channel [mm3].
 *
 *   integral of R d + d^2 / 2 over the mouth, d = bump(s) * cos^2 window:
 *   R W/2 peak (l - peak) + 3 W/16 (peak^2 (l - 2 peak) + 2/3 peak^3), peak = min(depth, l / 2)
 *
 * @param radius_mm wall radius under the pocket.
 * @example pocketVolume({ at: 0.5, length_mm: 4, depth_mm: 1, width_deg: 90, side_deg: 0 }, 2) // 5.49778714
 * Source: plane geometry; pockets that overlap are counted twice.
 */
export function pocketVolume(pocket: Pocket, radius_mm: number): number {
  const l = pocket.length_mm;
  const w = pocket.width_deg * RADIANS;
  const peak = Math.min(pocket.depth_mm, l / 2);
  const flat = peak * (l - peak);
  const square = peak * peak * (l - 2 * peak) + (2 / 3) * peak * peak * peak;
  return radius_mm * (w / 2) * flat + ((3 * w) / 16) * square;
}

/**
 * Area of a pocket's ramps and of its plateau's bulge that hangs over [mm2].
 *
 * The ramps' normals into the solid are (side -+ tangent) / sqrt 2, the plateau's is the side.
 *
 * @param along tangent . up at the pocket.
 * @param side pocket's side . up.
 */
export function pocketOverhang(
  pocket: Pocket,
  radius_mm: number,
  along: number,
  side: number,
  limitSine: number,
): number {
  const w = pocket.width_deg * RADIANS;
  const peak = Math.min(pocket.depth_mm, pocket.length_mm / 2);
  const ramp = Math.SQRT2 * peak * (radius_mm + peak / 4) * (w / 2);
  let area = 0;
  if ((side - along) * Math.SQRT1_2 > limitSine) area += ramp;
  if ((side + along) * Math.SQRT1_2 > limitSine) area += ramp;
  if (side > limitSine) area += (pocket.length_mm - 2 * peak) * peak * (w / 2);
  return area;
}
