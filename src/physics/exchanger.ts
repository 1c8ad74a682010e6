/** Air that passes a wall and takes up heat: effectiveness and number of transfer units. */
import { exp } from '../numeric/index.ts';

/**
 * Effectiveness of a stream along a wall of one temperature: its temperature rise over the greatest
 * possible one.
 *
 *   eps = 1 - exp(-NTU),  NTU = h A/(m' cp)
 *
 * To first order NTU; a ratio of polynomials serves below 0.3 (within 1e-5), which spares the loops
 * an exponential.
 *
 * @example effectiveness(1) // 0.63212
 * @example effectiveness(0.1) // 0.09516
 * Source: exact; Kays & London 1984.
 */
export function effectiveness(NTU: number): number {
  return NTU < 0.3 ? NTU / (1 + NTU * (0.5 + NTU / 12)) : 1 - exp(-NTU);
}
