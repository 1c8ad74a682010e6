/**
 * Straight lines through a channel: how clear a given chord is and which chord is clearest.
 *
 * A chord runs through (x, y) = (p[0] + p[2] z, p[1] + p[3] z). It crosses the plane of every
 * station; where it lies inside each station's wall it lies inside the channel.
 */
import type { PlateSamples } from '../../design/index.ts';
import { polarRadius, wallRadius } from '../../design/index.ts';
import { atan2 } from '../../numeric/index.ts';

/** A line through a shape: x and y at z = 0 and their slopes over z, relative to its offset. */
export type Chord = Float64Array; // [4]

/** Channels that run steeper than this against the chord are met at their nearest point. */
const LEAST_COSINE = 0.1;

/** What the chords of one shape read, station after station: [loaded stations x LANE]. */
const LANE = 15;
const X = 0; // centre, relative to the shape's offset [mm]
const TANGENT = 3;
const FIRST = 6;
const SECOND = 9;
const RADIUS = 12; // of the inscribed circle [mm]
const STATION = 13; // index in the samples, or -1 where the wall is that circle
const CORE = 14; // half length of a slot's core [mm]; 0 for other walls and beside pockets
let lanes = new Float64Array(32 * LANE);

/** The shape whose chords are looked at. */
export interface SightShape {
  readonly samples: PlateSamples;
  readonly shape: number;
  /** Stations loaded. */
  readonly count: number;
}

/**
 * Loads every so many stations of a shape, the last always; later calls take this shape until
 * another one is loaded. Chords are tried by the dozen, packed stations more than halved
 * the time of a hundred shapes.
 */
export function loadSightShape(samples: PlateSamples, shape: number, stride: number): SightShape {
  const { stations, point_mm, tangent, first, second, bore_mm, reach_mm } = samples;
  if (lanes.length < stations * LANE) lanes = new Float64Array(2 * stations * LANE);
  const last = stations - 1;
  const section = samples.sections[shape];
  const isBare = section.kind === 'slot' && samples.pockets[shape].length === 0;
  const core = isBare ? section.aspect - 1 : 0;
  const table = lanes;
  let count = 0;
  blocking = 0;
  for (let i = 0; ; i = Math.min(last, i + stride)) {
    const row = shape * stations + i;
    const j = count * LANE;
    for (let d = 0; d < 3; d++) {
      table[j + X + d] = point_mm[3 * row + d];
      table[j + TANGENT + d] = tangent[3 * row + d];
      table[j + FIRST + d] = first[3 * row + d];
      table[j + SECOND + d] = second[3 * row + d];
    }
    const radius_mm = 0.5 * bore_mm[row];
    table[j + RADIUS] = radius_mm;
    table[j + STATION] = reach_mm[row] <= radius_mm + 1e-9 ? -1 : i;
    table[j + CORE] = core * radius_mm;
    count++;
    if (i === last) return { samples, shape, count };
  }
}

/** Where the chord crossed the last station, in the section frame. */
const crossing = new Float64Array(2);

/**
 * Distance from the chord's crossing of a station to its wall [mm], negative outside.
 *
 * Round, teardrop, polygon: R (1 - offset / polar radius), the distance to the nearest side, since
 * every side touches the inscribed circle. Slot: distance to the ends' arcs or the long sides. In a
 * pocket's window: along the ray to its floor, at most R.
 *
 * @param enough_mm pockets are looked at only below this clearance.
 */
function clearance(sight: SightShape, lane: number, chord: Chord, enough_mm: number): number {
  const table = lanes;
  const tx = table[lane + TANGENT];
  const ty = table[lane + TANGENT + 1];
  const slopeX = chord[2];
  const slopeY = chord[3];
  // From the station's centre to the chord at the centre's height.
  let dx = chord[0] + slopeX * table[lane + 2] - table[lane];
  let dy = chord[1] + slopeY * table[lane + 2] - table[lane + 1];
  const slope = slopeX * tx + slopeY * ty + table[lane + TANGENT + 2];
  const square = 1 + slopeX * slopeX + slopeY * slopeY;
  // Along the chord to the station's plane, or to the point nearest to its centre.
  const dz =
    slope * slope > LEAST_COSINE * LEAST_COSINE * square
      ? -(dx * tx + dy * ty) / slope
      : -(dx * slopeX + dy * slopeY) / square;
  dx += dz * slopeX;
  dy += dz * slopeY;
  const u = dx * table[lane + FIRST] + dy * table[lane + FIRST + 1] + dz * table[lane + FIRST + 2];
  const v =
    dx * table[lane + SECOND] + dy * table[lane + SECOND + 1] + dz * table[lane + SECOND + 2];
  const radius_mm = table[lane + RADIUS];
  const core = table[lane + CORE];
  if (core > 0) {
    crossing[0] = u;
    const past = Math.abs(u) - core;
    return radius_mm - (past > 0 ? Math.sqrt(past * past + v * v) : Math.abs(v));
  }
  const offset = Math.sqrt(u * u + v * v);
  const station = table[lane + STATION];
  if (station < 0 || offset === 0) return radius_mm - offset;
  crossing[0] = u;
  crossing[1] = v;
  return shapedClearance(sight, station, radius_mm, offset, enough_mm);
}

/** Whether clearances beyond what is enough may be understated: fits weigh stations by them. */
let isRough = false;

/** The same for sections that are not round and for stations beside a pocket. */
function shapedClearance(
  sight: SightShape,
  station: number,
  radius_mm: number,
  offset: number,
  enough_mm: number,
): number {
  const { samples, shape } = sight;
  // Every section contains its inscribed circle: where that is clear enough nothing else counts.
  if (isRough && radius_mm - offset >= enough_mm) return radius_mm - offset;
  const section = samples.sections[shape];
  const u = crossing[0];
  const v = crossing[1];
  const c = u / offset;
  const s = v / offset;
  let inside: number;
  if (section.kind === 'round') inside = radius_mm - offset;
  else if (section.kind === 'slot') {
    const past = Math.max(0, Math.abs(u) - (section.aspect - 1) * radius_mm);
    inside = radius_mm - Math.sqrt(past * past + v * v);
  } else {
    const roof = samples.roof[shape * samples.stations + station];
    inside = radius_mm * (1 - offset / polarRadius(section, 2 * radius_mm, roof, c, s));
  }
  if (inside >= enough_mm || samples.pockets[shape].length === 0) return inside;
  const wall = wallRadius(samples, shape, station, atan2(v, u), c, s);
  return Math.max(inside, Math.min(radius_mm, wall - offset));
}

/**
 * Least distance from the chord to the wall over the loaded stations [mm]; negative where it passes
 * outside.
 *
 * @param floor_mm returns as soon as the clearance falls below.
 */
export function chordClearance(sight: SightShape, chord: Chord, floor_mm: number): number {
  const end = sight.count * LANE;
  isRough = true;
  // What blocked the last chord blocks most others too: ten stations looked at became two.
  let least = clearance(sight, blocking, chord, Infinity);
  if (least < floor_mm) return least;
  for (let lane = 0; lane < end; lane += LANE) {
    const found = clearance(sight, lane, chord, least);
    if (found < least) {
      least = found;
      if (least < floor_mm) {
        blocking = lane;
        break;
      }
    }
  }
  return least;
}

/** Station of the loaded shape that blocked a chord last. */
let blocking = 0;

let weights = new Float64Array(64);
/** Where each station wants the chord: its centre, or the nearest point of a slot's core [S x 3]. */
let targets = new Float64Array(192);

/** Writes the weighted least-squares line through the targets of the loaded stations. */
function fitChord(count: number, out: Chord): void {
  const z0 = targets[3 * (count >> 1) + 2];
  let w = 0;
  let wz = 0;
  let wzz = 0;
  let wx = 0;
  let wxz = 0;
  let wy = 0;
  let wyz = 0;
  for (let i = 0; i < count; i++) {
    const weight = weights[i];
    const x = targets[3 * i];
    const y = targets[3 * i + 1];
    const z = targets[3 * i + 2] - z0;
    w += weight;
    wz += weight * z;
    wzz += weight * z * z;
    wx += weight * x;
    wxz += weight * x * z;
    wy += weight * y;
    wyz += weight * y * z;
  }
  const spread = w * wzz - wz * wz;
  out[2] = spread > 1e-12 * w * wzz ? (w * wxz - wz * wx) / spread : 0;
  out[3] = spread > 1e-12 * w * wzz ? (w * wyz - wz * wy) / spread : 0;
  out[0] = (wx - out[2] * wz) / w - out[2] * z0;
  out[1] = (wy - out[3] * wz) / w - out[3] * z0;
}

/** Any point of a slot's core, the line between the centres of its ends, is as good as its middle. */
function aimAtCore(index: number, aspect: number): void {
  const lane = index * LANE;
  const core_mm = (aspect - 1) * lanes[lane + RADIUS];
  const along = Math.min(core_mm, Math.max(-core_mm, crossing[0]));
  for (let d = 0; d < 3; d++) {
    targets[3 * index + d] = lanes[lane + X + d] + along * lanes[lane + FIRST + d];
  }
}

const trial = new Float64Array(4);

/**
 * The chord that keeps furthest inside the loaded shape, by reweighted least squares: stations that
 * a chord misses most pull hardest at the next one (Lawson 1961), which tends to the least greatest
 * miss.
 *
 * @param rounds greatest number of fits; ends early once fits no longer gain.
 * @param out receives the best chord met.
 * @param known_mm clearance of the chord in `out`, if it is one already.
 * @param enough_mm clearance with which to be content.
 * @returns clearance of the best chord [mm].
 */
export function clearestChord(
  sight: SightShape,
  rounds: number,
  out: Chord,
  known_mm = -Infinity,
  enough_mm = Infinity,
): number {
  const { count } = sight;
  if (weights.length < count) {
    weights = new Float64Array(2 * count);
    targets = new Float64Array(6 * count);
  }
  for (let i = 0; i < count; i++) {
    const lane = i * LANE;
    for (let d = 0; d < 3; d++) targets[3 * i + d] = lanes[lane + X + d];
    weights[i] = 1 / (lanes[lane + RADIUS] * lanes[lane + RADIUS]);
  }
  const section = sight.samples.sections[sight.shape];
  let best = known_mm;
  let fitted = -Infinity;
  let idle = 0;
  for (let round = 0; round < rounds && best < enough_mm; round++) {
    // A chord known already takes the place of the first fit.
    if (round === 0 && known_mm > -Infinity) trial.set(out);
    else fitChord(count, trial);
    isRough = false;
    let least = Infinity;
    let worst = 0;
    let total = 0;
    for (let i = 0; i < count; i++) {
      const lane = i * LANE;
      const found = clearance(sight, lane, trial, least);
      if (found < least) least = found;
      const ratio = Math.max(0, 1 - found / lanes[lane + RADIUS]);
      if (ratio > worst) worst = ratio;
      // The floor keeps a station that is met exactly now from being forgotten for good.
      weights[i] *= ratio + 0.02;
      if (section.kind === 'slot') aimAtCore(i, section.aspect);
      total += weights[i];
    }
    // Judged by the fits alone: the known chord is mostly better than the first of them.
    const gain = least - fitted;
    if (gain > 0) fitted = least;
    if (least > best) {
      best = least;
      out.set(trial);
    }
    // Rounds that no longer gain a hundredth of the radius, twice running, are the end; so is a
    // straight channel.
    idle = gain < 0.01 * lanes[RADIUS] ? idle + 1 : 0;
    if (idle === 2 || worst < 1e-3) break;
    const scale = 1 / total;
    for (let i = 0; i < count; i++) weights[i] *= scale;
  }
  return best;
}
