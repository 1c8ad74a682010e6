/** When a search no longer gets better. */

/** A gain smaller than this share of the hypervolume counts as none; own choice. */
const STALL_GAIN = 1e-4;

/**
 * Whether the hypervolume has not grown by a share of `gain` over the last `generations` generations.
 * A history that is too short, or still at 0 (nothing feasible yet), has not stalled.
 *
 * @param history hypervolume after each generation.
 * @param generations how far to look back, at least 1.
 * @example hasStalled([0.5, 0.8, 0.80001], 1) // true
 * @example hasStalled([0.5, 0.8, 0.80001], 2) // false
 */
export function hasStalled(
  history: readonly number[],
  generations: number,
  gain: number = STALL_GAIN,
): boolean {
  const from = history.length - 1 - generations;
  if (from < 0) return false;
  let before = 0;
  let best = 0;
  for (let i = 0; i < history.length; i++) {
    best = Math.max(best, history[i]);
    if (i <= from) before = best;
  }
  return before > 0 && best - before < gain * before;
}
