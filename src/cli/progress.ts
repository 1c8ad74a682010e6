/** The progress line of a run. */
import type { HistoryEntry } from '../engine/index.ts';
import { figure } from '../formats/index.ts';
import { duration } from './words.ts';

const BAR_WIDTH = 16;

export interface ProgressClock {
  /** Generations already done when this session began. */
  readonly from: number;
  readonly evaluationsFrom: number;
  readonly began_ms: number;
}

export function progressLine(
  entry: HistoryEntry,
  generations: number,
  clock: ProgressClock,
  now_ms: number,
): string {
  const done = entry.generation + 1;
  const share = done / generations;
  const filled = Math.round(share * BAR_WIDTH);
  const bar = '='.repeat(filled) + '.'.repeat(BAR_WIDTH - filled);
  const seconds = (now_ms - clock.began_ms) / 1000;
  const rate = (entry.evaluations - clock.evaluationsFrom) / Math.max(seconds, 1e-3);
  const left = ((generations - done) * seconds) / Math.max(1, done - clock.from);
  return [
    `generation ${done}/${generations} [${bar}]`,
    `${figure(Math.round(rate))} evaluations/s`,
    `hypervolume ${entry.hypervolume.toFixed(4)}`,
    `feasible ${Math.round(100 * entry.feasibleShare)} %`,
    `archive ${entry.archived}`,
    `${duration(left)} left`,
  ].join('  ');
}
