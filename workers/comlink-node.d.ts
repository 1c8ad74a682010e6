// comlink ships its Node adapter without types.
declare module 'comlink/dist/esm/node-adapter.mjs' {
  import type { Endpoint } from 'comlink';
  import type { MessagePort, Worker } from 'node:worker_threads';
  // oxlint-disable-next-line import/no-default-export -- the adapter's own shape
  export default function nodeEndpoint(port: Worker | MessagePort): Endpoint;
}
