/** Where a channel begins and ends. K is the loss over the velocity pressure at the inlet. */
import { exp, log } from '../numeric/index.ts';

/**
 * Sharp flush inlet out of a cell: K = 0.5 (1 - sigma)^0.75.
 *
 * @param sigma open share of the plate face [0..1]; 0 is a single hole in a wide wall.
 * @example sharpInlet(0) // 0.5
 * Source: Idelchik, Handbook of Hydraulic Resistance, section 4.
 */
export function sharpInlet(sigma: number): number {
  const closed = Math.min(1, Math.max(0, 1 - sigma));
  return closed > 0 ? 0.5 * exp(0.75 * log(closed)) : 0;
}

/**
 * What an inclined axis adds to the inlet loss: 0.30 c + 0.20 c^2.
 *
 * @param cosine cosine of the angle between axis and wall; 0 for an axis square to the wall.
 * @example obliqueInletExtra(0.5) // 0.2
 * Source: Weisbach, in Idelchik, Handbook of Hydraulic Resistance.
 */
export function obliqueInletExtra(cosine: number): number {
  return cosine * (0.3 + 0.2 * cosine);
}

/**
 * Pressure spent at one end of a hole in creeping flow, half of dp = 3 mu Q/R^3 for both ends.
 *
 * @param radius_m hydraulic radius D_h/2 at that end [m].
 * @returns pressure per flow [Pa s/m3].
 * @example creepingEnd(1, 1) // 1.5
 * Source: Sampson 1891; Weissberg 1962; Dagan et al. 1982; from memory.
 */
export function creepingEnd(viscosity_Pa_s: number, radius_m: number): number {
  return (1.5 * viscosity_Pa_s) / (radius_m * radius_m * radius_m);
}

/**
 * Loss of one dead-end side pocket over the local velocity pressure.
 *
 *   K = 0.01 (mouth length/bore)(mouth width/full turn)
 *
 * Own heuristic. A computed flow showed less than 1 % change for a pocket one bore long over a
 * quarter turn; the term is kept positive so that pockets are never free.
 *
 * @example pocketLoss(1, 0.25) // 0.0025
 */
export function pocketLoss(lengthOverBore: number, turnShare: number): number {
  return 0.01 * lengthOverBore * turnShare;
}

/**
 * Both inlet numbers of a face: the loss of a sharp inlet, and (1 - sigma)^1.375, which times
 * `gridFactor` is the extra loss of channels too short for the stream to reattach in.
 *
 * @param sigma open share of the plate face [0..1].
 * Source: Idelchik, Handbook of Hydraulic Resistance, section 4 and diagram 8-3.
 */
export function faceInlet(sigma: number): { inletLoss: number; thinShare: number } {
  const closed = Math.min(1, Math.max(0, 1 - sigma));
  return { inletLoss: sharpInlet(sigma), thinShare: closed > 0 ? exp(1.375 * log(closed)) : 0 };
}
