/** Files of a whole front out of the page. */
import { signal } from '@preact/signals';
import { findKept } from '../keep/checkpoints.ts';
import { desk, kernelUrl } from './desk.ts';
import { OWN_FRONT, refOf } from './fronts.ts';
import type { LoadedFront } from './fronts.ts';
import { download } from './hand-over.ts';
import { notesOf } from './notes.ts';
import { tell, wordsOf } from './notices.ts';
import { plainName } from './plain-name.ts';
import { run } from './run.ts';

/** What is being made, in words; null when nothing is. */
export const making = signal<string | null>(null);

async function make(words: string, work: () => Promise<void>): Promise<void> {
  making.value = words;
  try {
    await work();
  } catch (error) {
    tell('fault', `${words} failed: ${wordsOf(error)}`);
  }
  making.value = null;
}

export function handFront(loaded: LoadedFront, form: 'json' | 'csv' | 'picture'): Promise<void> {
  const [ending, type] = {
    json: ['front.json', 'application/json'],
    csv: ['csv', 'text/csv'],
    picture: ['svg', 'image/svg+xml'],
  }[form];
  return make(`Writing the front of ${loaded.name}`, async () => {
    const text = await desk().frontText(refOf(loaded), form);
    download(`${plainName(loaded.name)}.${ending}`, text, type);
  });
}

export function handReport(loaded: LoadedFront): Promise<void> {
  return make(`Drawing and measuring for the report of ${loaded.name}`, async () => {
    const text = await desk().report(refOf(loaded), [], kernelUrl());
    download(`${plainName(loaded.name)}.report.html`, text, 'text/html');
  });
}

export function handNotes(loaded: LoadedFront): Promise<void> {
  return make(`Writing the notes of ${loaded.name}`, async () => {
    const text = await desk().notesText(refOf(loaded), notesOf(loaded));
    download(`${plainName(loaded.name)}.notes.json`, text, 'application/json');
  });
}

/** The run folder as a zip; with the last checkpoint of a run of this page that can go on. */
export function handZip(loaded: LoadedFront): Promise<void> {
  return make(`Packing ${loaded.name}`, async () => {
    const own = loaded.id === OWN_FRONT;
    const kept = own ? await findKept() : null;
    const history = own
      ? run.value.history.map((entry) => `${JSON.stringify(entry)}\n`).join('')
      : (loaded.history ?? null);
    const name = plainName(loaded.name);
    const bytes = await desk().zip(
      name,
      refOf(loaded),
      {
        designs: notesOf(loaded),
        record: loaded.record ?? null,
        history,
        runtime: navigator.userAgent.slice(0, 200),
        when: new Date().toISOString(),
      },
      kept?.checkpoint ?? null,
    );
    download(`${name}.zip`, bytes, 'application/zip');
  });
}
