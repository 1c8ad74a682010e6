/** The wall of a sampled channel: section and pockets together. */
import { atan2, cos, sin } from './angles.ts';
import { HULL_CORNERS, pocketBump, pocketLip, pocketWindow } from './pockets.ts';
import type { PlateSamples } from './samples.ts';
import { polarRadius, sectionSupport } from './sections.ts';

/**
 * Distance from the centreline to the wall at a station, pockets and their lips included [mm].
 *
 * @param theta_rad angle in the section frame, from the first towards the second axis.
 * @param c cosine of theta, when the caller has it.
 * @param s sine of theta.
 */
export function wallRadius(
  samples: PlateSamples,
  shape: number,
  station: number,
  theta_rad: number,
  c: number = cos(theta_rad),
  s: number = sin(theta_rad),
): number {
  const row = shape * samples.stations + station;
  const section = samples.sections[shape];
  const radius = polarRadius(section, samples.bore_mm[row], samples.roof[row], c, s);
  const pockets = samples.pockets[shape];
  if (pockets.length === 0) return radius;
  const length_mm = samples.length_mm[shape];
  const arc_mm = (length_mm * station) / (samples.stations - 1);
  let bulge = 0;
  let inwards = 0;
  for (let p = 0; p < pockets.length; p++) {
    const bump = pocketBump(pockets[p], arc_mm, length_mm);
    if (bump > bulge) bulge = Math.max(bulge, bump * pocketWindow(pockets[p], theta_rad));
    if (pockets[p].lip_mm === undefined) continue;
    const lip = pocketLip(pockets[p], arc_mm, length_mm);
    if (lip > inwards) inwards = Math.max(inwards, lip * pocketWindow(pockets[p], theta_rad));
  }
  return radius + bulge - inwards;
}

/**
 * How far the wall reaches in a direction at a station, pockets included [mm]: a safe upper bound
 * of max over theta of wallRadius(theta) cos(theta - psi), for (c, s) = (cos psi, sin psi).
 *
 * Exact without pockets. With them the sum of the section's support and the pocket's own, at most
 * the pocket's depth too far where the two lie in different directions.
 */
export function wallSupport(
  samples: PlateSamples,
  shape: number,
  station: number,
  c: number,
  s: number,
): number {
  const row = shape * samples.stations + station;
  const section = samples.sections[shape];
  const support = sectionSupport(section, samples.bore_mm[row], samples.roof[row], c, s);
  const pockets = samples.pockets[shape];
  if (pockets.length === 0) return support;
  const length_mm = samples.length_mm[shape];
  const arc_mm = (length_mm * station) / (samples.stations - 1);
  let bulge = 0;
  for (let p = 0; p < pockets.length; p++) {
    const bump = pocketBump(pockets[p], arc_mm, length_mm);
    if (bump > bulge) {
      bulge = Math.max(bulge, bump * hullReach(samples, samples.pocketStart[shape] + p, c, s));
    }
  }
  return support + bulge;
}

function hullReach(samples: PlateSamples, pocket: number, c: number, s: number): number {
  const { pocketAxis, pocketHull } = samples;
  const along = pocketAxis[2 * pocket] * c + pocketAxis[2 * pocket + 1] * s;
  const across = Math.abs(pocketAxis[2 * pocket] * s - pocketAxis[2 * pocket + 1] * c);
  const from = 2 * HULL_CORNERS * pocket;
  let best = 0;
  for (let i = from; i < from + 2 * HULL_CORNERS; i += 2) {
    const dot = pocketHull[i] * along + pocketHull[i + 1] * across;
    if (dot > best) best = dot;
  }
  return best;
}

/**
 * Point of the wall at a station and a *carried* angle, relative to the shape's offset [mm].
 *
 * Rings of neighbouring stations may be joined at equal carried angles without twist, for
 * teardrops too (see `twistAngle`).
 *
 * @param out receives x, y, z from index `at`.
 */
export function ringPoint(
  samples: PlateSamples,
  shape: number,
  station: number,
  carried_rad: number,
  out: Float64Array,
  at: number,
): void {
  const row = shape * samples.stations + station;
  const cosCarried = cos(carried_rad);
  const sinCarried = sin(carried_rad);
  const cosTwist = samples.twist[2 * row];
  const sinTwist = samples.twist[2 * row + 1];
  const c = cosCarried * cosTwist + sinCarried * sinTwist;
  const s = sinCarried * cosTwist - cosCarried * sinTwist;
  const theta_rad = samples.pockets[shape].length > 0 ? atan2(s, c) : 0;
  const radius = wallRadius(samples, shape, station, theta_rad, c, s);
  for (let d = 0; d < 3; d++) {
    const i = 3 * row + d;
    const way = c * samples.first[i] + s * samples.second[i];
    out[at + d] = samples.point_mm[i] + radius * way;
  }
}
