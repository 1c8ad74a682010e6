/** A whole perforated plate by handbook formula: a cross-check of the sum over channels, never added to it. */
import { pow } from '../numeric/index.ts';

function power(base: number, exponent: number): number {
  return base > 0 ? pow(base, exponent) : 0;
}

/**
 * Inlet interaction factor of a thick-edged grid.
 *
 *   tau = (2.4 - l) 10^-(0.25 + 0.535 l^8/(0.05 + l^7)),  0 above l = 2.4
 *
 * @param l thickness over hydraulic diameter [-].
 * @example gridFactor(1) // 0.24356
 * Source: Idelchik, Handbook of Hydraulic Resistance, diagram 8-3.
 */
export function gridFactor(l: number): number {
  if (l >= 2.4) return 0;
  const l7 = power(l, 7);
  return (2.4 - l) * pow(10, -(0.25 + (0.535 * l7 * l) / (0.05 + l7)));
}

/**
 * Thick-edged perforated plate, K on the approach velocity.
 *
 *   K = [0.5 (1 - F)^0.75 + tau (1 - F)^1.375 + X + f l]/F^2
 *   X = (1 - F)^2 with a duct of full area behind the plate, 1 with open air behind it
 *
 * @param F open share of the face, 0 < F < 1. @param l thickness over D_h. @param f Darcy factor in the holes.
 * @returns total-pressure loss; with open air, total pressure upstream minus ambient pressure.
 * @example gridLoss(0.5, 4, 0.02, 'duct') // 2.50921
 * Source: Idelchik, Handbook of Hydraulic Resistance, diagram 8-3; hole Re above 1e3, better 1e5.
 */
export function gridLoss(F: number, l: number, f: number, behind: 'duct' | 'openAir'): number {
  const closed = 1 - F;
  const jet = behind === 'duct' ? closed * closed : 1;
  const inlet = 0.5 * power(closed, 0.75) + gridFactor(l) * power(closed, 1.375);
  return (inlet + jet + f * l) / (F * F);
}
