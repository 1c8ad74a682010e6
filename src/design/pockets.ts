/**
 * Side pockets: how much the wall is pushed out along and around the channel.
 *
 *   wall radius = section radius + depth(s) * window(theta)
 *
 * depth(s) is a trapezoid with 45-degree ramps, so that the pocket's roof prints; window(theta) is
 * cos^2 over the mouth width. Of several pockets at one spot the deepest counts: they are one void.
 */
import { PI, cos, radians, sin } from './angles.ts';
import type { Pocket } from './model.ts';

/** Corners of the polygon that encloses half of a pocket's window, see `windowHull`. */
export const HULL_CORNERS = 9;

/**
 * Depth of a pocket at its deepest angle [mm], at an arc position.
 *
 *   min(depth, length / 2, max(0, length / 2 - |s - at * channel length|))
 *
 * A mouth shorter than two ramps never reaches its full depth.
 *
 * @param arc_mm arc position along the channel.
 * @param length_mm length of the channel.
 * @example pocketBump({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }, 10, 20) // 2
 * @example pocketBump({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }, 12, 20) // 1
 * Source: own convention.
 */
export function pocketBump(pocket: Pocket, arc_mm: number, length_mm: number): number {
  const ramp = 0.5 * pocket.length_mm - Math.abs(arc_mm - pocket.at * length_mm);
  return ramp <= 0 ? 0 : Math.min(ramp, pocket.depth_mm);
}

/**
 * How far a pocket's lip stands inwards from the wall at its highest angle [mm], at an arc position:
 * a ridge with flanks of 45 degrees whose first foot is the downstream end of the mouth.
 *
 *   max(0, l - |s - e - l|),  e end of the mouth, l = min(lip, half of what is left of the channel)
 *
 * @param arc_mm arc position along the channel.
 * @param length_mm length of the channel.
 * @example pocketLip({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0, lip_mm: 1 }, 14, 20) // 1
 * @example pocketLip({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }, 14, 20) // 0
 * Source: own convention.
 */
export function pocketLip(pocket: Pocket, arc_mm: number, length_mm: number): number {
  if (pocket.lip_mm === undefined) return 0;
  const end = pocket.at * length_mm + 0.5 * pocket.length_mm;
  const lip = Math.min(pocket.lip_mm, 0.5 * (length_mm - end));
  return Math.max(0, lip - Math.abs(arc_mm - end - lip));
}

/**
 * Share of a pocket's depth at an angle around the channel [0..1]: cos^2(pi d / width) for
 * |d| < width / 2, d the angle from the pocket's side; 0 outside.
 *
 * @example pocketWindow({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }, 0) // 1
 * @example pocketWindow({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }, 0.39269908) // 0.5
 * Source: own convention.
 */
export function pocketWindow(pocket: Pocket, theta_rad: number): number {
  let off = theta_rad - radians(pocket.side_deg);
  off -= 2 * PI * Math.round(off / (2 * PI));
  const width = radians(pocket.width_deg);
  if (2 * Math.abs(off) >= width) return 0;
  const c = cos((PI * off) / width);
  return c * c;
}

/**
 * How much a pocket pushes the wall out at an arc position and an angle [mm].
 *
 * @param theta_rad angle in the section frame, from the first towards the second axis.
 * @example pocketDepth({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }, 10, 20, 0) // 2
 */
export function pocketDepth(
  pocket: Pocket,
  arc_mm: number,
  length_mm: number,
  theta_rad: number,
): number {
  const bump = pocketBump(pocket, arc_mm, length_mm);
  return bump === 0 ? 0 : bump * pocketWindow(pocket, theta_rad);
}

/**
 * Upper half of a convex polygon that encloses the polar curve r = window(theta) with the side at
 * angle 0: the pocket's reach in any direction is at most depth * greatest dot product with these
 * corners (taking |sine| for the lower half). Made of support lines in 16 directions, hence safe
 * and at most 2 % of the depth too far.
 *
 * @param out receives HULL_CORNERS corners, x y each, from index `at`.
 */
export function windowHull(width_deg: number, out: Float64Array, at: number): void {
  if (width_deg !== hullWidth_deg) {
    fillHull(width_deg);
    hullWidth_deg = width_deg;
  }
  out.set(hull, at);
}

// Pockets of one design mostly share their width, so the last hull is kept.
const hull = new Float64Array(2 * HULL_CORNERS);
let hullWidth_deg = -1;

function fillHull(width_deg: number): void {
  const step = PI / (HULL_CORNERS - 1);
  let before = windowSupport(width_deg, -0.5 * step);
  for (let i = 0; i < HULL_CORNERS; i++) {
    // Support lines stand half a step before and after corner i; they meet in the corner.
    const after = windowSupport(width_deg, (i + 0.5) * step);
    const along = (before + after) / (2 * cos(0.5 * step));
    const across = (after - before) / (2 * sin(0.5 * step));
    const c = cos(i * step);
    const s = sin(i * step);
    hull[2 * i] = along * c - across * s;
    hull[2 * i + 1] = along * s + across * c;
    before = after;
  }
}

/** Support of the curve r = window(t) in direction `psi_rad`, never too small. */
function windowSupport(width_deg: number, psi_rad: number): number {
  const half = 0.5 * radians(width_deg);
  const steps = 48;
  let best = 0;
  for (let i = 0; i <= steps; i++) {
    const t = half * ((2 * i) / steps - 1);
    const c = cos((0.5 * PI * t) / half);
    best = Math.max(best, c * c * cos(t - psi_rad));
  }
  // Between samples a curve whose second derivative is below 8 rises by at most d^2 / 8 * that.
  const d = (2 * half) / steps;
  const bend = 0.5 * (PI / half) * (PI / half) + (2 * PI) / (2 * half) + 1;
  return best + (d * d * bend) / 8;
}
