/** Student's t: how wide an interval must be when few readings stand behind it. */

/** Two-sided 95 % quantiles for 1 to 10 degrees of freedom; standard tables (e.g. ISO 2854 annex). */
const FEW = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];
/** The same for a normal variable. */
const NORMAL = 1.959964;

/**
 * Half width of a two-sided 95 % interval in standard deviations.
 *
 * @param freedom degrees of freedom, >= 1; whole below 11.
 * @example student95(4) // 2.776
 * @example student95(30) // 2.04227
 * Source: tables up to 10; above, the expansion 26.7.5 of Abramowitz & Stegun, within 4e-4.
 */
export function student95(freedom: number): number {
  if (freedom <= FEW.length) return FEW[Math.max(0, Math.round(freedom) - 1)];
  const z = NORMAL;
  const z2 = z * z;
  const first = (z * (z2 + 1)) / (4 * freedom);
  const second = (z * (5 * z2 * z2 + 16 * z2 + 3)) / (96 * freedom * freedom);
  const third = z * (3 * z2 * z2 * z2 + 19 * z2 * z2 + 17 * z2 - 15);
  return z + first + second + third / (384 * freedom * freedom * freedom);
}
