/** Round figures along an axis. */
import { log10, pow } from '../numeric/index.ts';

/**
 * Multiples of 1, 2 or 5 times a power of ten between two values.
 *
 * @param about how many to aim at.
 * @example roundTicks(0, 10, 5).join(' ') // '0 2 4 6 8 10'
 */
export function roundTicks(low: number, high: number, about: number): number[] {
  const rough = (high - low) / about;
  if (!(rough > 0)) return [low];
  const decade = pow(10, Math.floor(log10(rough)));
  const step = decade * ([1, 2, 5].find((k) => k * decade >= rough) ?? 10);
  const ticks: number[] = [];
  for (let k = Math.ceil(low / step); k * step <= high; k++) ticks.push(k * step);
  return ticks;
}

/** Short figure for a tick: six digits at most. */
export function tickText(value: number): string {
  return String(Number(value.toPrecision(6)));
}
