/** Lengths that read well on a dimension line. */

/** Roundest length [mm] that takes about a share of a width. @example roundLength(37) // 20 */
export function roundLength(most_mm: number): number {
  const decade = 10 ** Math.floor(Math.log10(most_mm));
  const [best] = [5, 2, 1].filter((digit) => digit * decade <= most_mm);
  return best * decade;
}
