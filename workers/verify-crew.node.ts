/** Flows computed on worker threads. */
import { Worker } from 'node:worker_threads';
import { releaseProxy, wrap } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import type { VerifyHandle } from './verify-crew.ts';
import type { VerifyService } from './verify.ts';

/** Starts a worker thread. @param entry the built `verify.node` script. */
export function spawnVerifyThread(entry: URL): VerifyHandle {
  const worker = new Worker(entry);
  const lost = new Promise<string>((resolve) => {
    worker.once('error', (error) => resolve(`worker failed: ${error.message}`));
    worker.once('exit', (code) => resolve(`worker ended with code ${code}`));
  });
  const service = wrap<VerifyService>(nodeEndpoint(worker));
  return {
    service,
    lost,
    async terminate() {
      service[releaseProxy]();
      await worker.terminate();
    },
  };
}
