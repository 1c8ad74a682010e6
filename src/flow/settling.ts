/** When a march may end: whether its pressure drop stands still, and what is still to come. */

export interface Settling {
  readonly settled: boolean;
  /** Mean over the last flush; over half the march where it does not settle. */
  readonly mean: number;
  /** Greatest departure from the mean within it, relative. */
  readonly scatter: number;
  /** Change still to come, relative, from the decay of the last three means. */
  readonly remaining: number;
  /** Readings that the march takes in all, as far as can be told. */
  readonly expected: number;
}

/** Flushes of the bore before a march may end, from an even flow and from another solution. */
const LEAST_FLUSHES = { cold: 4, warm: 3 } as const;
/** Flushes that a march is expected to take. */
const USUAL_FLUSHES = { cold: 8, warm: 5 } as const;

/**
 * Means over the last three flushes, m3 the latest: a decaying mode leaves
 *
 *   remaining = (m3 - m2) r / (1 - r),  r = (m3 - m2) / (m2 - m1)
 *
 * (Aitken 1926). Settled when both the last change and what remains are within the tolerance.
 *
 * @param flush readings during one flush of the bore.
 */
export function judgeReadings(
  readings: readonly number[],
  flush: number,
  tolerance: number,
  warm: boolean,
): Settling {
  const n = readings.length;
  const kind = warm ? 'warm' : 'cold';
  const window = Math.max(2, Math.ceil(flush));
  const m3 = meanOf(readings, n - window, n);
  const m2 = meanOf(readings, n - 2 * window, n - window);
  const m1 = meanOf(readings, n - 3 * window, n - 2 * window);
  const change = m3 - m2;
  const ratio = Math.min(0.9, Math.max(-0.9, change / (m2 - m1)));
  const rest = Math.abs(ratio > 0 ? (change * ratio) / (1 - ratio) : 0.5 * change);
  const settled =
    n >= LEAST_FLUSHES[kind] * window && Math.abs(change) < tolerance * m3 && rest < tolerance * m3;
  const from = settled ? n - window : Math.min(n - window, n >> 1);
  const mean = meanOf(readings, from, n);
  let scatter = 0;
  for (let i = Math.max(0, from); i < n; i++) {
    scatter = Math.max(scatter, Math.abs(readings[i] / mean - 1));
  }
  const usual = Math.ceil(USUAL_FLUSHES[kind] * window);
  return {
    settled,
    mean,
    scatter,
    remaining: Math.abs(rest / m3),
    expected: settled ? n : Math.max(usual, n + window),
  };
}

function meanOf(values: readonly number[], from: number, to: number): number {
  let sum = 0;
  const first = Math.max(0, from);
  for (let i = first; i < to; i++) sum += values[i];
  return sum / (to - first);
}
