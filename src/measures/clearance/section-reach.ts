/**
 * How far a packed section reaches: support values and support points for any frame, also for the
 * sheared frames of ports. The direction (a, b) is the plate direction dotted with the two axes and
 * need not have unit length: every formula here is homogeneous in it, unlike `sectionSupport` of
 * the design room (a test holds both equal).
 */
import { furthest, pocketReach } from './pocket-hulls.ts';
import { CORNERS } from './polygon-corners.ts';
import { POLYGON, ROUND, SLOT, TEARDROP } from './tubes.ts';
import type { Tubes } from './tubes.ts';

/**
 * Reach of a section in direction (a, b), pockets included: max over its points of p . (a, b) [mm].
 *
 * @param station index over all shapes, shape * stations + k.
 */
export function sectionReach(
  t: Tubes,
  shape: number,
  station: number,
  a: number,
  b: number,
): number {
  const r = 0.5 * t.bore[station];
  const kind = t.kind[shape];
  let reach;
  if (kind === ROUND) reach = r * Math.sqrt(a * a + b * b);
  else if (kind === TEARDROP) {
    reach = Math.max(r * Math.sqrt(a * a + b * b), b * t.size[station]);
  } else if (kind === SLOT) reach = r * Math.sqrt(a * a + b * b) + t.size[station] * Math.abs(a);
  else reach = t.size[station] * greatestDot(CORNERS[t.sides[shape]], a, b);
  if (t.pocketed[station] !== 0) {
    return pocketReach(t, shape, station, a, b, reach);
  }
  return reach;
}

/** Writes to `out` the frame coordinates of the section's furthest point in direction (a, b). */
export function sectionPoint(
  t: Tubes,
  shape: number,
  station: number,
  a: number,
  b: number,
  out: Float64Array,
): void {
  barePoint(t, shape, station, a, b, out);
  if (t.pocketed[station] !== 0) {
    const reach = a * out[0] + b * out[1];
    if (pocketReach(t, shape, station, a, b, reach) > reach) {
      out[0] = t.hulls[furthest.at];
      out[1] = t.hulls[furthest.at + 1];
    }
  }
}

/** The same of the section without its pockets. */
export function barePoint(
  t: Tubes,
  shape: number,
  station: number,
  a: number,
  b: number,
  out: Float64Array,
): void {
  const r = 0.5 * t.bore[station];
  const size = t.size[station];
  const kind = t.kind[shape];
  const n = Math.sqrt(a * a + b * b);
  const scale = n > 1e-300 ? r / n : 0;
  if (kind === POLYGON) {
    const corners = CORNERS[t.sides[shape]];
    const i = greatestAt(corners, a, b);
    out[0] = size * corners[i];
    out[1] = size * corners[i + 1];
  } else if (kind === TEARDROP && b * size > r * n) {
    out[0] = 0;
    out[1] = size;
  } else {
    out[0] = a * scale;
    out[1] = b * scale;
    if (kind === SLOT) out[0] += a < 0 ? -size : size;
  }
}

function greatestDot(corners: Float64Array, a: number, b: number): number {
  const i = greatestAt(corners, a, b);
  return corners[i] * a + corners[i + 1] * b;
}

function greatestAt(corners: Float64Array, a: number, b: number): number {
  let at = 0;
  let best = corners[0] * a + corners[1] * b;
  for (let i = 2; i < corners.length; i += 2) {
    const dot = corners[i] * a + corners[i + 1] * b;
    if (dot > best) {
      best = dot;
      at = i;
    }
  }
  return at;
}
