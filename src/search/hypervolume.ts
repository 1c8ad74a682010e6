/** Hypervolume: how much of objective space a set dominates, up to a reference point. */
import { createSweepSpace, volumeOfFew } from './hypervolume-few.ts';
import { createVolumeSpace, dropCovered, volumeOfMany } from './hypervolume-many.ts';

/**
 * Hypervolume of a set of minimised objective vectors: the measure of the region that some point
 * dominates and that itself dominates the reference point. Exact for any number of objectives; the
 * cost grows steeply beyond five (WFG).
 *
 * @param points objective vectors, row-major [count x m]; dominated and equal points may be among them.
 * @param reference reference point [m]. A point that is not better than it everywhere adds 0.
 * @returns volume in the product of the objectives' units, >= 0.
 * @throws Error when a coordinate is not a number.
 * @example hypervolume(Float64Array.of(1, 5, 2, 3, 4, 1), 3, 2, [6, 6]) // 17
 * Source: sweeps in 2 and 3 dimensions after Fonseca, Paquete & Lopez-Ibanez 2006 (CEC);
 * more: WFG, While, Bradstreet & Barone 2012, IEEE TEC 16:86.
 */
export function hypervolume(
  points: Float64Array,
  count: number,
  m: number,
  reference: ArrayLike<number>,
): number {
  const inside = new Float64Array(count * m);
  const n = keepInside(points, count, m, reference, inside);
  if (n === 0) return 0;
  if (m <= 3) return volumeOfFew(inside, n, m, reference, createSweepSpace(n));
  return volumeOfMany(inside, n, m, reference, createVolumeSpace(n, m));
}

/** Copies the points that lie strictly inside the reference point; returns how many. */
function keepInside(
  points: Float64Array,
  count: number,
  m: number,
  reference: ArrayLike<number>,
  out: Float64Array,
): number {
  let n = 0;
  for (let i = 0; i < count; i++) {
    let inside = true;
    for (let k = 0; k < m; k++) {
      const v = points[i * m + k];
      if (Number.isNaN(v)) throw new Error(`points[${i * m + k}] is not a number.`);
      if (!(v < reference[k])) inside = false;
      out[n * m + k] = v;
    }
    if (inside) n++;
  }
  return n;
}

/**
 * Volume that a point alone adds to a set.
 *
 * @param point objective vector [m].
 * @param others the set, row-major [count x m]; rows equal to the point make the answer 0.
 * @example addedVolume(Float64Array.of(2, 3), Float64Array.of(1, 5, 4, 1), 2, 2, [6, 6]) // 4
 */
export function addedVolume(
  point: Float64Array,
  others: Float64Array,
  count: number,
  m: number,
  reference: ArrayLike<number>,
): number {
  let own = 1;
  for (let k = 0; k < m; k++) {
    if (!(point[k] < reference[k])) return 0;
    own *= reference[k] - point[k];
  }
  // Only the parts of the others that lie inside the point's own box can take from it.
  const limited = new Float64Array(count * m);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < m; k++) limited[i * m + k] = Math.max(others[i * m + k], point[k]);
  }
  const left = dropCovered(limited, count, m);
  return Math.max(0, own - hypervolume(limited, left, m, reference));
}
