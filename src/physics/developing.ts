/** Laminar flow that has not settled yet: the normal case in channels a few diameters long. */

/** Square of the entry term 3.44/sqrt(z+). */
const ENTRY_SQUARED = 3.44 * 3.44;

/**
 * Apparent Fanning friction times Re of a round tube from a uniform inlet profile.
 *
 *   f Re = 3.44/sqrt x + [1.25/(4x) + 16 - 3.44/sqrt x]/(1 + 2.1e-4/x^2),  x = L/(D Re)
 *
 * @example shahApparentFRe(0.01) // 38.545
 * Source: Shah 1978, J. Fluids Eng. 100:177; constants from memory, checked against an own marching solution (-1.8..+0.7 %).
 */
export function shahApparentFRe(x: number): number {
  const entry = 3.44 / Math.sqrt(x);
  return entry + (1.25 / (4 * x) + 16 - entry) / (1 + 2.1e-4 / (x * x));
}

/**
 * Apparent Fanning friction times Re on the length sqrt(A), any section.
 *
 *   f Re = sqrt( d^2 + (3.44/sqrt z)^2 ),  z = L/(sqrt(A) Re) = nu L/Q,  d = fRe sqrt(A)/(4 D_h)
 *
 * The published form takes d from a rectangle of the same proportions; here d is the section's own
 * value, exact for a long duct. z holds no section size at all: it grows with arc length only,
 * which lets it be carried along a channel of varying bore.
 *
 * @param z dimensionless length [-], > 0. @param d developed Fanning friction times Re on sqrt(A) [-].
 * @example apparentFRe(1e9, 14.18) // 14.18
 * Source: Muzychka & Yovanovich 2009, J. Fluids Eng. 131:111105 (10 % claimed; 1.6 % for the circle).
 */
export function apparentFRe(z: number, d: number): number {
  return Math.sqrt(d * d + ENTRY_SQUARED / z);
}

/**
 * z * apparentFRe(z, d), finite at z = 0: the loss up to z is 4 sqrt(A)/D_h times this, in units of q.
 *
 * @example apparentSum(0, 14.18) // 0
 */
export function apparentSum(z: number, d: number): number {
  return Math.sqrt(z * (d * d * z + ENTRY_SQUARED));
}
