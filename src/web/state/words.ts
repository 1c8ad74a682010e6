/** Figures and times as the page writes them. */
export { figure } from '../../formats/index.ts';

/**
 * A duration in the largest two units that matter.
 *
 * @example duration(75) // '1 min 15 s'
 */
export function duration(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  return `${Math.floor(whole / 3600)} h ${Math.floor((whole % 3600) / 60)} min`;
}
