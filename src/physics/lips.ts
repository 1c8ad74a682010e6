/** Loss at a ridge that stands into the stream on one side of a channel. */

/**
 * Loss of a ridge that blocks part of a section, over the velocity pressure beside it.
 *
 *   K = (1/(C (1 - b)) - 1)^2,  C = 0.62 + 0.38 (1 - b)^3
 *
 * @param blocked share b of the section [0..1).
 * @example ridgeLoss(0) // 0
 * @example ridgeLoss(0.1).toFixed(4) // '0.0570'
 * Source: sudden expansion (Borda, Carnot) behind the narrowed jet, contraction after Weisbach (from
 * memory); that a one-sided ridge does as an orifice of the same share: own heuristic.
 */
export function ridgeLoss(blocked: number): number {
  const open = 1 - blocked;
  const jet = 1 / ((0.62 + 0.38 * open * open * open) * open);
  return (jet - 1) * (jet - 1);
}
