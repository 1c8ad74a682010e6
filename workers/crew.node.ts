/** A crew of worker threads. */
import { setFlagsFromString } from 'node:v8';
import { Worker } from 'node:worker_threads';
import { releaseProxy, wrap } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import type { Brief, Crew } from '../src/engine/index.ts';
import type { EvaluateService } from './evaluate.ts';
import { createCrew } from './crew.ts';
import type { WorkerHandle } from './crew.ts';

/**
 * Bytes of bytecode a function runs before the optimising compiler takes it, some four times V8's
 * own. Hundreds of functions get warm in each worker at once: compiled early, most are compiled
 * again for what they meet later, by threads that take the same cores. The first generation of the
 * demo brief takes 2.3 s of CPU instead of 3.0, 25 generations 15.3 instead of 15.8
 * (experiments/bench/evaluate); with twice as many it is more again. Speed only: no number changes.
 */
const COMPILE_LATER = '--interrupt-budget=600000';

interface NodeCrewOptions {
  readonly size: number;
  /** Entry script; the built one beside this file unless a test names another. */
  readonly entry?: URL;
  readonly onLoss?: (reason: string) => void;
}

export function createNodeCrew(
  brief: Brief,
  options: NodeCrewOptions,
): Crew & { close(): Promise<void> } {
  const entry = options.entry ?? new URL('./evaluate.node.js', import.meta.url);
  const onLoss = options.onLoss;
  // It holds for the whole process, whichever thread sets it.
  setFlagsFromString(COMPILE_LATER);
  return createCrew(brief, {
    size: options.size,
    spawn: () => spawn(entry),
    ...(onLoss === undefined ? {} : { onLoss }),
  });
}

function spawn(entry: URL): WorkerHandle {
  const worker = new Worker(entry);
  const lost = new Promise<string>((resolve) => {
    worker.once('error', (error) => resolve(`worker failed: ${error.message}`));
    worker.once('exit', (code) => resolve(`worker ended with code ${code}`));
  });
  const service = wrap<EvaluateService>(nodeEndpoint(worker));
  return {
    service,
    lost,
    async terminate() {
      service[releaseProxy]();
      await worker.terminate();
    },
  };
}
