/** Fins: solid that carries heat away from a hot base while it gives it to the air on its way. */
import { tanh } from '../numeric/index.ts';

/**
 * Fin parameter m = sqrt(h P/(k A)) [1/m].
 *
 * @param h_W_per_m2_K heat transfer coefficient at the wetted wall.
 * @param perimeter_m wetted perimeter per fin. @param k_W_per_m_K conductivity of the solid.
 * @param area_m2 cross-section of the solid, normal to the way of the heat.
 * @example finParameter(50, 2, 200, 0.005) // 10
 * Source: textbook (Harper & Brown 1922).
 */
export function finParameter(
  h_W_per_m2_K: number,
  perimeter_m: number,
  k_W_per_m_K: number,
  area_m2: number,
): number {
  return Math.sqrt((h_W_per_m2_K * perimeter_m) / (k_W_per_m_K * area_m2));
}

/**
 * Efficiency of a straight fin of even section with an insulated tip: heat given over the heat it
 * would give if all of it were as hot as its base.
 *
 *   eta = tanh(mL)/(mL)
 *
 * @param mL fin parameter times length, >= 0; air of one temperature along the fin, and a fin thin
 *   enough to be of one temperature across (h t/(2 k) < 0.1).
 * @example finEfficiency(1) // 0.76159
 * @example finEfficiency(0) // 1
 * Source: exact for that case; textbook.
 */
export function finEfficiency(mL: number): number {
  if (mL < 1e-4) return 1 - (mL * mL) / 3;
  return tanh(mL) / mL;
}
