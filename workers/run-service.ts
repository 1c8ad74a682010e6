/** Drives a run and its crew of workers away from the page's own thread. */
import { evolve, frontOf } from '../src/engine/index.ts';
import type { Brief, Checkpoint, Front, RunEvent } from '../src/engine/index.ts';
import { createWebCrew } from './crew.web.ts';
import type { WebWorkerLike } from './crew.web.ts';

/** What the page hears of a run. */
interface RunListener {
  event(event: RunEvent): void;
  /** A checkpoint to keep, and the front as it stands there. */
  checkpoint(checkpoint: Checkpoint, front: Front): Promise<void>;
  /** A worker was lost and replaced. */
  loss(reason: string): void;
}

export interface RunService {
  /** Runs to the end, or until `stop`; resolves with the front. */
  start(
    brief: Brief,
    checkpoint: Checkpoint | null,
    workers: number,
    listener: RunListener,
  ): Promise<Front>;
  /** Ends the run after the generation under way. */
  stop(): void;
}

/** Generations between checkpoints: a lost tab loses no more than these. */
const CHECKPOINT_EVERY = 2;

/** @param spawnWorker starts one worker that scores rows. */
export function createRunService(spawnWorker: () => WebWorkerLike): RunService {
  let halt = new AbortController();
  return {
    async start(brief, checkpoint, workers, listener) {
      halt = new AbortController();
      const crew = createWebCrew(brief, workers, spawnWorker, (reason) => listener.loss(reason));
      try {
        const run = evolve(
          brief,
          { checkpointEvery: CHECKPOINT_EVERY, ...(checkpoint === null ? {} : { checkpoint }) },
          {
            crew,
            keep: (kept) => listener.checkpoint(kept, frontOf(kept)),
            now: () => performance.now(),
            signal: halt.signal,
          },
        );
        for (;;) {
          const step = await run.next();
          if (step.done === true) return step.value;
          listener.event(step.value);
        }
      } finally {
        await crew.close();
      }
    },
    stop: () => halt.abort(),
  };
}
