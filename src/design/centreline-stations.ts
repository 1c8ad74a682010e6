/** Stations along a fitted centreline: where they stand, and what the line is like there. */
import type { Centreline } from './centreline.ts';

/** Room for the stations of a line; what it holds is written anew each time. */
function growStations(line: Centreline, stations: number): void {
  if (line.stationSegment.length >= stations) return;
  line.stationSegment = new Int32Array(stations);
  line.stationAt = new Float64Array(stations);
}

/** Puts stations at equal steps of arc length, by quintic Hermite inversion of the arc table. */
export function stepArc(line: Centreline, stations: number): void {
  growStations(line, stations);
  const { knot, table, segment, stationSegment, stationAt } = line;
  const step = line.length_mm / (stations - 1);
  const lastRow = line.rows - 2;
  let row = -1;
  let end = -Infinity;
  let arc = 0;
  let perArc = 0;
  let base = 0;
  let c1 = 0;
  let c2 = 0;
  let c3 = 0;
  let c4 = 0;
  let c5 = 0;
  for (let k = 0; k < stations; k++) {
    const s = k * step;
    // A row's polynomial serves all stations in its piece.
    if (end <= s && row < lastRow) {
      do row++;
      while (row < lastRow && table[4 * row + 4] <= s);
      const at = 4 * row;
      arc = table[at];
      end = table[at + 4];
      const d = end - arc;
      perArc = 1 / d;
      const rise = table[at + 5] - table[at + 1];
      base = table[at + 1] - knot[segment[row]];
      c1 = table[at + 2] * d;
      const v1 = table[at + 6] * d;
      const a0 = table[at + 3] * d * d;
      const a1 = table[at + 7] * d * d;
      c2 = 0.5 * a0;
      c3 = 10 * rise - 6 * c1 - 4 * v1 - 1.5 * a0 + 0.5 * a1;
      c4 = -15 * rise + 8 * c1 + 7 * v1 + 1.5 * a0 - a1;
      c5 = 6 * rise - 3 * (c1 + v1) - 0.5 * (a0 - a1);
    }
    const t = (s - arc) * perArc;
    stationSegment[k] = segment[row];
    stationAt[k] = base + t * (c1 + t * (c2 + t * (c3 + t * (c4 + t * c5))));
  }
}

/** Puts stations at equal steps of the chord-length parameter; needs no arc table. */
export function stepParameter(line: Centreline, stations: number): void {
  growStations(line, stations);
  const { knot, stationSegment, stationAt } = line;
  const last = line.count - 2;
  const step = knot[line.count - 1] / (stations - 1);
  let segment = 0;
  for (let k = 0; k < stations; k++) {
    const u = k * step;
    while (segment < last && knot[segment + 1] <= u) segment++;
    stationSegment[k] = segment;
    stationAt[k] = u - knot[segment];
  }
}

/**
 * Writes points, unit tangents and curvature vectors of the line's stations, x y z each.
 *
 * @param at index of the first coordinate in the arrays.
 */
export function writeStations(
  line: Centreline,
  stations: number,
  point: Float64Array,
  tangent: Float64Array,
  curvature: Float64Array,
  at: number,
): void {
  const { cubic, stationSegment, stationAt } = line;
  let i = at;
  for (let k = 0; k < stations; k++, i += 3) {
    const from = 12 * stationSegment[k];
    const t = stationAt[k];
    const bx = cubic[from + 1];
    const cx = cubic[from + 2];
    const dx = cubic[from + 3];
    const by = cubic[from + 5];
    const cy = cubic[from + 6];
    const dy = cubic[from + 7];
    const bz = cubic[from + 9];
    const cz = cubic[from + 10];
    const dz = cubic[from + 11];
    point[i] = cubic[from] + t * (bx + t * (cx + t * dx));
    point[i + 1] = cubic[from + 4] + t * (by + t * (cy + t * dy));
    point[i + 2] = cubic[from + 8] + t * (bz + t * (cz + t * dz));
    const x1 = bx + t * (2 * cx + 3 * t * dx);
    const y1 = by + t * (2 * cy + 3 * t * dy);
    const z1 = bz + t * (2 * cz + 3 * t * dz);
    const x2 = 2 * cx + 6 * t * dx;
    const y2 = 2 * cy + 6 * t * dy;
    const z2 = 2 * cz + 6 * t * dz;
    const inverse = 1 / Math.max(x1 * x1 + y1 * y1 + z1 * z1, 1e-12);
    const scale = Math.sqrt(inverse);
    const pull = (x1 * x2 + y1 * y2 + z1 * z2) * inverse;
    tangent[i] = x1 * scale;
    tangent[i + 1] = y1 * scale;
    tangent[i + 2] = z1 * scale;
    curvature[i] = (x2 - pull * x1) * inverse;
    curvature[i + 1] = (y2 - pull * y1) * inverse;
    curvature[i + 2] = (z2 - pull * z1) * inverse;
  }
}
