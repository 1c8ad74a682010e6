/** Ports: where a channel meets its own face. */
import type { Tubes } from './tubes.ts';
import { sectionReach } from './section-reach.ts';

/** A channel leaning further than this from the plate's normal is treated as this [cosine]. */
const LEAST_RISE = 0.2;

/**
 * Length of the stretch over which a channel that starts straight crosses its own face [mm]:
 * reach of the section towards the face over the rise of the tangent.
 */
export function mouthLength(t: Tubes, shape: number, end: 0 | 1): number {
  const station = shape * t.stations + (end === 0 ? 0 : t.stations - 1);
  const rise = Math.abs(t.tangent[3 * station + 2]);
  return towardsFace(t, shape, station, end) / Math.max(rise, LEAST_RISE);
}

/** How far the section of a station, in its own plane, reaches towards the face of an end [mm]. */
export function towardsFace(t: Tubes, shape: number, station: number, end: 0 | 1): number {
  const sign = end === 0 ? -1 : 1;
  const { uprightFirst: first, uprightSecond: second } = t;
  return sectionReach(
    t,
    shape,
    station,
    sign * first[3 * station + 2],
    sign * second[3 * station + 2],
  );
}

/** Height of a station above the face of an end [mm]. */
export function aboveFace(t: Tubes, station: number, end: 0 | 1): number {
  const z = t.point[3 * station + 2];
  return end === 0 ? z : t.plate.thickness_mm - z;
}

/**
 * Shears the sections at both ports along the tangent until they end at the face.
 *
 * A section point w (from the centreline) moves to w - share w_z T / T_z, which lies on the same
 * straight channel; share runs from 1 at the port to 0 where the section clears the face. Exact for
 * a channel that starts straight. Past twice the mouth a section keeps its plane: there the channel
 * runs along the face, which the face rule counts.
 */
export function shearPorts(t: Tubes, shape: number): void {
  for (let end: 0 | 1 = 0; ; end = 1) {
    shearPort(t, shape, end);
    if (end === 1) return;
  }
}

export function shearPort(t: Tubes, shape: number, end: 0 | 1): void {
  const { stations, tangent } = t;
  const base = shape * stations;
  const zone = 2 * mouthLength(t, shape, end);
  const step = t.length_mm[shape] / (stations - 1);
  for (let n = 0; n * step <= zone && n < stations; n++) {
    const k = end === 0 ? base + n : base + stations - 1 - n;
    const reach = towardsFace(t, shape, k, end);
    const height = Math.max(0, aboveFace(t, k, end));
    if (reach <= height || reach < 1e-6) return;
    const rise = tangent[3 * k + 2];
    const slope = Math.abs(rise) < LEAST_RISE ? (rise < 0 ? -LEAST_RISE : LEAST_RISE) : rise;
    const share = (1 - height / reach) / slope;
    shear(t.first, tangent, 3 * k, share);
    shear(t.second, tangent, 3 * k, share);
    t.reach[k] /= Math.abs(slope);
  }
}

function shear(axis: Float64Array, tangent: Float64Array, i: number, share: number): void {
  const lift = share * axis[i + 2];
  axis[i] -= lift * tangent[i];
  axis[i + 1] -= lift * tangent[i + 1];
  axis[i + 2] -= lift * tangent[i + 2];
}
