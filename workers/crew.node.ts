/** A crew of worker threads. */
import { Worker } from 'node:worker_threads';
import { releaseProxy, wrap } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import type { Brief, Crew } from '../src/engine/index.ts';
import type { EvaluateService } from './evaluate.ts';
import { createCrew } from './crew.ts';
import type { WorkerHandle } from './crew.ts';

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
