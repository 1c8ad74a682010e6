/** Down-facing area beyond the overhang limit, from true surfaces rather than from pixels. */
import type { Outline, Process } from '../brief/index.ts';
import { outlineBounds, outlinePolygon } from '../design/index.ts';
import type { Plate } from '../design/index.ts';
import { acos, sin } from '../numeric/index.ts';
import type { Rings } from './rings.ts';

/**
 * Slack on the overhang limit [deg]: a roof drawn at exactly 45 degrees, sampled along a bent
 * channel, scatters about it by some tenths of a degree and shall count as 45.
 */
export const LIMIT_SLACK_deg = 1;

/** Sine of the overhang limit with its slack: a surface hangs over when -normal . up exceeds it. */
export function overhangSine(process: Process): number {
  return sin((Math.min(89.9, process.overhangLimit_deg + LIMIT_SLACK_deg) * Math.PI) / 180);
}

/**
 * Overhanging area of one shape's wall within the plate [mm2].
 *
 * Sums the triangles whose normal into the void points down more than the limit allows:
 * -n . up > sin(limit). Triangles whose middle lies outside the faces are left out.
 *
 * @param limitSine see `overhangSine`.
 */
export function wallOverhang(
  rings: Rings,
  edge: boolean,
  thickness_mm: number,
  limitSine: number,
): number {
  const { points, wall_mm: wall } = rings;
  let area = 0;
  for (let s = rings.firstBand; s < rings.endBand; s++) {
    for (let j = 0; j < points; j++) {
      const k = j + 1 === points ? 0 : j + 1;
      const p = 3 * (s * points + j);
      const q = 3 * (s * points + k);
      const r = 3 * ((s + 1) * points + j);
      const t = 3 * ((s + 1) * points + k);
      area += hangingTriangle(wall, p, q, r, edge, thickness_mm, limitSine);
      area += hangingTriangle(wall, q, t, r, edge, thickness_mm, limitSine);
    }
  }
  return area;
}

function hangingTriangle(
  wall: Float64Array,
  p: number,
  q: number,
  r: number,
  edge: boolean,
  thickness_mm: number,
  limitSine: number,
): number {
  const ax = wall[q] - wall[p];
  const ay = wall[q + 1] - wall[p + 1];
  const az = wall[q + 2] - wall[p + 2];
  const bx = wall[r] - wall[p];
  const by = wall[r + 1] - wall[p + 1];
  const bz = wall[r + 2] - wall[p + 2];
  // Around the ring, then along the channel: the product points away from the centreline, so a
  // part of it pointing up is a ceiling.
  const up = edge ? az * bx - ax * bz : ax * by - ay * bx;
  if (up <= 0) return 0;
  const cx = ay * bz - az * by;
  const cy = az * bx - ax * bz;
  const cz = ax * by - ay * bx;
  const size = Math.sqrt(cx * cx + cy * cy + cz * cz);
  if (up <= limitSine * size) return 0;
  const middle = (wall[p + 2] + wall[q + 2] + wall[r + 2]) / 3;
  return middle > 0 && middle < thickness_mm ? size / 2 : 0;
}

/** What hangs over at the outline and the mounting holes of a plate on edge. */
interface OutlineOverhang {
  area_mm2: number;
  /** Void from the overhanging outline down to the bed [mm3]. */
  support_mm3: number;
}

const ARC_TOLERANCE_mm = 0.001;

/**
 * Overhang of a plate's own outer wall and mounting holes; nothing when it lies flat.
 *
 * The first layer rests on the bed and does not count. Holes count with the roof beyond the limit,
 * D (90 deg - limit) per mm of thickness.
 */
export function plateOverhang(plate: Plate, process: Process): OutlineOverhang {
  if (plate.build === 'flat') return NOTHING;
  const known = perMillimetre;
  if (known.outline !== plate.outline || known.holes !== plate.holes || known.process !== process) {
    const fresh = { area_mm2: 0, support_mm3: 0 };
    const limitSine = overhangSine(process);
    addOutline(plate.outline, limitSine, process.layerHeight_mm, fresh);
    for (const hole of plate.holes) fresh.area_mm2 += hole.diameter_mm * acos(limitSine);
    perMillimetre = { outline: plate.outline, holes: plate.holes, process, ...fresh };
  }
  return {
    area_mm2: perMillimetre.area_mm2 * plate.thickness_mm,
    support_mm3: perMillimetre.support_mm3 * plate.thickness_mm,
  };
}

const NOTHING: OutlineOverhang = { area_mm2: 0, support_mm3: 0 };

// One search has one outline, one set of holes and one process: the sums per mm of thickness are
// kept, as walking a fine outline would take half of the estimate's time.
let perMillimetre: OutlineOverhang & {
  readonly outline: Outline | null;
  readonly holes: Plate['holes'] | null;
  readonly process: Process | null;
} = { ...NOTHING, outline: null, holes: null, process: null };

/** Adds the overhanging outline per mm of thickness. */
function addOutline(
  outline: Outline,
  limitSine: number,
  layer_mm: number,
  out: OutlineOverhang,
): void {
  const corners = outlinePolygon(outline, ARC_TOLERANCE_mm);
  const bottom = outlineBounds(outline).minY_mm;
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    // The outline runs counter-clockwise: what runs along +x has the outside below it.
    const run = corners[i][0] - corners[j][0];
    const rise = corners[i][1] - corners[j][1];
    const length = Math.sqrt(run * run + rise * rise);
    const height = (corners[i][1] + corners[j][1]) / 2 - bottom;
    if (height < layer_mm || run <= limitSine * length) continue;
    out.area_mm2 += length;
    out.support_mm3 += run * height;
  }
}
