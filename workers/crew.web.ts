/** A crew of Web Workers. */
import { releaseProxy, wrap } from 'comlink';
import type { Brief, Crew } from '../src/engine/index.ts';
import type { EvaluateService } from './evaluate.ts';
import { createCrew } from './crew.ts';
import { endOf } from './life.web.ts';
import type { LifeService } from './life.web.ts';

/** The part of a browser's Worker that a crew needs; keeps DOM types out of the Node build. */
export interface WebWorkerLike {
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/**
 * @param spawnWorker starts one worker on the bundled `evaluate.web` entry; the page's bundler
 *   knows its address, this file does not.
 * @param onLoss told when a worker was lost and replaced.
 */
export function createWebCrew(
  brief: Brief,
  size: number,
  spawnWorker: () => WebWorkerLike,
  onLoss?: (reason: string) => void,
): Crew & { close(): Promise<void> } {
  return createCrew(brief, {
    size,
    ...(onLoss === undefined ? {} : { onLoss }),
    spawn() {
      const worker = spawnWorker();
      // A browser's Worker is an Endpoint; the narrow type above only hides the DOM from Node.
      const service = wrap<EvaluateService & LifeService>(worker as never);
      const lost = new Promise<string>((resolve) => {
        worker.addEventListener('error', (event) =>
          resolve(`worker failed: ${event.message ?? 'no message'}`),
        );
        endOf(service).then(
          () => resolve('worker ended'),
          // It never answered; whoever asks it for work learns why.
          () => undefined,
        );
      });
      return {
        service,
        lost,
        terminate() {
          service[releaseProxy]();
          worker.terminate();
          return Promise.resolve();
        },
      };
    },
  });
}
