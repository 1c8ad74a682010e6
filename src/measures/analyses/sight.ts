/** Sight through the plate: the clearest straight line, and how much of the open area shows light. */
import type { PlateSamples } from '../../design/index.ts';
import { wallRadius } from '../../design/index.ts';
import { cos, radicalInverse, sin } from '../../numeric/index.ts';
import { directViewFactor } from '../../physics/index.ts';
import type { Analysis, Assessment } from '../assessment.ts';
import { chordClearance, clearestChord, loadSightShape, polishChord } from './sight-line.ts';
import type { Chord, SightShape } from './sight-line.ts';

export interface SightReport {
  /** Clearance of the clearest chord of each shape [M] [mm]; negative: no line of sight. */
  readonly margin_mm: Float64Array;
  /** That chord: x, y at z = 0 and slopes [M x 4]. */
  readonly chord: Float64Array;
  /** Greatest margin of the plate [mm]; negative infinity never occurs in a plate with channels. */
  readonly worst_mm: number;
}

/** Rounds of fitting at most. */
const ROUNDS = { fast: 8, exact: 120 } as const;
/** Small moves of the best chord at most. */
const TRIES = { fast: 48, exact: 4000 } as const;
/** Chords between port points that stand in for all lines. */
const PAIRS = { fast: 32, exact: 2048 } as const;

export const sightAnalysis: Analysis<SightReport> = {
  name: 'sight',
  run({ samples, exact }) {
    const margin_mm = new Float64Array(samples.shapeCount);
    const chord = new Float64Array(4 * samples.shapeCount);
    let worst_mm = -Infinity;
    for (let m = 0; m < samples.shapeCount; m++) {
      const best = chord.subarray(4 * m, 4 * m + 4);
      const sight = loadSightShape(samples, m, exact ? 1 : 2);
      margin_mm[m] = clearestChord(sight, exact ? ROUNDS.exact : ROUNDS.fast, best);
      // A fit that narrowly finds no way through may have stopped early: look again before saying so.
      const near_mm = 0.25 * samples.bore_mm[m * samples.stations];
      if (exact || (margin_mm[m] < 0 && margin_mm[m] > -near_mm)) {
        margin_mm[m] = searchPairs(sight, margin_mm[m], best, exact ? PAIRS.exact : PAIRS.fast);
        margin_mm[m] = polishChord(sight, best, margin_mm[m], exact ? TRIES.exact : TRIES.fast);
      }
      worst_mm = Math.max(worst_mm, margin_mm[m]);
    }
    return { margin_mm, chord, worst_mm };
  },
};

const pair = new Float64Array(4);
const ends = new Float64Array(4);

/** Tries the chords of the light leak too: sections that are not round can hide a better one. */
function searchPairs(sight: SightShape, margin_mm: number, out: Chord, count: number): number {
  let best = margin_mm;
  for (let k = 0; k < count; k++) {
    placePair(sight.samples, sight.shape, k);
    const clearance = chordClearance(sight, pair, best);
    if (clearance > best) {
      best = clearance;
      out.set(pair);
    }
  }
  return best;
}

/** Two points of the unit disc per pair: cosine, sine, angle, radius of each [pairs x 8]. */
const discs = new Float64Array(8 * PAIRS.exact);
for (let k = 0; k < PAIRS.exact; k++) {
  for (let end = 0; end < 2; end++) {
    const theta_rad = 2 * Math.PI * radicalInverse(k + 1, end === 0 ? 2 : 5);
    const v = radicalInverse(k + 1, end === 0 ? 3 : 7);
    discs.set([cos(theta_rad), sin(theta_rad), theta_rad, Math.sqrt(v)], 8 * k + 4 * end);
  }
}

/** Puts the k-th chord between the ports into `pair` and its end points into `ends`. */
function placePair(samples: PlateSamples, shape: number, k: number): void {
  weight = 1;
  placePoint(samples, shape, 0, 8 * k, 0);
  placePoint(samples, shape, samples.stations - 1, 8 * k + 4, 2);
  const from = 3 * shape * samples.stations;
  const to = from + 3 * (samples.stations - 1);
  const z0 = samples.point_mm[from + 2];
  const height = samples.point_mm[to + 2] - z0;
  pair[2] = (ends[2] - ends[0]) / height;
  pair[3] = (ends[3] - ends[1]) / height;
  pair[0] = ends[0] - pair[2] * z0;
  pair[1] = ends[1] - pair[3] * z0;
}

/**
 * Puts a point of a port into `ends`, in the plane of the plate's face: even over angle and over the
 * square of the radius, weighted later by the wall radius.
 */
function placePoint(
  samples: PlateSamples,
  shape: number,
  station: number,
  disc: number,
  at: number,
): void {
  const c = discs[disc];
  const s = discs[disc + 1];
  const wall = wallRadius(samples, shape, station, discs[disc + 2], c, s);
  const radius = wall * discs[disc + 3];
  weight *= wall * wall;
  const i = 3 * (shape * samples.stations + station);
  // The section stands across the channel; along the channel to the face.
  const slide = (c * samples.first[i + 2] + s * samples.second[i + 2]) / samples.tangent[i + 2];
  for (let d = 0; d < 2; d++) {
    const across = c * samples.first[i + d] + s * samples.second[i + d];
    ends[at + d] = samples.point_mm[i + d] + radius * (across - slide * samples.tangent[i + d]);
  }
}

/** Squares of the wall radii towards the two end points: density of port area over the angles. */
let weight = 1;

export interface LeakReport {
  /** Share of the light entering each shape's port that passes straight through [M]. */
  readonly share: Float64Array;
  /** The same over the plate, weighted by port area. */
  readonly plate: number;
}

export const leakAnalysis: Analysis<LeakReport> = {
  name: 'light leak',
  run(assessment) {
    const { samples } = assessment;
    const share = new Float64Array(samples.shapeCount);
    for (let m = 0; m < samples.shapeCount; m++) share[m] = shapeLeak(assessment, m);
    let open = 0;
    let leak = 0;
    for (let n = 0; n < samples.channelCount; n++) {
      const shape = samples.shapeOf[n];
      const area = portArea(samples, shape, 0);
      open += area;
      leak += area * share[shape];
    }
    return { share, plate: open > 0 ? leak / open : 0 };
  },
};

/** Area of a port in the plane of its face [mm2]. */
export function portArea(samples: PlateSamples, shape: number, station: number): number {
  const row = shape * samples.stations + station;
  return samples.area_mm2[row] / Math.max(0.05, Math.abs(samples.tangent[3 * row + 2]));
}

/**
 * Share of the light of a diffuse inlet port that reaches the outlet port directly.
 *
 *   F = (1/A1) double integral of cos^2 / (pi r^2) over visible pairs of points
 *
 * Never less than what passes a straight tube about the clearest chord, so it is above zero as soon
 * as any line of sight is known.
 */
function shapeLeak(assessment: Assessment, shape: number): number {
  const { samples, exact } = assessment;
  const sight = assessment.get(sightAnalysis);
  const margin_mm = sight.margin_mm[shape];
  if (margin_mm <= 0) return 0;
  const base = shape * samples.stations;
  const last = samples.stations - 1;
  const height = samples.point_mm[3 * (base + last) + 2] - samples.point_mm[3 * base + 2];
  const loaded = loadSightShape(samples, shape, exact ? 1 : 2);
  const count = exact ? PAIRS.exact : PAIRS.fast;
  let sum = 0;
  let entrance = 0;
  for (let k = 0; k < count; k++) {
    placePair(samples, shape, k);
    entrance += weight;
    if (chordClearance(loaded, pair, 0) < 0) continue;
    const square = height * height * (1 + pair[2] * pair[2] + pair[3] * pair[3]);
    // Both faces lie across z: cos = height / distance at either end.
    sum += (weight * height * height) / (square * square);
  }
  const outlet = portArea(samples, shape, last);
  const sampled = (outlet * sum) / (Math.PI * entrance);
  const sx = sight.chord[4 * shape + 2];
  const sy = sight.chord[4 * shape + 3];
  const along = height * Math.sqrt(1 + sx * sx + sy * sy);
  const tube = (Math.PI * margin_mm * margin_mm) / portArea(samples, shape, 0);
  return Math.max(sampled, tube * directViewFactor(along / (2 * margin_mm)));
}
