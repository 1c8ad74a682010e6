/** Light between the walls of a round tube: view factors of rings and openings, mirror share. */
import { directViewFactor } from './light.ts';

/**
 * Share of the light of a ring of wall that leaves through an opening of the tube.
 *
 *   G = (xi^2 + 1/2)/sqrt(xi^2 + 1) - xi
 *
 * The share that falls on the wall between two distances is the difference of two such shares.
 *
 * @param xi distance along the tube over its diameter, 0 or more.
 * @example ringToOpening(0) // 0.5
 * @example ringToOpening(1) // 0.0606602
 * Source: view factor of a ring to a coaxial disc, any handbook of radiation (Walsh 1920); exact.
 */
export function ringToOpening(xi: number): number {
  const square = xi * xi;
  // (xi^2 + 1/2 - xi sqrt(xi^2 + 1))/sqrt(xi^2 + 1) without the cancellation for far rings.
  const root = Math.sqrt(square + 1);
  return 0.25 / (root * (square + 0.5 + xi * root));
}

/**
 * Share of the light of an opening that falls on the wall between two distances.
 *
 * @param near @param far distances along the tube over its diameter, 0 or more, near < far.
 * @example openingToWall(0, 1) // 0.8284271
 * Source: difference of coaxial-disc view factors; exact.
 */
export function openingToWall(near: number, far: number): number {
  return directViewFactor(near) - directViewFactor(far);
}

/**
 * Share of light that a smooth plastic surface mirrors, unpolarised.
 *
 *   R = (Rs + Rp)/2,  Rs = ((c - n t)/(c + n t))^2,  Rp = ((n c - t)/(n c + t))^2,
 *   t = sqrt(1 - (1 - c^2)/n^2)
 *
 * @param cosine c of the angle between light and normal, 0..1.
 * @param index n, refractive index: about 1.45 to 1.55 for printing plastics (from memory).
 * @example mirrorShare(1, 1.5) // 0.04
 * @example mirrorShare(0, 1.5) // 1
 * Source: Fresnel's equations; exact for a smooth surface.
 */
export function mirrorShare(cosine: number, index: number): number {
  const t = Math.sqrt(1 - (1 - cosine * cosine) / (index * index));
  const across = (cosine - index * t) / (cosine + index * t);
  const along = (index * cosine - t) / (index * cosine + t);
  return 0.5 * (across * across + along * along);
}

/** What falls on each zone at first, and what each zone passes on. */
export interface Zones {
  /** Number of zones, n. */
  readonly count: number;
  /** Share of the entering light that falls on each zone at first [n]. */
  readonly first: Float64Array;
  /** Share of each zone's light that falls on each zone, row = giver [n x n]. */
  readonly view: Float64Array;
  /** Share of each zone's light that leaves through the outlet [n]. */
  readonly out: Float64Array;
}

export function createZones(count: number): Zones {
  return {
    count,
    first: new Float64Array(count),
    view: new Float64Array(count * count),
    out: new Float64Array(count),
  };
}

let matrix = new Float64Array(0);
let light = new Float64Array(0);

/**
 * Share of the entering light that leaves through the outlet after one bounce or more.
 *
 *   P = first + r view^T P,   share = r out . P
 *
 * @param reflectance r of the diffuse walls, 0..1.
 * Source: radiosity of grey diffuse zones, any handbook of radiation.
 */
export function bouncedShare(zones: Zones, reflectance: number): number {
  const { count: n, first, view, out } = zones;
  if (matrix.length < n * n) {
    matrix = new Float64Array(n * n);
    light = new Float64Array(n);
  }
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) matrix[i * n + j] = -reflectance * view[j * n + i];
    matrix[i * n + i] += 1;
    light[i] = first[i];
  }
  // Columns sum to at least what leaves: no pivoting needed.
  for (let k = 0; k < n; k++) {
    const inverse = 1 / matrix[k * n + k];
    for (let i = k + 1; i < n; i++) {
      const factor = matrix[i * n + k] * inverse;
      if (factor === 0) continue;
      for (let j = k + 1; j < n; j++) matrix[i * n + j] -= factor * matrix[k * n + j];
      light[i] -= factor * light[k];
    }
  }
  let share = 0;
  for (let k = n - 1; k >= 0; k--) {
    let sum = light[k];
    for (let j = k + 1; j < n; j++) sum -= matrix[k * n + j] * light[j];
    light[k] = sum / matrix[k * n + k];
    share += light[k] * out[k];
  }
  return reflectance * share;
}
