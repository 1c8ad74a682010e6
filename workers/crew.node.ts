/** A crew of worker threads. */
import { releaseProxy, wrap } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import type { Brief, Crew } from '../src/engine/index.ts';
import type { EvaluateService } from './evaluate.ts';
import { createCrew } from './crew.ts';
import type { WorkerHandle } from './crew.ts';
import { startThread } from './thread.node.ts';
import type { Thread } from './thread.node.ts';

interface NodeCrewOptions {
  readonly size: number;
  /** Entry script; the built one beside this file unless a test names another. */
  readonly entry?: URL;
  /** Threads on that script that have been started already. */
  readonly started?: readonly Thread[];
  readonly onLoss?: (reason: string) => void;
}

export function createNodeCrew(
  brief: Brief,
  options: NodeCrewOptions,
): Crew & { close(): Promise<void> } {
  const entry = options.entry ?? new URL('./evaluate.node.js', import.meta.url);
  const { onLoss } = options;
  const started = [...(options.started ?? [])];
  const crew = createCrew(brief, {
    size: options.size,
    spawn: () => join(started.shift() ?? startThread(entry)),
    ...(onLoss === undefined ? {} : { onLoss }),
  });
  for (const { worker } of started.splice(0)) void worker.terminate();
  return crew;
}

/** Takes a thread into the crew; the process then waits for it. */
function join({ worker, lost }: Thread): WorkerHandle {
  worker.ref();
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
