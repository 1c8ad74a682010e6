/** A channel of a sampled design as the solver's duct: the same sections, frames and pockets as the mesh. */
import { pocketBump, pocketLip, pocketWindow, polarRadius } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { atan2 } from '../numeric/index.ts';
import type { Duct } from './duct.ts';

/**
 * The duct of one shape, or why it cannot be solved.
 *
 * A point belongs to the channel when, at a place of the centreline whose section plane holds it, it
 * lies within the wall's radius. Beyond the first and the last section the channel goes on straight, up
 * to the plate's faces.
 */
export function channelDuct(samples: PlateSamples, shape: number): Duct | string {
  if (samples.sides !== null) {
    return 'plates with exits in the rim or with a plenum are not solved: the solver knows channels from face to face';
  }
  if (samples.teeth !== null) return 'stirring teeth are too fine for the grid';
  const S = samples.stations;
  const first = shape * S;
  const { point_mm, bore_mm, reach_mm } = samples;
  const bounds: [number, number, number, number] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let row = first; row < first + S; row++) {
    const reach = reach_mm[row];
    bounds[0] = Math.min(bounds[0], point_mm[3 * row] - reach);
    bounds[1] = Math.max(bounds[1], point_mm[3 * row] + reach);
    bounds[2] = Math.min(bounds[2], point_mm[3 * row + 1] - reach);
    bounds[3] = Math.max(bounds[3], point_mm[3 * row + 1] + reach);
  }
  const last = first + S - 1;
  return {
    thickness_mm: samples.plate.thickness_mm,
    bore_mm: bore_mm[first],
    area_mm2: samples.area_mm2[first],
    inlet_mm: [point_mm[3 * first], point_mm[3 * first + 1]],
    outlet_mm: [point_mm[3 * last], point_mm[3 * last + 1]],
    bounds_mm: bounds,
    inside: (x, y, z) => isInChannel(samples, shape, x, y, z),
  };
}

/** Distance of a point ahead of the section plane at a station [mm]. */
function ahead(samples: PlateSamples, row: number, x: number, y: number, z: number): number {
  const { point_mm: p, tangent: t } = samples;
  const i = 3 * row;
  return (x - p[i]) * t[i] + (y - p[i + 1]) * t[i + 1] + (z - p[i + 2]) * t[i + 2];
}

function isInChannel(
  samples: PlateSamples,
  shape: number,
  x: number,
  y: number,
  z: number,
): boolean {
  const S = samples.stations;
  const first = shape * S;
  let now = ahead(samples, first, x, y, z);
  if (now < 0 && isInSection(samples, shape, 0, 0, now, x, y, z)) return true;
  for (let k = 0; k < S - 1; k++) {
    const next = ahead(samples, first + k + 1, x, y, z);
    if (now >= 0 && next < 0) {
      if (isInSection(samples, shape, k, now / (now - next), 0, x, y, z)) return true;
    }
    now = next;
  }
  return now >= 0 && isInSection(samples, shape, S - 2, 1, now, x, y, z);
}

/** @param beyond how far past the channel's end, along its tangent [mm]. */
function isInSection(
  samples: PlateSamples,
  shape: number,
  k: number,
  share: number,
  beyond: number,
  x: number,
  y: number,
  z: number,
): boolean {
  const row = shape * samples.stations + k;
  const { point_mm: p, tangent: t, first: e, second: g } = samples;
  const i = 3 * row;
  const end = share > 0.5 ? i + 3 : i;
  const rx = x - p[i] - share * (p[i + 3] - p[i]) - beyond * t[end];
  const ry = y - p[i + 1] - share * (p[i + 4] - p[i + 1]) - beyond * t[end + 1];
  const rz = z - p[i + 2] - share * (p[i + 5] - p[i + 2]) - beyond * t[end + 2];
  const r = Math.sqrt(rx * rx + ry * ry + rz * rz);
  if (r > Math.max(samples.reach_mm[row], samples.reach_mm[row + 1])) return false;
  const bore = samples.bore_mm[row] + share * (samples.bore_mm[row + 1] - samples.bore_mm[row]);
  if (r === 0) return true;
  const keep = 1 - share;
  const a =
    rx * (keep * e[i] + share * e[i + 3]) +
    ry * (keep * e[i + 1] + share * e[i + 4]) +
    rz * (keep * e[i + 2] + share * e[i + 5]);
  const b =
    rx * (keep * g[i] + share * g[i + 3]) +
    ry * (keep * g[i + 1] + share * g[i + 4]) +
    rz * (keep * g[i + 2] + share * g[i + 5]);
  const length = Math.sqrt(a * a + b * b);
  if (length === 0) return true;
  const roof = samples.roof[row] + share * (samples.roof[row + 1] - samples.roof[row]);
  const radius = polarRadius(samples.sections[shape], bore, roof, a / length, b / length);
  const pockets = samples.pockets[shape];
  if (pockets.length === 0) return r < radius;
  const arc = (samples.length_mm[shape] * (k + share)) / (samples.stations - 1);
  return r < radius + bulge(samples, shape, arc, atan2(b, a));
}

/** How far pockets push the wall out, and their lips in, at a place of the wall [mm]. */
function bulge(samples: PlateSamples, shape: number, arc_mm: number, theta_rad: number): number {
  const length = samples.length_mm[shape];
  let outwards = 0;
  let inwards = 0;
  for (const pocket of samples.pockets[shape]) {
    const share = pocketWindow(pocket, theta_rad);
    outwards = Math.max(outwards, share * pocketBump(pocket, arc_mm, length));
    inwards = Math.max(inwards, share * pocketLip(pocket, arc_mm, length));
  }
  return outwards - inwards;
}
