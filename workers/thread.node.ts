/** Threads for a crew. They may start before there is a crew: loading takes them as long as the rest. */
import { setFlagsFromString } from 'node:v8';
import { Worker } from 'node:worker_threads';

/**
 * Bytes of bytecode a function runs before the optimising compiler takes it, some four times V8's
 * own. Hundreds of functions get warm in each worker at once: compiled early, most are compiled
 * again for what they meet later, by threads that take the same cores. The first generation of the
 * demo brief takes 2.3 s of CPU instead of 3.0, 25 generations 15.3 instead of 15.8
 * (experiments/bench/evaluate); with twice as many it is more again. Speed only: no number changes.
 */
const COMPILE_LATER = '--interrupt-budget=600000';

export interface Thread {
  readonly worker: Worker;
  /** Resolves with the reason when the thread is lost; never rejects. */
  readonly lost: Promise<string>;
}

/** Starts a thread that does not keep the process from ending. */
export function startThread(entry: URL): Thread {
  // It holds for the whole process, whichever thread sets it.
  setFlagsFromString(COMPILE_LATER);
  const worker = new Worker(entry);
  worker.unref();
  const lost = new Promise<string>((resolve) => {
    worker.once('error', (error) => resolve(`worker failed: ${error.message}`));
    worker.once('exit', (code) => resolve(`worker ended with code ${code}`));
  });
  return { worker, lost };
}
