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
 * Source: plane geometry; `ownMouth` says how much of it another pocket takes already.
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
 * Area of one part of a pocket that hangs over [mm2]: opening ramp, bulge of the plateau, closing ramp.
 *
 * The ramps' normals into the solid are (side -+ tangent) / sqrt 2 in the pocket's middle, the
 * plateau's is the side; towards the pocket's flanks the ramps flatten, so what hangs over grows in
 * over FADE beyond the limit.
 *
 * @param part -1 opening ramp, 0 plateau, 1 closing ramp.
 * @param along tangent . up at the part.
 * @param side pocket's side . up.
 */
export function pocketOverhang(
  pocket: Pocket,
  part: number,
  radius_mm: number,
  along: number,
  side: number,
  limitSine: number,
): number {
  const normalUp = part === 0 ? side : (side + part * along) * Math.SQRT1_2;
  const beyond = normalUp - limitSine;
  if (beyond <= 0) return 0;
  const half = (pocket.width_deg * RADIANS) / 2;
  const peak = Math.min(pocket.depth_mm, pocket.length_mm / 2);
  const area =
    part === 0
      ? (pocket.length_mm - 2 * peak) * peak * half
      : Math.SQRT2 * peak * (radius_mm + peak / 4) * half;
  return area * Math.min(1, Math.sqrt(beyond / FADE));
}

const FADE = 0.25;

/**
 * Part of a pocket's mouth that is its own [0..1]: within the channel's ends and not covered by a
 * pocket listed before it (the wall follows the deeper of two, it does not add them up).
 *
 * @param length_mm length of the channel.
 * Source: mouths as rectangles of length by width; plane geometry.
 */
export function ownMouth(pockets: readonly Pocket[], index: number, length_mm: number): number {
  const pocket = pockets[index];
  const middle_mm = pocket.at * length_mm;
  const half = 0.5 * pocket.length_mm;
  let own =
    (Math.min(length_mm, middle_mm + half) - Math.max(0, middle_mm - half)) / pocket.length_mm;
  for (let i = 0; i < index; i++) own *= 1 - sharedMouth(pocket, pockets[i], length_mm);
  return Math.max(0, own);
}

/** Part of a pocket's mouth, length by width, that another covers [0..1]. */
function sharedMouth(pocket: Pocket, other: Pocket, length_mm: number): number {
  const along = overlap(
    Math.abs(pocket.at - other.at) * length_mm,
    pocket.length_mm,
    other.length_mm,
  );
  const turn = pocket.side_deg - other.side_deg;
  const around = overlap(
    Math.abs(turn - 360 * Math.round(turn / 360)),
    pocket.width_deg,
    other.width_deg,
  );
  return along * around;
}

/** Part of an interval of width a that one of width b covers, their middles `apart`. */
function overlap(apart: number, a: number, b: number): number {
  return Math.max(0, Math.min(0.5 * (a + b) - apart, a, b)) / a;
}
