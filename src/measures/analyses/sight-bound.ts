/**
 * How clear a chord through a channel can be at most, without looking for the chord itself: most
 * channels of a tangled plate are proved blocked by a handful of their stations.
 */
import type { PlateSamples } from '../../design/index.ts';
import type { Chord } from './sight-line.ts';

/** Stations that lie flatter than this are left out: a chord may miss them unseen [sine]. */
const STEEP = 0.35;
/** Rounds of reweighting at most, by form of the analysis. */
export const BOUND_ROUNDS = { fast: 6, exact: 40 } as const;
/** Past this share of the section's reach a channel is blocked beyond doubt. */
const FAR = 1.6;

// Centre x, y, z, 1 over the square of the reach, and weight of each station looked at.
const POINT = 5;
let points = new Float64Array(32 * POINT);

/**
 * Greatest clearance any chord can have in a shape [mm]; negative: no line of sight, for certain.
 *
 * A chord misses the centre of station i by d_i across z, hence by at least d_i/sqrt(1 + s^2) in the
 * station's plane, s its slope. For any weights the greatest (d_i/reach_i)^2 is no less than their
 * weighted mean, and that no less than the mean about the least-squares line, q^2 (1 + s^2):
 *
 *   clearance <= R_min (1 - q) if q > 1,  reach_max (1 - q) else
 *
 * Weights that follow the misses (Lawson 1961) raise the bound to the least greatest miss. The slope
 * is bounded by what the two ends allow. Any selection of stations gives a valid bound.
 *
 * @param stride looks at every so many stations.
 * @param rounds reweightings at most.
 * @param out receives the line whose greatest miss is least among those met.
 */
export function sightBound(
  samples: PlateSamples,
  shape: number,
  stride: number,
  rounds: number,
  out: Chord,
): number {
  const { bore_mm, reach_mm, stations } = samples;
  const count = loadPoints(samples, shape, stride);
  const base = shape * stations;
  let radius_mm = Infinity;
  let reach = 0;
  for (let k = base; k < base + stations; k++) {
    if (bore_mm[k] < radius_mm) radius_mm = bore_mm[k];
    if (reach_mm[k] > reach) reach = reach_mm[k];
  }
  radius_mm *= 0.5;
  out.fill(0);
  if (count < 3) return reach;
  const table = points;
  const end = count * POINT;
  const z0 = table[(count >> 1) * POINT + 2];
  const tail = end - POINT;
  const height = table[tail + 2] - table[2];
  if (height <= 0) return reach;
  const aside = length(table[tail] - table[0], table[tail + 1] - table[1]) / height;
  const mouths = (1 / Math.sqrt(table[3]) + 1 / Math.sqrt(table[tail + 3])) / height;
  let most = 0;
  let leastMiss = Infinity;
  for (let round = 0; round < rounds; round++) {
    let w = 0;
    let wz = 0;
    let wzz = 0;
    let wx = 0;
    let wxz = 0;
    let wy = 0;
    let wyz = 0;
    let total = 0;
    for (let i = 0; i < end; i += POINT) {
      total += table[i + 4];
      const weight = table[i + 4] * table[i + 3];
      const x = table[i];
      const y = table[i + 1];
      const z = table[i + 2] - z0;
      w += weight;
      wz += weight * z;
      wzz += weight * z * z;
      wx += weight * x;
      wxz += weight * x * z;
      wy += weight * y;
      wyz += weight * y * z;
    }
    const spread = w * wzz - wz * wz;
    if (!(spread > 1e-12 * w * wzz)) break;
    const inverse = 1 / spread;
    const sx = (w * wxz - wz * wx) * inverse;
    const sy = (w * wyz - wz * wy) * inverse;
    const cx = (wx - sx * wz) / w;
    const cy = (wy - sy * wz) / w;
    let mean = 0;
    let miss = 0;
    for (let i = 0; i < end; i += POINT) {
      const z = table[i + 2] - z0;
      const dx = cx + sx * z - table[i];
      const dy = cy + sy * z - table[i + 1];
      const square = (dx * dx + dy * dy) * table[i + 3];
      mean += table[i + 4] * square;
      if (square > miss) miss = square;
      // The floor keeps a station that is met exactly now from being forgotten for good.
      table[i + 4] *= Math.sqrt(square) + 0.02;
    }
    mean /= total;
    if (mean > most) most = mean;
    if (miss < leastMiss) {
      leastMiss = miss;
      out[0] = cx - sx * z0;
      out[1] = cy - sy * z0;
      out[2] = sx;
      out[3] = sy;
    }
    if (most > FAR * FAR || leastMiss < 1e-6 || miss < 1.02 * most) break;
  }
  const q = withinSlope(most, aside, mouths);
  return q > 1 ? radius_mm * (1 - q) : reach * (1 - q);
}

/**
 * Root of the mean square over 1 + s^2, s the greatest slope of a chord that misses the ends by no
 * more than that: chords that miss an end by more are worse still.
 */
function withinSlope(mean: number, aside: number, mouths: number): number {
  const near = aside + mouths;
  const first = Math.sqrt(mean / (1 + near * near));
  if (first <= 1) return first;
  const wide = aside + first * mouths;
  return Math.sqrt(mean / (1 + wide * wide));
}

function loadPoints(samples: PlateSamples, shape: number, stride: number): number {
  const { stations, point_mm, tangent, reach_mm } = samples;
  if (points.length < stations * POINT) points = new Float64Array(2 * stations * POINT);
  const last = stations - 1;
  let count = 0;
  for (let i = 0; ; i = Math.min(last, i + stride)) {
    const row = shape * stations + i;
    if (Math.abs(tangent[3 * row + 2]) > STEEP) {
      const at = count * POINT;
      points[at] = point_mm[3 * row];
      points[at + 1] = point_mm[3 * row + 1];
      points[at + 2] = point_mm[3 * row + 2];
      points[at + 3] = 1 / (reach_mm[row] * reach_mm[row]);
      points[at + 4] = 1;
      count++;
    }
    if (i === last) return count;
  }
}

function length(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}
