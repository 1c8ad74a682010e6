/** The one worker file of the page. */

export function spawnWorker(): Worker {
  return new Worker(new URL('../../../workers/page.web.ts', import.meta.url), { type: 'module' });
}
