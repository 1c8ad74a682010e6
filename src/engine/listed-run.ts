/** One run in a list of runs, as a server tells it. */
export interface ListedRun {
  /** Name of its folder. */
  readonly folder: string;
  /** Name of its brief. */
  readonly name: string;
  readonly objectives: readonly string[];
  readonly generation: number;
  readonly generations: number;
  readonly archived: number;
  readonly hypervolume: number;
  /** Whether it has a front; without one it is going on, or was stopped. */
  readonly finished: boolean;
  /** Milliseconds since 1970 of the last change. */
  readonly changed: number;
  readonly picture: boolean;
  /** Whether somebody put notes on its designs into it. */
  readonly notes: boolean;
  /** Whether flows were computed for its designs. */
  readonly verified: boolean;
}
