/** Sight through channels whose ends look in different directions, and through plenums. */
import { wallRadius } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { cos, radicalInverse, sin } from '../../numeric/index.ts';
import { directViewFactor } from '../../physics/index.ts';
import { bankOf } from './banks.ts';
import { chordClearance, clearestChord, loadSightShape } from './sight-line.ts';
import type { Chord } from './sight-line.ts';
import { polishChord } from './sight-polish.ts';

/** Chords over the bend: so many inlet points times so many outlet points. */
const GRID = 5;
/** Further chords, anywhere in the two ports; small moves of the best; rounds of fitting. */
const PAIRS = { fast: 16, exact: 1024 } as const;
const TRIES = { fast: 48, exact: 2000 } as const;
const ROUNDS = { fast: 4, exact: 40 } as const;
/** What a plenum that nothing straight can pass reads [mm], at most. */
const DEEP_mm = 2;

const inlet = new Float64Array(3);
const outlet = new Float64Array(3);
const chord = new Float64Array(4);

/** As `sightAnalysis`, for plates with side ends. */
export function sideSight(
  samples: PlateSamples,
  exact: boolean,
): { margin_mm: Float64Array; chord: Float64Array; worst_mm: number } {
  const shapes = samples.shapeCount;
  const found = {
    margin_mm: new Float64Array(shapes),
    chord: new Float64Array(4 * shapes),
    worst_mm: -Infinity,
  };
  const hidden = plenumMargin(samples);
  for (let m = 0; m < shapes; m++) {
    const best = found.chord.subarray(4 * m, 4 * m + 4);
    found.margin_mm[m] = bankOf(samples, m) > 0 ? hidden : searchSide(samples, m, exact, best);
    found.worst_mm = Math.max(found.worst_mm, found.margin_mm[m]);
  }
  return found;
}

function searchSide(samples: PlateSamples, shape: number, exact: boolean, best: Chord): number {
  const form = exact ? 'exact' : 'fast';
  const sight = loadSightShape(samples, shape, exact ? 1 : 2);
  let margin = clearestChord(sight, ROUNDS[form], best);
  const take = (): void => {
    if (!layChord()) return;
    const clearance = chordClearance(sight, chord, margin);
    if (clearance <= margin) return;
    margin = clearance;
    best.set(chord);
  };
  for (let i = 0; i < GRID; i++) {
    for (let j = 0; j < GRID; j++) {
      // Low in the outlet and far back in the inlet lie the two ends of a line round a bend.
      placeOnWay(samples, shape, 0, (2 * i) / (GRID - 1) - 1, inlet);
      placeOnWay(samples, shape, 1, (2 * j) / (GRID - 1) - 1, outlet);
      take();
    }
  }
  for (let k = 0; k < PAIRS[form]; k++) {
    placePair(samples, shape, k);
    take();
  }
  return polishChord(sight, best, margin, TRIES[form]);
}

/** The chord through both points; false where it lies level, which no chord over z can be. */
function layChord(): boolean {
  const rise = outlet[2] - inlet[2];
  if (Math.abs(rise) < 1e-6) return false;
  chord[2] = (outlet[0] - inlet[0]) / rise;
  chord[3] = (outlet[1] - inlet[1]) / rise;
  chord[0] = inlet[0] - chord[2] * inlet[2];
  chord[1] = inlet[1] - chord[3] * inlet[2];
  return true;
}

/** Point of an end's section on the line that the other end lies along, by its share of the wall. */
function placeOnWay(
  samples: PlateSamples,
  shape: number,
  end: 0 | 1,
  share: number,
  out: Float64Array,
): void {
  const { stations, point_mm, first, second } = samples;
  const base = 3 * shape * stations;
  const here = base + 3 * end * (stations - 1);
  const there = base + 3 * (1 - end) * (stations - 1);
  let a = 0;
  let b = 0;
  for (let d = 0; d < 3; d++) {
    const way = point_mm[there + d] - point_mm[here + d];
    a += way * first[here + d];
    b += way * second[here + d];
  }
  const length = Math.sqrt(a * a + b * b);
  const c = length > 0 ? a / length : 1;
  const s = length > 0 ? b / length : 0;
  placePoint(samples, shape, end, share < 0 ? -c : c, share < 0 ? -s : s, Math.abs(share), out);
}

/** Point in an end's section; returns the square of the wall's radius there. */
function placePoint(
  samples: PlateSamples,
  shape: number,
  end: 0 | 1,
  c: number,
  s: number,
  share: number,
  out: Float64Array,
): number {
  const { stations, point_mm, first, second } = samples;
  const station = end * (stations - 1);
  const i = 3 * (shape * stations + station);
  // Pockets never reach an end: the bare section will do.
  const wall = wallRadius(samples, shape, station, 0, c, s);
  for (let d = 0; d < 3; d++) {
    out[d] = point_mm[i + d] + share * wall * (c * first[i + d] + s * second[i + d]);
  }
  return wall * wall;
}

/** Points of both ports for the k-th chord; returns the density of port area there. */
function placePair(samples: PlateSamples, shape: number, k: number): number {
  let weight = 1;
  for (let end: 0 | 1 = 0; ; end = 1) {
    const theta = 2 * Math.PI * radicalInverse(k + 1, end === 0 ? 2 : 5);
    const share = Math.sqrt(radicalInverse(k + 1, end === 0 ? 3 : 7));
    const out = end === 0 ? inlet : outlet;
    weight *= placePoint(samples, shape, end, cos(theta), sin(theta), share, out);
    if (end === 1) return weight;
  }
}

/**
 * Margin of any line through the plenum: negative where none can pass one channel of each bank.
 *
 * A line through a channel of length L and greatest width d leans at most atan(d/L) against it. Into
 * the plenum channels stand across those out of it, so a line through both needs
 * (d1/L1)(d2/L2) >= 1. Where that cannot be excluded the margin is half the narrowest bore.
 */
function plenumMargin(samples: PlateSamples): number {
  const leans = [0, 0, 0];
  let narrowest = Infinity;
  for (let m = 0; m < samples.shapeCount; m++) {
    const bank = bankOf(samples, m);
    if (bank === 0) continue;
    const lean = widthOf(samples, m) / samples.length_mm[m];
    leans[bank] = Math.max(leans[bank], lean);
    narrowest = Math.min(narrowest, samples.bore_mm[m * samples.stations]);
  }
  const product = leans[1] * leans[2];
  return product >= 1 ? 0.5 * narrowest : -DEEP_mm * (1 - product);
}

function widthOf({ reach_mm, stations }: PlateSamples, shape: number): number {
  let reach = 0;
  for (let k = shape * stations; k < (shape + 1) * stations; k++) {
    reach = Math.max(reach, reach_mm[k]);
  }
  return 2 * reach;
}

/**
 * Share of the light of a diffuse inlet port that reaches the outlet port directly.
 *
 *   F = (1/A1) double integral of cos1 cos2 / (pi r^2) over visible pairs of points
 *
 * with the ports taken as the end sections. Of a channel into a plenum: what leaves it directly, an
 * upper bound of what may go on through the rim.
 *
 * @param margin_mm from `sideSight`; nothing passes below 0.
 */
export function sideLeak(
  samples: PlateSamples,
  shape: number,
  margin_mm: number,
  count: number,
): number {
  if (margin_mm <= 0 || bankOf(samples, shape) === 2) return 0;
  if (bankOf(samples, shape) === 1) {
    return directViewFactor(samples.length_mm[shape] / widthOf(samples, shape));
  }
  const { stations, tangent, area_mm2 } = samples;
  const first = shape * stations;
  const last = first + stations - 1;
  const sight = loadSightShape(samples, shape, 1);
  let sum = 0;
  let density = 0;
  for (let k = 0; k < count; k++) {
    const weight = placePair(samples, shape, k);
    density += weight;
    if (!layChord() || chordClearance(sight, chord, 0) < 0) continue;
    let square = 0;
    let from = 0;
    let into = 0;
    for (let d = 0; d < 3; d++) {
      const way = outlet[d] - inlet[d];
      square += way * way;
      from += way * tangent[3 * first + d];
      into += way * tangent[3 * last + d];
    }
    sum += (weight * Math.max(0, from) * Math.max(0, into)) / (square * square);
  }
  return density > 0 ? (area_mm2[last] * sum) / (Math.PI * density) : 0;
}
