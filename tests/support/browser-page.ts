/**
 * Script of the page that evolves a brief in a browser, for the browser tests only: fetches the brief,
 * evolves it with web workers, posts the result back. Bundled, never imported.
 */
import { checkBrief } from '../../src/engine/index.ts';
import { createWebCrew } from '../../workers/crew.web.ts';
import type { WebWorkerLike } from '../../workers/crew.web.ts';
import { evolveWitnessed } from './browser-witness.ts';

// What the page needs of a browser; the DOM's own types would reach into the whole project.
declare const Worker: new (address: string, options: { type: 'module' }) => WebWorkerLike;
declare const location: { readonly search: string };

async function run(): Promise<void> {
  const workers = Number(new URLSearchParams(location.search).get('workers'));
  const answer = await fetch('/brief.json');
  const brief = checkBrief(await answer.json());
  const crew = createWebCrew(brief, workers, () => new Worker('/evaluate.js', { type: 'module' }));
  try {
    const { text } = await evolveWitnessed(brief, crew);
    await fetch('/result', { method: 'POST', body: text });
  } finally {
    await crew.close();
  }
}

// A failure is left unhandled on purpose: the test catches it as the browser's own page error.
void run();
