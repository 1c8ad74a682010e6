/** Which side of a channel a pocket should bulge to. */
import { atan2, degrees } from './angles.ts';
import { stepParameter, writeStations } from './centreline-stations.ts';
import { createCentreline, fitSpline } from './centreline.ts';
import type { Channel } from './model.ts';
import { carryAxis, startAxis } from './section-frames.ts';

const STATIONS = 24;
const line = createCentreline();
const point = new Float64Array(3 * STATIONS);
const tangent = new Float64Array(3 * STATIONS);
const curvature = new Float64Array(3 * STATIONS);
const first = new Float64Array(3 * STATIONS);

/**
 * Outer side of the bend at some positions of a channel, as a pocket's `side_deg`: away from the
 * centre of curvature, in the carried frame, for the channel as drawn. 0 (the first axis) where the
 * channel runs straight.
 *
 * @param at positions as shares of the chord length through the channel's points [0..1].
 * @returns angles [deg], one per position.
 */
export function outerSides(channel: Channel, at: readonly number[]): number[] {
  // The spline alone, at equal steps of its own parameter: arc length took most of the time of
  // decoding a hundred pocketed channels (experiments/bench/evaluate).
  fitSpline(line, channel);
  stepParameter(line, STATIONS);
  writeStations(line, STATIONS, point, tangent, curvature, 0);
  startAxis(tangent, channel.roll_deg, first);
  carryAxis(point, tangent, first, 0, STATIONS);
  return at.map((share) => {
    const i = 3 * Math.round(share * (STATIONS - 1));
    const kx = curvature[i];
    const ky = curvature[i + 1];
    const kz = curvature[i + 2];
    const tx = tangent[i];
    const ty = tangent[i + 1];
    const tz = tangent[i + 2];
    const fx = first[i];
    const fy = first[i + 1];
    const fz = first[i + 2];
    const c = -(kx * fx + ky * fy + kz * fz);
    // second = tangent x first
    const s = -(kx * (ty * fz - tz * fy) + ky * (tz * fx - tx * fz) + kz * (tx * fy - ty * fx));
    return c * c + s * s < 1e-12 ? 0 : degrees(atan2(s, c));
  });
}
