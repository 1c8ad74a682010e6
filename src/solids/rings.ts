/** Rings: the wall of a channel as points at chosen stations and angles. */
import { atan2, cos, sin } from '../numeric/index.ts';
import { polarRadius, twistAngle, wallRadius } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { ringAngles } from './ring-angles.ts';
import { ringStations } from './ring-stations.ts';

export interface Rings {
  /** Points per ring, n. */
  readonly sides: number;
  /** Stations of the rings, rising [k]. */
  readonly stations: Int32Array;
  /** [k x n x 3], relative to the shape's offset, counter-clockwise about the tangent [mm]. */
  readonly points: Float64Array;
}

/**
 * Rings of a shape.
 *
 * Points stand on the true outline, then each ring grows about the centreline so that the polygon
 * has the section's true area: an inscribed polygon of 24 sides would hold 1.1 % less air. The
 * nearest point of each teardrop ring moves to the roof's apex. Pockets are added after growing.
 *
 * @param sides steps per turn of a round section, even.
 * @param stride samples per ring step, see `ringStations`.
 */
export function traceRings(
  samples: PlateSamples,
  shape: number,
  sides: number,
  stride: number,
): Rings {
  const angles = ringAngles(samples, shape, sides);
  const stations = ringStations(samples, shape, stride);
  const n = angles.length;
  const points = new Float64Array(3 * n * stations.length);
  const spot: Spots = {
    c: new Float64Array(n),
    s: new Float64Array(n),
    unit: new Float64Array(n),
    radius: new Float64Array(n),
    cosAngle: angles.map((a) => cos(a)),
    sinAngle: angles.map((a) => sin(a)),
  };
  const isTeardrop = samples.sections[shape].kind === 'teardrop';
  for (let k = 0; k < stations.length; k++) {
    const row = shape * samples.stations + stations[k];
    // Only teardrops turn and change their form along the way; others just grow and shrink.
    if (k === 0 || isTeardrop) outlineOf(samples, shape, row, spot);
    sizeRing(samples, shape, stations[k], spot);
    placeRing(samples, row, spot, points, 3 * n * k);
  }
  return { sides: n, stations, points };
}

/** One ring in its section frame: direction (c, s) and distance of each point. */
interface Spots {
  readonly c: Float64Array;
  readonly s: Float64Array;
  /** Distances for an inscribed circle of radius 1, scaled to that section's true area. */
  readonly unit: Float64Array;
  readonly radius: Float64Array;
  readonly cosAngle: Float64Array;
  readonly sinAngle: Float64Array;
}

/** Directions and unit distances of the ring at a station, given by its row in the samples. */
function outlineOf(samples: PlateSamples, shape: number, row: number, spot: Spots): void {
  const { c, s, unit, cosAngle, sinAngle } = spot;
  const section = samples.sections[shape];
  const roof = samples.roof[row];
  const twist = twistAngle(samples, row);
  const cosTwist = twist === 0 ? 1 : cos(twist);
  const sinTwist = twist === 0 ? 0 : sin(twist);
  const n = c.length;
  for (let j = 0; j < n; j++) {
    c[j] = cosAngle[j] * cosTwist + sinAngle[j] * sinTwist;
    s[j] = sinAngle[j] * cosTwist - cosAngle[j] * sinTwist;
  }
  if (roof > 0) raiseNearest(c, s);
  let twice = 0;
  for (let j = 0; j < n; j++) unit[j] = polarRadius(section, 2, roof, c[j], s[j]);
  for (let j = 0, p = n - 1; j < n; p = j++) {
    twice += unit[p] * unit[j] * (c[p] * s[j] - s[p] * c[j]);
  }
  const r = samples.bore_mm[row] / 2;
  const grow = Math.sqrt((2 * samples.area_mm2[row]) / (twice * r * r));
  for (let j = 0; j < n; j++) unit[j] *= grow;
}

/** Distances at a station: the section grown to its bore, then its pockets. */
function sizeRing(samples: PlateSamples, shape: number, station: number, spot: Spots): void {
  const row = shape * samples.stations + station;
  const { c, s, unit, radius } = spot;
  const r = samples.bore_mm[row] / 2;
  const n = c.length;
  for (let j = 0; j < n; j++) radius[j] = r * unit[j];
  if (samples.pockets[shape].length === 0) return;
  const section = samples.sections[shape];
  for (let j = 0; j < n; j++) {
    const wall = wallRadius(samples, shape, station, atan2(s[j], c[j]), c[j], s[j]);
    radius[j] += wall - polarRadius(section, 2 * r, samples.roof[row], c[j], s[j]);
  }
}

function placeRing(
  samples: PlateSamples,
  row: number,
  spot: Spots,
  points: Float64Array,
  at: number,
): void {
  const { point_mm, first, second } = samples;
  const { c, s, radius } = spot;
  for (let d = 0; d < 3; d++) {
    const middle = point_mm[3 * row + d];
    const f = first[3 * row + d];
    const g = second[3 * row + d];
    for (let j = 0; j < c.length; j++) {
      points[at + 3 * j + d] = middle + radius[j] * (c[j] * f + s[j] * g);
    }
  }
}

/** Moves the point nearest to the second axis onto it: a roof without its apex would be cut off. */
function raiseNearest(c: Float64Array, s: Float64Array): void {
  let best = 0;
  for (let j = 1; j < s.length; j++) if (s[j] > s[best]) best = j;
  c[best] = 0;
  s[best] = 1;
}
