/** The worker that answers single questions: checks, measures, meshes, drawings. */
import { wrap } from 'comlink';
import type { Remote } from 'comlink';
import wasmUrl from 'manifold-3d/manifold.wasm?url';
import type { DeskService } from '../../../workers/desk-service.ts';
import type { FrontService } from '../../../workers/front-service.ts';
import { tell } from './notices.ts';
import { ownDesk } from './own-desk.ts';
import { spawnWorker } from './worker.ts';

type Desk = DeskService & FrontService;

let service: Remote<Desk> | null = null;

/** Address of the mesh kernel. */
export function kernelUrl(): string {
  return new URL(wasmUrl, location.href).href;
}

/** Whether the page can compute beside itself; without workers it cannot evolve. */
export const hasWorkers = typeof Worker !== 'undefined';

/** Starts the worker; a page without Web Workers says so and answers single questions by itself. */
export function openDesk(): void {
  if (!hasWorkers) {
    tell(
      'fault',
      'This browser has no Web Workers: the page cannot evolve a brief. Checks, drawings and files work, but the page stands still while it makes them.',
    );
    service = ownDesk<Desk>();
  } else {
    const worker = spawnWorker();
    worker.addEventListener('error', (event) => {
      tell('fault', `The helper of this page failed: ${event.message}. Reload the page.`);
    });
    service = wrap<Desk>(worker);
  }
  void service.loadKernel(kernelUrl());
}

/** @throws Error before `openDesk`. */
export function desk(): Remote<Desk> {
  if (service === null) throw new Error('The desk is not open yet.');
  return service;
}
