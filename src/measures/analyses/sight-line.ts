/**
 * Straight lines through a channel: how clear a given chord is and which chord is clearest.
 *
 * A chord runs through (x, y) = (p[0] + p[2] z, p[1] + p[3] z). It crosses the plane of every
 * station; where it lies inside each station's wall it lies inside the channel.
 */
import type { PlateSamples } from '../../design/index.ts';
import { polarRadius, wallRadius } from '../../design/index.ts';
import { atan2, radicalInverse } from '../../numeric/index.ts';

/** A line through a shape: x and y at z = 0 and their slopes over z, relative to its offset. */
export type Chord = Float64Array; // [4]

/** Channels that run steeper than this against the chord are met at their nearest point. */
const LEAST_COSINE = 0.1;

/** Where the chord crosses a station, in the section frame. */
const crossing = new Float64Array(2);

function cross(samples: PlateSamples, row: number, chord: Chord): void {
  const { point_mm, tangent, first, second } = samples;
  const at = 3 * row;
  // From the station's centre to the chord at the centre's height.
  let dx = chord[0] + chord[2] * point_mm[at + 2] - point_mm[at];
  let dy = chord[1] + chord[3] * point_mm[at + 2] - point_mm[at + 1];
  const slope = chord[2] * tangent[at] + chord[3] * tangent[at + 1] + tangent[at + 2];
  const square = 1 + chord[2] * chord[2] + chord[3] * chord[3];
  // Along the chord to the station's plane, or to the point nearest to its centre.
  const dz =
    slope * slope > LEAST_COSINE * LEAST_COSINE * square
      ? -(dx * tangent[at] + dy * tangent[at + 1]) / slope
      : -(dx * chord[2] + dy * chord[3]) / square;
  dx += dz * chord[2];
  dy += dz * chord[3];
  crossing[0] = dx * first[at] + dy * first[at + 1] + dz * first[at + 2];
  crossing[1] = dx * second[at] + dy * second[at + 1] + dz * second[at + 2];
}

/**
 * Distance from the crossing to the wall of its station [mm], negative outside.
 *
 * Round, teardrop, polygon: R (1 - offset / polar radius), the distance to the nearest side, since
 * every side touches the inscribed circle. Slot: distance to the ends' arcs or the long sides. In a
 * pocket's window: along the ray to its floor, at most R.
 */
function clearance(samples: PlateSamples, shape: number, station: number): number {
  const row = shape * samples.stations + station;
  const radius_mm = 0.5 * samples.bore_mm[row];
  const section = samples.sections[shape];
  const u = crossing[0];
  const v = crossing[1];
  const offset = Math.sqrt(u * u + v * v);
  if (offset === 0) return radius_mm;
  if (samples.reach_mm[row] <= radius_mm + 1e-9) return radius_mm - offset;
  const c = u / offset;
  const s = v / offset;
  let inside: number;
  if (section.kind === 'slot') {
    const past = Math.max(0, Math.abs(u) - (section.aspect - 1) * radius_mm);
    inside = radius_mm - Math.sqrt(past * past + v * v);
  } else {
    const polar = polarRadius(section, samples.bore_mm[row], samples.roof[row], c, s);
    inside = radius_mm * (1 - offset / polar);
  }
  if (samples.pockets[shape].length === 0) return inside;
  const wall = wallRadius(samples, shape, station, atan2(v, u), c, s);
  return Math.max(inside, Math.min(radius_mm, wall - offset));
}

/**
 * Least distance from the chord to the wall over all stations [mm]; negative where it passes outside.
 *
 * @param stride every so many stations (the last is always met).
 * @param floor_mm returns as soon as the clearance falls below.
 */
export function chordClearance(
  samples: PlateSamples,
  shape: number,
  chord: Chord,
  stride: number,
  floor_mm: number,
): number {
  const last = samples.stations - 1;
  let least = Infinity;
  for (let i = 0; ; i = Math.min(last, i + stride)) {
    cross(samples, shape * samples.stations + i, chord);
    least = Math.min(least, clearance(samples, shape, i));
    if (i === last || least < floor_mm) return least;
  }
}

let weights = new Float64Array(64);
/** Where each station wants the chord: its centre, or the nearest point of a slot's core [S x 3]. */
let targets = new Float64Array(192);

/** Writes the weighted least-squares line through the targets. */
function fitChord(last: number, stride: number, out: Chord): void {
  const z0 = targets[3 * (last >> 1) + 2];
  let w = 0;
  let wz = 0;
  let wzz = 0;
  let wx = 0;
  let wxz = 0;
  let wy = 0;
  let wyz = 0;
  for (let i = 0; ; i = Math.min(last, i + stride)) {
    const at = 3 * i;
    const weight = weights[i];
    const z = targets[at + 2] - z0;
    w += weight;
    wz += weight * z;
    wzz += weight * z * z;
    wx += weight * targets[at];
    wxz += weight * targets[at] * z;
    wy += weight * targets[at + 1];
    wyz += weight * targets[at + 1] * z;
    if (i === last) break;
  }
  const spread = w * wzz - wz * wz;
  out[2] = spread > 1e-12 * w * wzz ? (w * wxz - wz * wx) / spread : 0;
  out[3] = spread > 1e-12 * w * wzz ? (w * wyz - wz * wy) / spread : 0;
  out[0] = (wx - out[2] * wz) / w - out[2] * z0;
  out[1] = (wy - out[3] * wz) / w - out[3] * z0;
}

/** Any point of a slot's core, the line between the centres of its ends, is as good as its middle. */
function aimAtCore(samples: PlateSamples, shape: number, station: number, aspect: number): void {
  const row = shape * samples.stations + station;
  const core_mm = 0.5 * (aspect - 1) * samples.bore_mm[row];
  const along = Math.min(core_mm, Math.max(-core_mm, crossing[0]));
  for (let d = 0; d < 3; d++) {
    targets[3 * station + d] = samples.point_mm[3 * row + d] + along * samples.first[3 * row + d];
  }
}

const trial = new Float64Array(4);

/**
 * The chord that keeps furthest inside the channel, by reweighted least squares: stations that a
 * chord misses most pull hardest at the next one (Lawson 1961), which tends to the least greatest
 * miss.
 *
 * @param rounds greatest number of fits; ends early once fits no longer gain.
 * @param out receives the best chord met.
 * @returns its clearance [mm].
 */
export function clearestChord(
  samples: PlateSamples,
  shape: number,
  stride: number,
  rounds: number,
  out: Chord,
): number {
  const last = samples.stations - 1;
  if (weights.length <= last) {
    weights = new Float64Array(2 * samples.stations);
    targets = new Float64Array(6 * samples.stations);
  }
  const from = 3 * shape * samples.stations;
  targets.set(samples.point_mm.subarray(from, from + 3 * samples.stations));
  const section = samples.sections[shape];
  for (let i = 0; i <= last; i++) {
    const bore = samples.bore_mm[shape * samples.stations + i];
    weights[i] = 1 / (bore * bore);
  }
  let best = -Infinity;
  for (let round = 0; round < rounds; round++) {
    fitChord(last, stride, trial);
    let least = Infinity;
    let worst = 0;
    let total = 0;
    for (let i = 0; ; i = Math.min(last, i + stride)) {
      cross(samples, shape * samples.stations + i, trial);
      const found = clearance(samples, shape, i);
      least = Math.min(least, found);
      const ratio = Math.max(0, 1 - (2 * found) / samples.bore_mm[shape * samples.stations + i]);
      worst = Math.max(worst, ratio);
      // The floor keeps a station that is met exactly now from being forgotten for good.
      weights[i] *= ratio + 0.02;
      if (section.kind === 'slot') aimAtCore(samples, shape, i, section.aspect);
      total += weights[i];
      if (i === last) break;
    }
    if (least > best) {
      best = least;
      out.set(trial);
    }
    // A straight channel: nothing left to gain.
    if (worst < 1e-3) break;
    const scale = 1 / total;
    for (let i = 0; ; i = Math.min(last, i + stride)) {
      weights[i] *= scale;
      if (i === last) break;
    }
  }
  return best;
}

const keep = new Float64Array(4);

/**
 * Betters a chord by moving its two ends about, by up to half the section's reach at first and a
 * thousandth of the bore at last.
 *
 * @param chord the chord, changed in place.
 * @returns its clearance [mm].
 */
export function polishChord(
  samples: PlateSamples,
  shape: number,
  chord: Chord,
  start_mm: number,
): number {
  const from = 3 * shape * samples.stations;
  const z0 = samples.point_mm[from + 2];
  const z1 = samples.point_mm[from + 3 * (samples.stations - 1) + 2];
  let best = start_mm;
  let move_mm = 0.5 * samples.reach_mm[shape * samples.stations];
  const least_mm = 0.001 * samples.bore_mm[shape * samples.stations];
  for (let tries = 0; move_mm >= least_mm && tries < 4000;) {
    let isBetter = false;
    for (let way = 0; way < 48; way++) {
      keep.set(chord);
      tries++;
      // Where several stations bind at once only slanted moves help: evenly spread, never repeated.
      for (let axis = 0; axis < 2; axis++) {
        const inlet = move_mm * (2 * radicalInverse(tries, axis === 0 ? 2 : 3) - 1);
        const outlet = move_mm * (2 * radicalInverse(tries, axis === 0 ? 5 : 7) - 1);
        const slope = (outlet - inlet) / (z1 - z0);
        chord[axis] += inlet - slope * z0;
        chord[axis + 2] += slope;
      }
      const found = chordClearance(samples, shape, chord, 1, best);
      if (found > best) {
        best = found;
        isBetter = true;
      } else chord.set(keep);
    }
    if (!isBetter) move_mm *= 0.7;
  }
  return best;
}
