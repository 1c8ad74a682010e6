/** The plenum's shape: its section, volume, surface distance and the rings it takes out of layers. */
import { PI } from './angles.ts';
import type { Plenum } from './model.ts';

/** Rise of the roof over its run: 45 degrees. */
const ROOF_SLOPE = 1;

/**
 * Corners of the plenum's section in the half-plane (r, z), counter-clockwise [n x 2] [mm]. A disc's
 * section is mirrored to negative r, so that its edge holds surface only.
 *
 * @example plenumSection({ innerRadius_mm: 10, outerRadius_mm: 20, floor_mm: 2, eaves_mm: 5, top_mm: 10 }).length // 10
 */
export function plenumSection(plenum: Plenum): Float64Array {
  const { innerRadius_mm: ri, outerRadius_mm: ro, floor_mm, eaves_mm, top_mm } = plenum;
  const run = (top_mm - eaves_mm) / ROOF_SLOPE;
  const left = ri > 0 ? ri : -ro;
  const [topLeft, topRight] = [left + run, ro - run];
  const corners = [left, floor_mm, ro, floor_mm];
  if (eaves_mm > floor_mm) corners.push(ro, eaves_mm);
  if (top_mm > eaves_mm) {
    corners.push(topRight, top_mm);
    if (topRight > topLeft + 1e-9) corners.push(topLeft, top_mm);
  }
  if (eaves_mm > floor_mm) corners.push(left, eaves_mm);
  return Float64Array.from(corners);
}

/** Greatest height of the top over the eaves, where the roof's flanks meet [mm]. */
export function steepestTop(innerRadius_mm: number, outerRadius_mm: number): number {
  return ROOF_SLOPE * (innerRadius_mm > 0 ? (outerRadius_mm - innerRadius_mm) / 2 : outerRadius_mm);
}

/**
 * Air in the plenum [mm3].
 *
 *   V = 2 pi (integral of r over the section), for r >= 0
 *
 * @example plenumVolume({ innerRadius_mm: 0, outerRadius_mm: 3, floor_mm: 2, eaves_mm: 2, top_mm: 5 }) // 28.27433388
 * Source: Pappus's centroid theorem (exact).
 */
export function plenumVolume(plenum: Plenum): number {
  const corners = plenumSection(plenum);
  let sum = 0;
  // Green: integral of r dA = 1/2 integral of r^2 dz around the section; a mirrored half counts alike
  // with the other sign, and only the right one is wanted.
  for (let i = 0, j = corners.length - 2; i < corners.length; j = i, i += 2) {
    const a = Math.max(0, corners[j]);
    const b = Math.max(0, corners[i]);
    sum += ((corners[i + 1] - corners[j + 1]) * (a * a + a * b + b * b)) / 6;
  }
  return 2 * PI * sum;
}

/**
 * Radii between which the plenum lies at a height, written into `out` [inner, outer] [mm].
 *
 * @returns false where there is no plenum at that height.
 */
export function plenumRadii(plenum: Plenum, z_mm: number, out: Float64Array): boolean {
  if (z_mm < plenum.floor_mm || z_mm > plenum.top_mm) return false;
  const lean = Math.max(0, z_mm - plenum.eaves_mm) / ROOF_SLOPE;
  out[0] = plenum.innerRadius_mm > 0 ? plenum.innerRadius_mm + lean : 0;
  out[1] = plenum.outerRadius_mm - lean;
  return out[1] > out[0];
}

/**
 * Distance from a point to the plenum's surface [mm]: positive in the solid, negative in the plenum.
 *
 * @param section see `plenumSection`.
 * @param way receives the unit vector away from the plenum at the nearest place of its surface [3].
 */
export function plenumDistance(
  section: Float64Array,
  x_mm: number,
  y_mm: number,
  z_mm: number,
  way: Float64Array,
): number {
  const r = Math.sqrt(x_mm * x_mm + y_mm * y_mm);
  let least = Infinity;
  let inside = true;
  let outR = 1;
  let outZ = 0;
  for (let i = 0, j = section.length - 2; i < section.length; j = i, i += 2) {
    const er = section[i] - section[j];
    const ez = section[i + 1] - section[j + 1];
    const pr = r - section[j];
    const pz = z_mm - section[j + 1];
    const square = er * er + ez * ez;
    // Counter-clockwise: the outside lies to the right, along (ez, -er).
    const beyond = ez * pr - er * pz;
    if (beyond > 0) inside = false;
    const share = Math.min(1, Math.max(0, (pr * er + pz * ez) / square));
    const dr = pr - share * er;
    const dz = pz - share * ez;
    const distance = Math.sqrt(dr * dr + dz * dz);
    if (distance >= least) continue;
    least = distance;
    const scale = 1 / Math.sqrt(square);
    const isCorner = beyond > 0 && (share === 0 || share === 1) && distance > 1e-9;
    outR = isCorner ? dr / distance : ez * scale;
    outZ = isCorner ? dz / distance : -er * scale;
  }
  const perR = r > 1e-12 ? 1 / r : 0;
  way[0] = outR * (perR === 0 ? 1 : x_mm * perR);
  way[1] = outR * y_mm * perR;
  way[2] = outZ;
  return inside ? -least : least;
}
