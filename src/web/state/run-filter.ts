/** Finding runs in a list. */

/** One run of the list, as the server tells it. */
export interface ListedRun {
  readonly folder: string;
  readonly name: string;
  readonly objectives: readonly string[];
  readonly generation: number;
  readonly generations: number;
  readonly archived: number;
  readonly hypervolume: number;
  readonly finished: boolean;
  readonly changed: number;
  readonly picture: boolean;
  readonly notes: boolean;
  /** Whether flows were computed for its designs. */
  readonly verified: boolean;
}

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
