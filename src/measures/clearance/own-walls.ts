/**
 * A channel against itself.
 *
 * Two rules together leave no gap (thickness of a smooth tube = the lesser of its least radius of
 * curvature and half its least doubly critical self-distance): the bend rule, and the distance of
 * stretches that face each other. No pair is skipped for lying near along the arc.
 * Source: Litherland, Simon, Durumeric & Rawdon 1999, Topology and its Applications 91:233.
 */
import { ROW, SEGMENT } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { contact, segmentGap } from './segment-gap.ts';
import { sectionReach } from './section-reach.ts';
import { noteWall } from './tally.ts';
import type { Tally } from './tally.ts';

/** Stretches face each other when their connecting line leans less than this along both [cosine]. */
const FACING = 0.75;
/**
 * Least turn between two stretches that face each other [rad]: by Fenchel's theorem the arc turns
 * by at least the two angles between its ends and the connecting line, 2 x 41.4 deg = 1.445.
 */
const LEAST_TURN = 1.44;

let turn = new Float64Array(0);

/**
 * Notes the wall inside each bend, twice the radius left at its inner side.
 *
 *   wall = 2 (1 / curvature - reach of the section towards the centre of curvature)
 *
 * Curvature is the greatest of the station's own, its peak before the next (`peakBetween`), the turn of the tangent over the neighbouring
 * steps, and what the shortening of chord against arc betrays.
 *
 * @returns depth of the fold where the bend is tighter than the section [mm], else 0.
 */
export function visitBends(t: Tubes, tally: Tally, shape: number, channel: number): number {
  const { stations, row, samples, bend } = t;
  const { curvature_per_mm: curvature, tangent } = samples;
  const base = shape * stations;
  const step = samples.length_mm[shape] / (stations - 1);
  const step2 = step * step;
  if (turn.length < stations) turn = new Float64Array(stations);
  turn[0] = 0;
  let depth = 0;
  for (let k = base; k < base + stations; k++) {
    const o = k * ROW;
    let sharpest = bend[k];
    let hidden = false;
    // Station whose section and centre of curvature count.
    let at = k;
    if (k + 1 < base + stations) {
      const ends = sharpest > bend[k + 1] ? sharpest : bend[k + 1];
      const i = 3 * k;
      const x = tangent[i + 3] - tangent[i];
      const y = tangent[i + 4] - tangent[i + 1];
      const z = tangent[i + 5] - tangent[i + 2];
      const turned2 = x * x + y * y + z * z;
      const slack2 = arcSlack(row, o, step2);
      const angle2 = ends * ends * step2;
      let most = ends;
      const peak = peakBetween(bend, k, base, base + stations);
      if (peak > ends) {
        most = peak;
        sharpest = peak;
        if (bend[k + 1] > bend[k]) at = k + 1;
      }
      if (turned2 > 2 * angle2 || slack2 > 1.5 * angle2) {
        // Chord of the turned tangent to its angle: a (1 + a^2 / 24) up to the third order.
        most = Math.sqrt(Math.max(turned2 * (1 + turned2 / 12), slack2, angle2)) / step;
        sharpest = most;
        hidden = true;
      }
      turn[k - base + 1] = turn[k - base] + most * step;
    }
    const reach = row[at * ROW + 5];
    // Of interest only when it may be thinner than the thinnest or, folded, deeper than the deepest.
    const cut = tally.thinnest_mm > -depth ? tally.thinnest_mm : -depth;
    if (sharpest * (0.5 * cut + reach) <= 1) continue;
    const i = 3 * at;
    const inner = hidden
      ? reach
      : innerReach(
          t,
          shape,
          at,
          curvature[i] / bend[at],
          curvature[i + 1] / bend[at],
          curvature[i + 2] / bend[at],
        );
    const left = 1 / sharpest - inner;
    if (-2 * left > depth) depth = -2 * left;
    const x = t.offset[2 * channel] + row[o];
    const y = t.offset[2 * channel + 1] + row[o + 1];
    noteWall(tally, 2 * left, 'bend', x, y, row[o + 2], channel, channel);
  }
  return depth;
}

/**
 * Peak of the curvature between stations k and k + 1, where the lines through the two stations on
 * either side meet: a spline's curvature has its peaks at its points, seldom at a station. At most
 * half as much again as at the sharper station; 0 where it does not rise from both sides.
 */
function peakBetween(bend: Float64Array, k: number, from: number, end: number): number {
  if (k === from || k + 2 >= end) return 0;
  const rise = bend[k] - bend[k - 1];
  const fall = bend[k + 1] - bend[k + 2];
  if (rise <= 0 || fall <= 0) return 0;
  const x = (bend[k + 1] + fall - bend[k]) / (rise + fall);
  if (x <= 0 || x >= 1) return 0;
  return Math.min(bend[k] + rise * x, 1.5 * Math.max(bend[k], bend[k + 1]));
}

/** Square of the angle that would shorten an arc to its chord, 12 (1 - chord^2 / arc^2). */
function arcSlack(row: Float64Array, o: number, step2: number): number {
  const x = row[o + ROW] - row[o];
  const y = row[o + ROW + 1] - row[o + 1];
  const z = row[o + ROW + 2] - row[o + 2];
  const slack = (1 - 2e-4) * step2 - (x * x + y * y + z * z);
  return slack > 0 ? (12 * slack) / step2 : 0;
}

/** Reach of a station's upright section towards a unit direction. */
function innerReach(t: Tubes, shape: number, k: number, x: number, y: number, z: number): number {
  const { first, second } = t.samples;
  const i = 3 * k;
  const a = x * first[i] + y * first[i + 1] + z * first[i + 2];
  const b = x * second[i] + y * second[i + 1] + z * second[i + 2];
  return sectionReach(t, shape, k, a, b);
}

/**
 * Notes the wall between stretches of one channel that face each other; `visitBends` must have run
 * for the same shape just before (it leaves the turn along the arc).
 *
 * A gap across an arc of constant radius is shorter than across the whole turn by the sine of the
 * angle between connecting line and channel, which is divided out: such pairs give exactly the
 * bend's wall.
 *
 * @returns depth of the deepest overlap with itself [mm], else 0.
 */
export function visitSelf(t: Tubes, tally: Tally, shape: number, channel: number): number {
  const { stations, segment, row } = t;
  if (turn[stations - 1] < LEAST_TURN) return 0;
  const base = shape * stations;
  const step = t.samples.length_mm[shape] / (stations - 1);
  const near2 = 4 * step * step;
  const facing2 = FACING * FACING * step * step;
  let widest = 0;
  for (let k = base; k < base + stations - 1; k++) {
    if (segment[k * SEGMENT + 3] > widest) widest = segment[k * SEGMENT + 3];
  }
  // Middles of neighbouring pieces lie no further apart than one step of arc, plus rounding.
  const perStep = 1 / (step * (1 + 1e-9));
  let depth = 0;
  let cut = Math.max(tally.thinnest_mm, 0);
  let from = 2;
  for (let i = 0; i < stations - 3; i++) {
    if (turn[stations - 1] - turn[i] < LEAST_TURN) break;
    if (from < i + 2) from = i + 2;
    while (turn[from + 1] - turn[i] < LEAST_TURN) from++;
    const p = (base + i) * SEGMENT;
    const px = segment[p];
    const py = segment[p + 1];
    const pz = segment[p + 2];
    const o = (base + i) * ROW;
    const ux = row[o + ROW] - row[o];
    const uy = row[o + ROW + 1] - row[o + 1];
    const uz = row[o + ROW + 2] - row[o + 2];
    for (let j = from; j < stations - 1; j++) {
      const q = (base + j) * SEGMENT;
      const x = segment[q] - px;
      const y = segment[q + 1] - py;
      const z = segment[q + 2] - pz;
      const limit = cut + segment[p + 3] + segment[q + 3];
      const square = x * x + y * y + z * z;
      if (square >= limit * limit || limit <= 0) {
        // The channel comes nearer by at most one step per station: the stations that cannot be
        // near enough are passed over (clearance of 100 wild channels .63 to .50 ms, bench evaluate).
        const spare = (Math.sqrt(square) - cut - segment[p + 3] - widest) * perStep;
        if (spare > 1) j += (spare | 0) - 1;
        continue;
      }
      if (square > near2) {
        // At two steps' distance a facing pair still faces within 0.5 from middle to middle, and
        // its neighbours beside it are looked at as well.
        const r = (base + j) * ROW;
        const alongI = x * ux + y * uy + z * uz;
        const alongJ =
          x * (row[r + ROW] - row[r]) +
          y * (row[r + ROW + 1] - row[r + 1]) +
          z * (row[r + ROW + 2] - row[r + 2]);
        const most = facing2 * square;
        if (alongI * alongI > most || alongJ * alongJ > most) continue;
      }
      const gap = segmentGap(t, shape, base + i, shape, base + j, 0, 0, cut, FACING);
      if (gap >= cut) continue;
      const { lean } = contact;
      const wall = gap > 0 ? gap / Math.sqrt(1 - lean * lean) : gap;
      if (-wall > depth) depth = -wall;
      if (wall < cut) cut = depth > 0 ? -depth : wall;
      noteWall(
        tally,
        wall,
        'self',
        t.offset[2 * channel] + contact.x,
        t.offset[2 * channel + 1] + contact.y,
        contact.z,
        channel,
        channel,
      );
    }
  }
  return depth;
}
