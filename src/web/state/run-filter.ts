/** Finding runs in a list. */
import type { ListedRun } from '../../engine/index.ts';

/** Runs whose words fit: every word must stand in the name, the folder, or an objective. */
export function fittingRuns(
  runs: readonly ListedRun[],
  words: string,
  state: 'all' | 'ended' | 'open',
): ListedRun[] {
  const wanted = words.toLowerCase().split(/\s+/u).filter(Boolean);
  return runs.filter((run) => {
    const text = [run.folder, run.name, ...run.objectives].join(' ').toLowerCase();
    const fits = state === 'all' || run.finished === (state === 'ended');
    return fits && wanted.every((word) => text.includes(word));
  });
}
