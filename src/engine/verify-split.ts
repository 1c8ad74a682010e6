/** How computed flows of several channels of a plate move the estimate's split of the flow. */
import { computedSplit, pressurePower } from '../flow/index.ts';
import type { VerifyCase } from '../formats/index.ts';

/** One channel beside the median one, both at one pressure drop of the plate. */
export interface SplitChannel {
  readonly role: VerifyCase['role'];
  /** Velocity at the inlet port over that of the median channel: as estimated, and as computed. */
  readonly estimated: number;
  readonly computed: number;
}

/**
 * The split at the fastest velocity at which channels besides the median one were computed; empty where
 * none was.
 *
 * The estimate gives all channels one pressure drop. Computed ones differ, so each velocity is moved to
 * the median's computed pressure drop by the power of velocity that the median's own flows show.
 */
export function flowSplit(cases: readonly VerifyCase[]): SplitChannel[] {
  const medians = cases.filter(({ role }) => role === 'median');
  const others = cases.filter(({ role }) => role !== 'median');
  const fastest = others.reduce((most, one) => Math.max(most, one.medianVelocity_m_per_s), 0);
  const isAt = (one: VerifyCase): boolean => one.medianVelocity_m_per_s === fastest;
  const median = medians.find(isAt);
  if (median === undefined) return [];
  const channels = others.filter(isAt);
  const split = computedSplit([median, ...channels], pressurePower(medians));
  return channels.map((one, i) => ({
    role: one.role,
    estimated: one.velocity_m_per_s / median.velocity_m_per_s,
    computed: split[i + 1],
  }));
}
