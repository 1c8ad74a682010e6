/**
 * A channel as light sees it: slabs between the planes of neighbouring stations, wall between them.
 *
 * Planes stand across the channel; towards a slanted end they lean until the last lies in the plate's
 * face, sections sliding along the channel. Between two planes the wall's radius is blended from both.
 * One tube is loaded at a time; its numbers are kept side by side, as the rays read them.
 */
import { pocketBump, polarRadius, wallRadius } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { atan2 } from '../../numeric/index.ts';

/**
 * Centre 0-2, plane's normal 3-5, first 6-8, second 9-11, reach 13; at 12 the radius where the wall is
 * a circle, 0 where it has another section, -1 where a pocket bulges.
 */
export const LANE = 14;

export interface Tube {
  readonly samples: PlateSamples;
  readonly shape: number;
  /** Planes, one more than slabs. */
  readonly planes: number;
  /** Numbers of each plane [planes x LANE]. */
  readonly lane: Float64Array;
  /** Index of each plane's station. */
  readonly stations: Int32Array;
  /** What a slab's wall is like: `ROUND`, `SHAPED` or `POCKETED`; also what a look at it costs. */
  readonly wall: Uint8Array;
}

/** A cone between two circles; between other sections; with a pocket on either side. */
export const ROUND = 1;
const SHAPED = 3;
export const POCKETED = 8;

let lanes = new Float64Array(64 * LANE);
let stationOf = new Int32Array(64);
let wall = new Uint8Array(64);

/** Loads a shape; the one loaded before is lost. */
export function loadTube(samples: PlateSamples, shape: number): Tube {
  const { stations, point_mm, first, second, bore_mm, reach_mm } = samples;
  const last = stations - 1;
  if (stationOf.length < stations) {
    lanes = new Float64Array(stations * LANE);
    stationOf = new Int32Array(stations);
    wall = new Uint8Array(stations);
  }
  const hasPockets = samples.pockets[shape].length > 0;
  const isRound = samples.sections[shape].kind === 'round';
  const base = shape * stations;
  let planes = 0;
  for (let i = 0; ; i = nextPlane(samples, base, i, last)) {
    const row = base + i;
    const at = planes * LANE;
    for (let d = 0; d < 3; d++) {
      lanes[at + d] = point_mm[3 * row + d];
      lanes[at + 6 + d] = first[3 * row + d];
      lanes[at + 9 + d] = second[3 * row + d];
    }
    writeNormal(samples, shape, i, at + 3);
    const isBare = !hasPockets || !isBulged(samples, shape, i);
    lanes[at + 12] = !isBare ? -1 : isRound ? 0.5 * bore_mm[row] : 0;
    lanes[at + 13] = reach_mm[row];
    stationOf[planes] = i;
    planes++;
    if (i === last) break;
  }
  for (let k = 0; k + 1 < planes; k++) {
    const least = Math.min(lanes[k * LANE + 12], lanes[(k + 1) * LANE + 12]);
    wall[k] = least < 0 ? POCKETED : least > 0 ? ROUND : SHAPED;
  }
  return { samples, shape, planes, lane: lanes, stations: stationOf, wall };
}

/** Stations between two planes stray by at most this share of the bore from the straight between. */
const STRAY = 0.005;
/** Planes turn by at most this from one to the next [cosine]. */
const TURN = 0.97;

/** Next station that gets a plane: straight stretches need none between their ends. */
function nextPlane(samples: PlateSamples, base: number, from: number, last: number): number {
  let to = from + 1;
  while (to < last && isStraight(samples, base + from, base + to + 1)) to++;
  return to;
}

function isStraight(samples: PlateSamples, a: number, b: number): boolean {
  const { point_mm: p, tangent: t, bore_mm, roof, reach_mm } = samples;
  const turn = t[3 * a] * t[3 * b] + t[3 * a + 1] * t[3 * b + 1] + t[3 * a + 2] * t[3 * b + 2];
  if (turn < TURN) return false;
  for (let m = a; m <= b; m++) {
    const f = (m - a) / (b - a);
    const most = STRAY * bore_mm[m];
    // Roofs and pockets come and go within few stations: each keeps its plane.
    if (roof[m] !== roof[a] || reach_mm[m] * bore_mm[a] - reach_mm[a] * bore_mm[m] > most)
      return false;
    if (Math.abs(bore_mm[m] - bore_mm[a] - f * (bore_mm[b] - bore_mm[a])) > most) return false;
    const x = p[3 * m] - p[3 * a] - f * (p[3 * b] - p[3 * a]);
    const y = p[3 * m + 1] - p[3 * a + 1] - f * (p[3 * b + 1] - p[3 * a + 1]);
    const z = p[3 * m + 2] - p[3 * a + 2] - f * (p[3 * b + 2] - p[3 * a + 2]);
    if (x * x + y * y + z * z > most * most) return false;
  }
  return true;
}

function isBulged(samples: PlateSamples, shape: number, station: number): boolean {
  const length = samples.length_mm[shape];
  const arc = (length * station) / (samples.stations - 1);
  return samples.pockets[shape].some((pocket) => pocketBump(pocket, arc, length) > 0);
}

/** Leaning ends over so many times what the section reaches past the face. */
const LEAN = 2.5;

/** Normal of a station's plane: its tangent, leaning to +z towards ends that meet the face aslant. */
function writeNormal(samples: PlateSamples, shape: number, station: number, out: number): void {
  const { stations, tangent, length_mm } = samples;
  const base = shape * stations;
  const step = length_mm[shape] / (stations - 1);
  const lean = Math.max(
    leaning(samples, base, step * station),
    leaning(samples, base + stations - 1, step * (stations - 1 - station)),
  );
  const i = 3 * (base + station);
  const x = tangent[i] * (1 - lean);
  const y = tangent[i + 1] * (1 - lean);
  const z = tangent[i + 2] * (1 - lean) + lean;
  const scale = 1 / Math.sqrt(x * x + y * y + z * z);
  lanes[out] = x * scale;
  lanes[out + 1] = y * scale;
  lanes[out + 2] = z * scale;
}

/** How far a plane at some distance from an end leans to the face: 1 in it, 0 beyond the slant's reach. */
function leaning(samples: PlateSamples, end: number, away_mm: number): number {
  const rise = Math.max(0.2, samples.tangent[3 * end + 2]);
  const slant = Math.sqrt(Math.max(0, 1 - rise * rise)) / rise;
  const span_mm = LEAN * slant * samples.reach_mm[end];
  return away_mm >= span_mm ? (away_mm === 0 ? 1 : 0) : 1 - away_mm / span_mm;
}

/** Wall radius of one plane in the direction of a point, given from the section's centre [mm]. */
export function planeRadius(tube: Tube, plane: number, x: number, y: number, z: number): number {
  const at = plane * LANE + 6;
  const u = x * tube.lane[at] + y * tube.lane[at + 1] + z * tube.lane[at + 2];
  const v = x * tube.lane[at + 3] + y * tube.lane[at + 4] + z * tube.lane[at + 5];
  return Math.sqrt(u * u + v * v) - planeGap(tube, plane, x, y, z);
}

/**
 * How far a point lies beyond the wall, in the section of one plane [mm]; negative inside.
 *
 * @param x @param y @param z from the section's centre.
 */
export function planeGap(tube: Tube, plane: number, x: number, y: number, z: number): number {
  const lane = tube.lane;
  const at = plane * LANE;
  const u = x * lane[at + 6] + y * lane[at + 7] + z * lane[at + 8];
  const v = x * lane[at + 9] + y * lane[at + 10] + z * lane[at + 11];
  const away = Math.sqrt(u * u + v * v);
  const plain = lane[at + 12];
  if (plain > 0) return away - plain;
  const { samples, shape } = tube;
  const station = tube.stations[plane];
  const row = shape * samples.stations + station;
  if (away === 0) return -0.5 * samples.bore_mm[row];
  const c = u / away;
  const s = v / away;
  if (plain < 0) return away - wallRadius(samples, shape, station, atan2(v, u), c, s);
  return away - polarRadius(samples.sections[shape], samples.bore_mm[row], samples.roof[row], c, s);
}

/** How far a point of a slab lies beyond the wall [mm], blended from the planes on either side. */
export function slabGap(tube: Tube, slab: number, x: number, y: number, z: number): number {
  const lane = tube.lane;
  const a = slab * LANE;
  const b = a + LANE;
  const below =
    (x - lane[a]) * lane[a + 3] + (y - lane[a + 1]) * lane[a + 4] + (z - lane[a + 2]) * lane[a + 5];
  const above =
    (lane[b] - x) * lane[b + 3] + (lane[b + 1] - y) * lane[b + 4] + (lane[b + 2] - z) * lane[b + 5];
  const whole = below + above;
  let f = whole > 0 ? below / whole : 0.5;
  if (f < 0) f = 0;
  else if (f > 1) f = 1;
  const qx = x - lane[a] - f * (lane[b] - lane[a]);
  const qy = y - lane[a + 1] - f * (lane[b + 1] - lane[a + 1]);
  const qz = z - lane[a + 2] - f * (lane[b + 2] - lane[a + 2]);
  return (1 - f) * planeGap(tube, slab, qx, qy, qz) + f * planeGap(tube, slab + 1, qx, qy, qz);
}
