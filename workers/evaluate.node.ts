/** Worker-thread entry: exposes the service and nothing else. */
import { parentPort } from 'node:worker_threads';
import { expose } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import { createService } from './evaluate.ts';

if (parentPort === null) throw new Error('evaluate.node runs as a worker thread only.');
expose(createService(), nodeEndpoint(parentPort));
