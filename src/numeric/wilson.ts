/** How well a share is known from a count. */

/** Two-sided 95 % quantile of the normal distribution. */
const NORMAL_95 = 1.959963984540054;

/** A share with its 95 % interval. */
export interface Share {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Share of hits among trials with its 95 % score interval.
 *
 *   (p + z^2/2n -+ z sqrt(p (1 - p)/n + z^2/4n^2)) / (1 + z^2/n),  z = 1.96
 *
 * @param hits 0 to `trials`; need not be a whole number.
 * @param trials 0 gives the share 0 within 0..1.
 * @example wilsonShare(5, 10).low // 0.236593
 * @example wilsonShare(0, 20).high // 0.161125
 * Source: Wilson 1927, J. Am. Stat. Assoc. 22:209.
 */
export function wilsonShare(hits: number, trials: number): Share {
  if (!(trials > 0)) return { share: 0, low: 0, high: 1 };
  const p = hits / trials;
  const z2 = (NORMAL_95 * NORMAL_95) / trials;
  const middle = p + 0.5 * z2;
  const half = Math.sqrt(z2 * (p * (1 - p) + 0.25 * z2));
  return {
    share: p,
    low: Math.max(0, (middle - half) / (1 + z2)),
    high: Math.min(1, (middle + half) / (1 + z2)),
  };
}
