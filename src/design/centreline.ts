/**
 * Centrelines: the C2 cubic spline through a channel's points, its arc length, and where equal
 * arc steps fall on it.
 *
 * One centreline is held at a time, in buffers that are used again: a plate of a hundred different
 * channels is sampled without allocating.
 */
import type { Channel } from './model.ts';

/** Pieces of one spline segment over which arc length is tabulated. */
const PIECES = 8;
/**
 * The same where the spline's speed varies much: with 8, steps of a channel that swings far out
 * differ by up to 0.7 %, which at 128 stations reads as a hidden bend; with 16 by less than 0.02 %.
 */
const FINE_PIECES = 16;
/** Ratio of squared speeds within a segment from which on it gets the finer table. */
const UNEVEN = 1.4;

// Gauss-Legendre abscissae and weights on [0, 1], three points (exact to degree 5).
const GAUSS_AT = [0.1127016653792583, 0.5, 0.8872983346207417];
const GAUSS_WEIGHT = [5 / 18, 4 / 9, 5 / 18];

export interface Centreline {
  /** Points of the spline. */
  count: number;
  /** Chord-length parameter of each point [n]. */
  knot: Float64Array;
  /** Cubic of each segment and coordinate, lowest power first [(n - 1) x 3 x 4]. */
  cubic: Float64Array;
  /** Whole arc length [mm]. */
  length_mm: number;
  /** Rows of the arc table. */
  rows: number;
  /** Arc length, parameter, du/ds and d2u/ds2 at the table's rows [rows x 4]. */
  table: Float64Array;
  /** Segment in which each row's piece lies [rows]. */
  segment: Int32Array;
}

export function createCentreline(): Centreline {
  return {
    count: 0,
    knot: new Float64Array(8),
    cubic: new Float64Array(7 * 12),
    length_mm: 0,
    rows: 0,
    table: new Float64Array((7 * FINE_PIECES + 1) * 4),
    segment: new Int32Array(7 * FINE_PIECES + 1),
  };
}

let slopes = new Float64Array(24);
let ratio = new Float64Array(8);

function grow(line: Centreline, count: number): void {
  if (count <= line.knot.length) return;
  line.knot = new Float64Array(count);
  line.cubic = new Float64Array(12 * count);
  line.table = new Float64Array((count * FINE_PIECES + 1) * 4);
  line.segment = new Int32Array(count * FINE_PIECES + 1);
  if (count > ratio.length) {
    slopes = new Float64Array(3 * count);
    ratio = new Float64Array(count);
  }
}

/**
 * Fits the centreline of a channel: slopes of a C2 cubic spline on chord-length parameters, with
 * unit slope along a given end direction and zero second derivative at a free end.
 *
 * Source: de Boor, A Practical Guide to Splines, ch. IV (handbook); arc length by three-point
 * Gauss-Legendre quadrature on each piece of a segment.
 */
export function fitCentreline(line: Centreline, channel: Channel): void {
  const points = channel.points_mm;
  const n = points.length;
  grow(line, n);
  line.count = n;
  line.knot[0] = 0;
  for (let i = 1; i < n; i++) {
    const dx = points[i][0] - points[i - 1][0];
    const dy = points[i][1] - points[i - 1][1];
    const dz = points[i][2] - points[i - 1][2];
    line.knot[i] = line.knot[i - 1] + Math.sqrt(dx * dx + dy * dy + dz * dz);
  }
  solveSlopes(line.knot, channel);
  for (let i = 0; i < n - 1; i++) {
    const h = line.knot[i + 1] - line.knot[i];
    for (let k = 0; k < 3; k++) {
      const rise = (points[i + 1][k] - points[i][k]) / h;
      const m0 = slopes[3 * i + k];
      const m1 = slopes[3 * i + 3 + k];
      const at = 12 * i + 4 * k;
      line.cubic[at] = points[i][k];
      line.cubic[at + 1] = m0;
      line.cubic[at + 2] = (3 * rise - 2 * m0 - m1) / h;
      line.cubic[at + 3] = (m0 + m1 - 2 * rise) / (h * h);
    }
  }
  tabulateArc(line);
}

/** Thomas algorithm on the three coordinates at once. */
function solveSlopes(knot: Float64Array, channel: Channel): void {
  const points = channel.points_mm;
  const n = points.length;
  const start = channel.inletDirection;
  const end = channel.outletDirection;
  const h0 = knot[1] - knot[0];
  ratio[0] = start ? 0 : 0.5;
  for (let k = 0; k < 3; k++) {
    slopes[k] = start ? start[k] : (1.5 * (points[1][k] - points[0][k])) / h0;
  }
  for (let i = 1; i < n - 1; i++) {
    const a = 1 / (knot[i] - knot[i - 1]);
    const b = 1 / (knot[i + 1] - knot[i]);
    const pivot = 1 / (2 * (a + b) - a * ratio[i - 1]);
    ratio[i] = b * pivot;
    for (let k = 0; k < 3; k++) {
      const before = points[i][k] - points[i - 1][k];
      const after = points[i + 1][k] - points[i][k];
      const right = 3 * (a * a * before + b * b * after);
      slopes[3 * i + k] = (right - a * slopes[3 * i - 3 + k]) * pivot;
    }
  }
  const last = 3 * (n - 1);
  const hn = knot[n - 1] - knot[n - 2];
  for (let k = 0; k < 3; k++) {
    if (end) slopes[last + k] = end[k];
    else {
      const right = (3 * (points[n - 1][k] - points[n - 2][k])) / hn;
      slopes[last + k] = (right - slopes[last - 3 + k]) / (2 - ratio[n - 2]);
    }
  }
  for (let i = n - 2; i >= 0; i--) {
    for (let k = 0; k < 3; k++) slopes[3 * i + k] -= ratio[i] * slopes[3 * i + 3 + k];
  }
}

function tabulateArc(line: Centreline): void {
  const { knot, cubic, table, segment } = line;
  let arc = 0;
  let row = 0;
  for (let i = 0; i < line.count - 1; i++) {
    const at = 12 * i;
    const h = knot[i + 1] - knot[i];
    // A straight segment runs at constant speed: one piece is exact.
    const bend =
      Math.abs(cubic[at + 2]) +
      Math.abs(cubic[at + 6]) +
      Math.abs(cubic[at + 10]) +
      Math.abs(cubic[at + 3]) +
      Math.abs(cubic[at + 7]) +
      Math.abs(cubic[at + 11]);
    const pieces = bend < 1e-13 ? 1 : isUneven(cubic, at, h) ? FINE_PIECES : PIECES;
    const step = h / pieces;
    for (let p = 0; p < pieces; p++) {
      const t0 = p * step;
      writeRow(line, row, arc, knot[i], t0, at);
      segment[row++] = i;
      for (let g = 0; g < 3; g++) {
        const t = t0 + step * GAUSS_AT[g];
        const x = cubic[at + 1] + t * (2 * cubic[at + 2] + 3 * t * cubic[at + 3]);
        const y = cubic[at + 5] + t * (2 * cubic[at + 6] + 3 * t * cubic[at + 7]);
        const z = cubic[at + 9] + t * (2 * cubic[at + 10] + 3 * t * cubic[at + 11]);
        arc += step * GAUSS_WEIGHT[g] * Math.sqrt(x * x + y * y + z * z);
      }
    }
    // The last row of a segment is overwritten by the first of the next: slopes and second
    // derivatives agree, so either side serves.
    writeRow(line, row, arc, knot[i], h, at);
    segment[row] = i;
  }
  table[4 * row] = arc;
  line.rows = row + 1;
  line.length_mm = arc;
}

/** Whether the squared speeds at both ends and in the middle of a segment differ much. */
function isUneven(cubic: Float64Array, at: number, h: number): boolean {
  let low = Infinity;
  let high = 0;
  for (let k = 0; k < 3; k++) {
    const t = 0.5 * k * h;
    let square = 0;
    for (let d = at; d < at + 12; d += 4) {
      const v = cubic[d + 1] + t * (2 * cubic[d + 2] + 3 * t * cubic[d + 3]);
      square += v * v;
    }
    low = Math.min(low, square);
    high = Math.max(high, square);
  }
  return high > UNEVEN * low;
}

function writeRow(
  line: Centreline,
  row: number,
  arc: number,
  u0: number,
  t: number,
  at: number,
): void {
  const { cubic, table } = line;
  const x1 = cubic[at + 1] + t * (2 * cubic[at + 2] + 3 * t * cubic[at + 3]);
  const y1 = cubic[at + 5] + t * (2 * cubic[at + 6] + 3 * t * cubic[at + 7]);
  const z1 = cubic[at + 9] + t * (2 * cubic[at + 10] + 3 * t * cubic[at + 11]);
  const x2 = 2 * cubic[at + 2] + 6 * t * cubic[at + 3];
  const y2 = 2 * cubic[at + 6] + 6 * t * cubic[at + 7];
  const z2 = 2 * cubic[at + 10] + 6 * t * cubic[at + 11];
  const square = Math.max(x1 * x1 + y1 * y1 + z1 * z1, 1e-12);
  table[4 * row] = arc;
  table[4 * row + 1] = u0 + t;
  table[4 * row + 2] = 1 / Math.sqrt(square);
  table[4 * row + 3] = -(x1 * x2 + y1 * y2 + z1 * z2) / (square * square);
}

/**
 * Spline parameter at an arc length, by quintic Hermite inversion of the arc table.
 *
 * @param from row of the table at or before the arc length; -1 when unknown.
 * @returns the row found; the parameter is in `parameterAt.value`.
 */
export function invertArc(line: Centreline, arc_mm: number, from: number): number {
  const { table } = line;
  let row = from;
  while (row < line.rows - 2 && table[4 * row + 4] <= arc_mm) row++;
  const at = 4 * row;
  const d = table[at + 4] - table[at];
  const t = (arc_mm - table[at]) / d;
  const rise = table[at + 5] - table[at + 1];
  const v0 = table[at + 2] * d;
  const v1 = table[at + 6] * d;
  const a0 = table[at + 3] * d * d;
  const a1 = table[at + 7] * d * d;
  const c3 = 10 * rise - 6 * v0 - 4 * v1 - 1.5 * a0 + 0.5 * a1;
  const c4 = -15 * rise + 8 * v0 + 7 * v1 + 1.5 * a0 - a1;
  const c5 = 6 * rise - 3 * (v0 + v1) - 0.5 * (a0 - a1);
  parameterAt.value = table[at + 1] + t * (v0 + t * (0.5 * a0 + t * (c3 + t * (c4 + t * c5))));
  return row;
}

/** Result of `invertArc`; a field rather than a return value to spare an object per station. */
export const parameterAt = { value: 0 };
