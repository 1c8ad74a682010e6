/** Sight through the plate: the clearest straight line, and how much of the open area shows light. */
import type { PlateSamples } from '../../design/index.ts';
import { endRise, wallRadius } from '../../design/index.ts';
import { cos, radicalInverse, sin } from '../../numeric/index.ts';
import { directViewFactor } from '../../physics/index.ts';
import type { Analysis, Assessment } from '../assessment.ts';
import { bankOf } from './banks.ts';
import { sideLeak, sideSight } from './side-sight.ts';
import { BOUND_ROUNDS, sightBound } from './sight-bound.ts';
import { chordClearance, clearestChord, loadSightShape } from './sight-line.ts';
import type { Chord, SightShape } from './sight-line.ts';
import { polishChord } from './sight-polish.ts';
import { tipsAnalysis } from './tips.ts';

interface SightReport {
  /**
   * Clearance of the clearest chord found in each shape [M] [mm]; negative: no line of sight. Shapes
   * that cannot be the plate's clearest are not searched to the end: a positive margin is then what
   * the first clear chord has, a negative one what no chord exceeds.
   */
  readonly margin_mm: Float64Array;
  /** That chord: x, y at z = 0 and slopes [M x 4]. */
  readonly chord: Float64Array;
  /** Greatest margin of the plate [mm]; negative infinity never occurs in a plate with channels. */
  readonly worst_mm: number;
}

/** Rounds of fitting at most. */
const ROUNDS = { fast: 8, exact: 120 } as const;
/** The same for shapes beside a clearer one, where only a narrow gap, with next to no light, is missed. */
const MINOR_ROUNDS = 4;
/** Small moves of the best chord at most. */
const TRIES = { fast: 48, exact: 4000 } as const;
/** Chords between port points that stand in for all lines. */
const PAIRS = { fast: 32, exact: 2048 } as const;
/**
 * Chords of the exact light leak: so many per plate at most, shared among the shapes by the area of
 * their ports, and for each no fewer than the least and no more than all pairs.
 */
const PLATE_CHORDS = 32768;
const LEAST_CHORDS = 256;
/** Stations between two that `sightBound` looks at. */
const BOUND_STRIDE = { fast: 3, exact: 1 } as const;
/** A chord this close to its bound is the clearest for all purposes [mm]. */
const CLOSE_mm = 0.01;

export const sightAnalysis: Analysis<SightReport> = {
  name: 'sight',
  run(assessment) {
    const { exact } = assessment;
    const samples = assessment.get(tipsAnalysis);
    if (samples.sides !== null) return sideSight(samples, exact);
    const form = exact ? 'exact' : 'fast';
    const shapes = samples.shapeCount;
    const margin_mm = new Float64Array(shapes);
    const chord = new Float64Array(4 * shapes);
    const bound_mm = new Float64Array(shapes);
    let likeliest = 0;
    for (let m = 0; m < shapes; m++) {
      const guess = chord.subarray(4 * m, 4 * m + 4);
      bound_mm[m] = sightBound(samples, m, BOUND_STRIDE[form], BOUND_ROUNDS[form], guess);
      if (bound_mm[m] > bound_mm[likeliest]) likeliest = m;
    }
    // The likeliest first: once a clear chord is known, most shapes are settled by their bounds.
    // Halves the light stage of a hundred different channels (experiments/bench/evaluate).
    let worst_mm = -Infinity;
    for (let n = 0; n < shapes; n++) {
      const m = n === 0 ? likeliest : n <= likeliest ? n - 1 : n;
      const best = chord.subarray(4 * m, 4 * m + 4);
      margin_mm[m] = searchShape(samples, m, form, bound_mm[m], worst_mm, best);
      worst_mm = Math.max(worst_mm, margin_mm[m]);
    }
    return { margin_mm, chord, worst_mm };
  },
};

/** Margin of one shape, looked for only as far as it matters beside the worst so far. */
function searchShape(
  samples: PlateSamples,
  shape: number,
  form: 'fast' | 'exact',
  bound_mm: number,
  worst_mm: number,
  best: Chord,
): number {
  if (bound_mm <= 0 && bound_mm <= worst_mm) return bound_mm;
  const sight = loadSightShape(samples, shape, form === 'exact' ? 1 : 2);
  // Beside a clearer shape only whether light passes at all is of interest.
  const isMinor = bound_mm <= worst_mm;
  const enough_mm = isMinor ? Number.MIN_VALUE : bound_mm - CLOSE_mm;
  let margin_mm = chordClearance(sight, best, -Infinity);
  if (margin_mm < enough_mm) {
    const rounds = isMinor && form === 'fast' ? MINOR_ROUNDS : ROUNDS[form];
    // The exact form fits afresh: from the bound's line it more often ends in a lesser optimum.
    const known_mm = form === 'exact' ? -Infinity : margin_mm;
    margin_mm = clearestChord(sight, rounds, best, known_mm, enough_mm);
  }
  if (margin_mm >= enough_mm) return margin_mm;
  // A fit that narrowly finds no way through may have stopped early: look again before saying so.
  // Of some 2000 such shapes of tangled plates 11 let light pass, all found within 0.1 bores.
  const near_mm = 0.1 * samples.bore_mm[shape * samples.stations];
  const isNear = !isMinor && margin_mm < 0 && margin_mm > -near_mm;
  if (form === 'exact' || isNear) {
    margin_mm = searchPairs(sight, margin_mm, best, PAIRS[form], enough_mm);
    margin_mm = polishChord(sight, best, margin_mm, TRIES[form], enough_mm);
  }
  return margin_mm;
}

const pair = new Float64Array(4);
/**
 * Point of a port, and the wall radius towards it; after both ports the squares of both radii, the
 * density of port area over the angles. (A number of the module would be made anew at each write.)
 */
const ends = new Float64Array(3);

/** Tries the chords of the light leak too: sections that are not round can hide a better one. */
function searchPairs(
  sight: SightShape,
  margin_mm: number,
  out: Chord,
  count: number,
  enough_mm: number,
): number {
  let best = margin_mm;
  loadPorts(sight.samples, sight.shape);
  for (let k = 0; k < count && best < enough_mm; k++) {
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

/** Both ports of a shape as chords need them: [2 x PORT] numbers, filled by `loadPorts`. */
const PORT = 8;
const ports = new Float64Array(2 * PORT);

/**
 * Loads the ports of a shape: centre 0-2, and what a step along the section's axes moves in the
 * plane of the face, 3-4 and 5-6: the section stands across the channel, so the step is carried on
 * along the channel to the face. Wall radius 7 where it is the same all round, else 0.
 */
function loadPorts(samples: PlateSamples, shape: number): void {
  const { first, second, tangent, point_mm, stations } = samples;
  for (let end = 0; end < 2; end++) {
    const row = shape * stations + end * (stations - 1);
    const i = 3 * row;
    const at = end * PORT;
    const slideU = first[i + 2] / tangent[i + 2];
    const slideV = second[i + 2] / tangent[i + 2];
    for (let d = 0; d < 3; d++) ports[at + d] = point_mm[i + d];
    for (let d = 0; d < 2; d++) {
      ports[at + 3 + d] = first[i + d] - slideU * tangent[i + d];
      ports[at + 5 + d] = second[i + d] - slideV * tangent[i + d];
    }
    const radius_mm = 0.5 * samples.bore_mm[row];
    const isBare = samples.reach_mm[row] <= radius_mm + 1e-9;
    ports[at + 7] = isBare ? radius_mm : 0;
  }
}

/** Puts the k-th chord between the loaded ports of a shape into `pair`. */
function placePair(samples: PlateSamples, shape: number, k: number): void {
  placePoint(samples, shape, 0, 8 * k);
  const x = ends[0];
  const y = ends[1];
  const inlet = ends[2];
  placePoint(samples, shape, 1, 8 * k + 4);
  const walls = inlet * ends[2];
  ends[2] = walls * walls;
  const z0 = ports[2];
  const scale = 1 / (ports[PORT + 2] - z0);
  pair[2] = (ends[0] - x) * scale;
  pair[3] = (ends[1] - y) * scale;
  pair[0] = x - pair[2] * z0;
  pair[1] = y - pair[3] * z0;
}

/**
 * Puts a point of a port into `ends`, in the plane of the plate's face: even over angle and over the
 * square of the radius, weighted later by the wall radius.
 */
function placePoint(samples: PlateSamples, shape: number, end: number, disc: number): void {
  const c = discs[disc];
  const s = discs[disc + 1];
  const at = end * PORT;
  let wall = ports[at + 7];
  if (wall === 0) {
    const station = end * (samples.stations - 1);
    wall = wallRadius(samples, shape, station, discs[disc + 2], c, s);
  }
  const radius = wall * discs[disc + 3];
  ends[2] = wall;
  ends[0] = ports[at] + radius * (c * ports[at + 3] + s * ports[at + 5]);
  ends[1] = ports[at + 1] + radius * (c * ports[at + 4] + s * ports[at + 6]);
}

interface LeakReport {
  /** Share of the light entering each shape's port that passes straight through [M]. */
  readonly share: Float64Array;
  /** The same over the plate, weighted by port area. */
  readonly plate: number;
}

export const leakAnalysis: Analysis<LeakReport> = {
  name: 'light leak',
  run(assessment) {
    const samples = assessment.get(tipsAnalysis);
    const share = new Float64Array(samples.shapeCount);
    const seen = new Float64Array(samples.shapeCount);
    const sight = assessment.get(sightAnalysis);
    let lit = 0;
    for (let n = 0; n < samples.channelCount; n++) {
      const shape = samples.shapeOf[n];
      if (sight.margin_mm[shape] <= 0) continue;
      const area = portArea(samples, shape, 0);
      seen[shape] += area;
      lit += area;
    }
    // Each shape goes on in the sequence where the one before it stopped: many like shapes together
    // are then sampled as evenly as one alone.
    let from = 0;
    for (let m = 0; m < samples.shapeCount; m++) {
      if (seen[m] === 0) continue;
      const part = Math.round((PLATE_CHORDS * seen[m]) / lit);
      const count = assessment.exact
        ? Math.min(PAIRS.exact, Math.max(LEAST_CHORDS, part))
        : PAIRS.fast;
      share[m] =
        samples.sides === null
          ? shapeLeak(assessment, m, assessment.exact ? from : 0, count)
          : sideLeak(samples, m, sight.margin_mm[m], count);
      from = (from + count) % PAIRS.exact;
    }
    let open = 0;
    let leak = 0;
    for (let n = 0; n < samples.channelCount; n++) {
      const shape = samples.shapeOf[n];
      if (bankOf(samples, shape) === 2) continue;
      const area = portArea(samples, shape, 0);
      open += area;
      leak += area * share[shape];
    }
    return { share, plate: open > 0 ? leak / open : 0 };
  },
};

/** Area of a port in the plane of its face, or in the surface that a side end opens in [mm2]. */
export function portArea(samples: PlateSamples, shape: number, station: number): number {
  const row = shape * samples.stations + station;
  const rise =
    samples.sides === null
      ? samples.tangent[3 * row + 2]
      : endRise(samples, shape, station === 0 ? 0 : 1);
  return samples.area_mm2[row] / Math.max(0.05, Math.abs(rise));
}

/**
 * Share of the light of a diffuse inlet port that reaches the outlet port directly.
 *
 *   F = (1/A1) double integral of cos^2 / (pi r^2) over visible pairs of points
 *
 * Never less than what passes a straight tube about the clearest chord, so it is above zero as soon
 * as any line of sight is known.
 *
 * @param from @param count pairs of the sequence to sample, which begins again at its end.
 */
function shapeLeak(assessment: Assessment, shape: number, from: number, count: number): number {
  const { exact } = assessment;
  const samples = assessment.get(tipsAnalysis);
  const sight = assessment.get(sightAnalysis);
  const margin_mm = sight.margin_mm[shape];
  const base = shape * samples.stations;
  const last = samples.stations - 1;
  const height = samples.point_mm[3 * (base + last) + 2] - samples.point_mm[3 * base + 2];
  const loaded = loadSightShape(samples, shape, exact ? 1 : 2);
  loadPorts(samples, shape);
  let sum = 0;
  let entrance = 0;
  for (let k = 0; k < count; k++) {
    placePair(samples, shape, (from + k) % PAIRS.exact);
    const weight = ends[2];
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
