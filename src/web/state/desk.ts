/** The worker that answers single questions: checks, measures, meshes, drawings. */
import { wrap } from 'comlink';
import type { Remote } from 'comlink';
import wasmUrl from 'manifold-3d/manifold.wasm?url';
import type { DeskService } from '../../../workers/desk-service.ts';
import { tell } from './notices.ts';
import { spawnWorker } from './worker.ts';

let service: Remote<DeskService> | null = null;

/** Starts the worker; a page without Web Workers says so and shows what it can. */
export function openDesk(): void {
  if (typeof Worker === 'undefined') {
    tell('fault', 'This browser has no Web Workers: the page can show files, but not compute.');
    return;
  }
  const worker = spawnWorker();
  worker.addEventListener('error', (event) => {
    tell('fault', `The helper of this page failed: ${event.message}. Reload the page.`);
  });
  service = wrap<DeskService>(worker);
  void service.loadKernel(new URL(wasmUrl, location.href).href);
}

/** @throws Error where the page has no workers. */
export function desk(): Remote<DeskService> {
  if (service === null) throw new Error('This browser has no Web Workers.');
  return service;
}
