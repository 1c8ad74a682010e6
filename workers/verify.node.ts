/** Worker-thread entry: exposes the service and nothing else. */
import { parentPort } from 'node:worker_threads';
import { expose } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import { createVerifyService } from './verify.ts';

if (parentPort === null) throw new Error('verify.node runs as a worker thread only.');
expose(createVerifyService(), nodeEndpoint(parentPort));
