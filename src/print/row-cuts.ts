/** Flat cuts along the rows of a plate, whichever way they run: where a perforated plate tears. */
import type { Outline } from '../brief/index.ts';
import { outlinePolygon } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { atan2 } from '../numeric/index.ts';
import { addBoxes, layBoxes } from './cut-boxes.ts';
import { addPlenum } from './plenum.ts';

/** Planes per direction, and from which share of the largest section on a plane counts. */
export const ROW_CUT = { planes: 160, leastSection: 0.1 } as const;

/** Directions looked at in the estimate, and stations per step. */
const DIRECTIONS = 2;
const STRIDE = 4;
const PLANES = ROW_CUT.planes;
const LEAST_SECTION = ROW_CUT.leastSection;
/** Channels whose neighbours are looked at, at most. */
const PROBES = 10;
/** Neighbours up to this many times the nearest distance tell directions of rows. */
const NEAR = 2.1;
const BINS = 90;
/** Rows nearer than this to x or y are seen by the plain cuts [sine of 0.5 degrees]. */
const PLAIN = 0.0087;

const votes = new Float64Array(BINS);
const heaviest = new Float64Array(BINS);
const binX = new Float64Array(BINS);
const binY = new Float64Array(BINS);
const voids = new Float64Array(PLANES + 1);
const chord = new Float64Array(PLANES);

/**
 * Directions in which channels stand in rows, most frequent first, leaving out x and y.
 *
 * Every probe votes for the ways to its neighbours and, with a slot, for the slot's long side.
 *
 * @param most directions at most.
 * @param out receives unit vectors x y [most x 2].
 * @returns number of directions.
 */
export function rowDirections(samples: PlateSamples, most: number, out: Float64Array): number {
  votes.fill(0);
  heaviest.fill(0);
  const { channelCount: n, offset_mm: at } = samples;
  const step = Math.max(1, Math.floor(n / PROBES));
  for (let i = 0; i < n; i += step) {
    let nearest = Infinity;
    for (let k = 0; k < n; k++) if (k !== i) nearest = Math.min(nearest, square(at, i, k));
    const reach = NEAR * NEAR * nearest;
    for (let k = 0; k < n; k++) {
      if (k === i || square(at, i, k) > reach) continue;
      vote(at[2 * k] - at[2 * i], at[2 * k + 1] - at[2 * i + 1], 1);
    }
    const shape = samples.shapeOf[i];
    if (samples.sections[shape].kind !== 'slot') continue;
    const middle = 3 * (shape * samples.stations + (samples.stations >> 1));
    // A row of slots end to end is the likeliest to tear, and their ends may lie far apart.
    vote(samples.first[middle], samples.first[middle + 1], 2 * PROBES);
  }
  let found = 0;
  for (; found < most; found++) {
    let best = 0;
    for (let b = 1; b < BINS; b++) if (votes[b] > votes[best]) best = b;
    if (votes[best] === 0) break;
    out[2 * found] = binX[best];
    out[2 * found + 1] = binY[best];
    votes[best] = 0;
  }
  return found;
}

function square(at: Float64Array, i: number, k: number): number {
  const x = at[2 * k] - at[2 * i];
  const y = at[2 * k + 1] - at[2 * i + 1];
  return x * x + y * y;
}

function vote(x: number, y: number, weight: number): void {
  const size = Math.sqrt(x * x + y * y);
  if (size < 1e-9 || Math.min(Math.abs(x), Math.abs(y)) < PLAIN * size) return;
  const turn = atan2(y, x) / Math.PI + 1;
  const bin = Math.floor(turn * BINS) % BINS;
  // The heaviest voter of a bin gives its direction, the first one of several.
  if (weight > heaviest[bin]) {
    heaviest[bin] = weight;
    binX[bin] = x / size;
    binY[bin] = y / size;
  }
  votes[bin] += weight;
}

const directions = new Float64Array(2 * DIRECTIONS);

/**
 * Least share of solid over cuts normal to the plate along its rows [0..1]; 1 when all rows run
 * along x or y.
 *
 * Void is spread as in `weakestShare`: good to a few hundredths, on the low side where staggered
 * ports stand close (the raster counts pixels instead, `rasterRowCuts`).
 *
 * Source: own definition after ligament efficiency of perforated plates, which is taken along the
 * rows; without it a search turns its rows by a few degrees and tears unseen.
 */
export function weakestRow(samples: PlateSamples): number {
  const count = rowDirections(samples, DIRECTIONS, directions);
  let least = 1;
  for (let d = 0; d < count; d++) {
    const share = cutAlong(samples, directions[2 * d], directions[2 * d + 1]);
    least = Math.min(least, share);
  }
  return Math.max(0, least);
}

/** Least share of the planes that run along (x, y). */
function cutAlong(samples: PlateSamples, x: number, y: number): number {
  const { plate } = samples;
  const { from_mm: from, step_mm: step } = layChords(plate.outline, x, y);
  voids.fill(0);
  let most = 0;
  for (let i = 0; i < PLANES; i++) most = Math.max(most, chord[i]);
  for (const hole of plate.holes) {
    const middle = x * hole.y_mm - y * hole.x_mm;
    const radius = 0.5 * hole.diameter_mm;
    const first = Math.max(0, Math.floor((middle - radius - from) / step));
    const last = Math.min(PLANES - 1, Math.ceil((middle + radius - from) / step));
    for (let i = first; i <= last; i++) {
      const off = from + i * step - middle;
      const half2 = radius * radius - off * off;
      if (half2 > 0) voids[i] += 2 * Math.sqrt(half2) * plate.thickness_mm;
    }
  }
  // Holes stand plane by plane, channels as differences.
  for (let i = PLANES - 1; i > 0; i--) voids[i] -= voids[i - 1];
  layBoxes(samples, -y, x, STRIDE);
  addBoxes(samples, -y, x, from, 1 / step, PLANES, voids);
  if (samples.sides?.plenum) addPlenum(samples.sides.plenum, from, step, PLANES, voids);
  let gone = 0;
  let sum = 0;
  for (let i = 0; i < PLANES; i++) {
    sum += voids[i];
    // Divides only where a plane has lost more than those before it.
    const whole = chord[i] * plate.thickness_mm;
    if (sum > gone * whole && chord[i] > LEAST_SECTION * most) gone = sum / whole;
  }
  return 1 - gone;
}

/** One search has one outline: its polygon is kept. */
let known: { outline: Outline; points: readonly (readonly [number, number])[] } | null = null;

/** Planes along a direction over an outline: first, spacing, and length inside each. */
interface Chords {
  readonly from_mm: number;
  readonly step_mm: number;
  readonly chord_mm: Float64Array;
}

/** Lays the planes along (x, y) over the outline; the chords hold until the next call. */
export function layChords(outline: Outline, x: number, y: number): Chords {
  chord.fill(0);
  if (known?.outline !== outline) known = { outline, points: outlinePolygon(outline, 0.2) };
  const { points } = known;
  let low = Infinity;
  let high = -Infinity;
  for (const [px, py] of points) {
    const v = x * py - y * px;
    if (v < low) low = v;
    if (v > high) high = v;
  }
  const step = (high - low) / PLANES;
  const from = low + step / 2;
  const [lastX, lastY] = points[points.length - 1];
  let u0 = x * lastX + y * lastY;
  let v0 = x * lastY - y * lastX;
  for (const [px, py] of points) {
    const u1 = x * px + y * py;
    const v1 = x * py - y * px;
    crossEdge((v0 - from) / step, u0, (v1 - from) / step, u1);
    u0 = u1;
    v0 = v1;
  }
  for (let i = 0; i < PLANES; i++) chord[i] = Math.abs(chord[i]);
  return { from_mm: from, step_mm: step, chord_mm: chord };
}

/**
 * Adds where an edge crosses the planes, upward with one sign and downward with the other: round a
 * closed outline that sums to the length inside. Place in planes and along them of both ends.
 */
function crossEdge(p0: number, u0: number, p1: number, u1: number): void {
  if (p0 === p1) return;
  const up = p1 > p0;
  const first = Math.max(0, Math.ceil(up ? p0 : p1));
  const end = Math.min(PLANES, Math.ceil(up ? p1 : p0));
  const slope = (u1 - u0) / (p1 - p0);
  for (let i = first; i < end; i++) {
    const u = u0 + (i - p0) * slope;
    chord[i] += up ? u : -u;
  }
}
