/** How a plate's flow divides among channels of different shapes, from their computed pressure drops. */

import { log, pow } from '../numeric/index.ts';

/** A channel computed at some velocity; all of one plate at the same estimated pressure drop. */
export interface ComputedChannel {
  readonly velocity_m_per_s: number;
  readonly pressureDrop_Pa: number;
}

/** Pressure over velocity when nothing else is known: between laminar friction (1) and ends (2); own choice. */
export const USUAL_POWER = 1.7;

/**
 * Power n of dp ~ U^n through computed flows of one channel: slope of the straight line through the
 * logarithms that fits best, held within 1 and 2; the usual one with fewer than two velocities.
 *
 * @example pressurePower([{ velocity_m_per_s: 1, pressureDrop_Pa: 2 }, { velocity_m_per_s: 2, pressureDrop_Pa: 6 }]) // 1.5849625
 */
export function pressurePower(flows: readonly ComputedChannel[]): number {
  const points = flows.map((one) => [log(one.velocity_m_per_s), log(one.pressureDrop_Pa)] as const);
  const x = points.reduce((sum, [a]) => sum + a, 0) / points.length;
  const y = points.reduce((sum, [, b]) => sum + b, 0) / points.length;
  let across = 0;
  let along = 0;
  for (const [a, b] of points) {
    along += (a - x) * (a - x);
    across += (a - x) * (b - y);
  }
  if (!(along > 1e-6)) return USUAL_POWER;
  return Math.min(2, Math.max(1, across / along));
}

/**
 * Velocity that each channel would have at the pressure drop of the first, over that channel's own:
 *
 *   U_i (dp_1 / dp_i)^(1/n) / U_1
 *
 * @param channels the first is the one that others are measured by.
 * @param power of pressure over velocity, see `pressurePower`.
 * @example computedSplit([{ velocity_m_per_s: 1, pressureDrop_Pa: 4 }, { velocity_m_per_s: 2, pressureDrop_Pa: 16 }], 2)[1] // 1
 * Source: parallel channels share one pressure drop.
 */
export function computedSplit(channels: readonly ComputedChannel[], power: number): number[] {
  const [first] = channels;
  return channels.map(
    ({ velocity_m_per_s, pressureDrop_Pa }) =>
      (velocity_m_per_s * pow(first.pressureDrop_Pa / pressureDrop_Pa, 1 / power)) /
      first.velocity_m_per_s,
  );
}
