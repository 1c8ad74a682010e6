/** Runs of the folder that the server shows, and the one whose progress is followed. */
import { signal } from '@preact/signals';
import type { HistoryEntry, ListedRun, RunTexts } from '../../engine/index.ts';
import { desk } from './desk.ts';
import { activeId } from './fronts.ts';
import { tell, wordsOf } from './notices.ts';
import { putOpened, unshelved } from './open-files.ts';

/** Null until the server was asked, and where it shows no folder. */
export const runList = signal<readonly ListedRun[] | null>(null);
/** The run that is followed, with its history. */
export const followed = signal<{
  readonly folder: string;
  readonly entries: readonly HistoryEntry[];
} | null>(null);

/** Address of a file of a run, beside the page. */
export function runAddress(folder: string, file: string): string {
  return `./runs/${encodeURIComponent(folder)}/${file}`;
}

async function textOf(folder: string, file: string): Promise<string | null> {
  const answer = await fetch(runAddress(folder, file), { cache: 'no-cache' });
  if (answer.status === 404) return null;
  if (!answer.ok) throw new Error(`${file} of ${folder}: the server answers ${answer.status}`);
  return answer.text();
}

/** Asks the server for its list; a server of plain files has none. */
export async function askForRuns(): Promise<void> {
  try {
    const answer = await fetch('./runs/index.json', { cache: 'no-cache' });
    const isList = answer.headers.get('content-type')?.includes('json') === true;
    if (!answer.ok || !isList) return;
    const list: unknown = await answer.json();
    if (Array.isArray(list) && list.length > 0) runList.value = list as ListedRun[];
  } catch {
    // Offline, or a page opened from plain files: there is no list then.
  }
}

const PARTS = ['run.json', 'front.json', 'history.jsonl'] as const;

/** Opens the front of a run; of one in progress, the front of its last checkpoint. */
export async function openListed({ folder, finished, notes, verified }: ListedRun): Promise<void> {
  try {
    const loaded = finished ? await openEnded(folder, notes, verified) : await openGoing(folder);
    activeId.value = loaded;
  } catch (error) {
    tell('fault', `${folder} could not be opened: ${wordsOf(error)}`);
  }
}

async function openEnded(folder: string, withNotes: boolean, verified: boolean): Promise<string> {
  const texts: Partial<Record<keyof RunTexts, string | null>> = {};
  for (const part of PARTS) texts[part] = await textOf(folder, part);
  // Asked for only where there are some: a 404 would stand in the console as a fault.
  if (withNotes) texts['notes.json'] = await textOf(folder, 'notes.json');
  if (verified) texts['verify.json'] = await textOf(folder, 'verify.json');
  return putOpened(folder, await unshelved(await desk().openRun(texts, folder))).id;
}

async function openGoing(folder: string): Promise<string> {
  const text = await textOf(folder, 'checkpoint.json');
  if (text === null) throw new Error('it has no checkpoint yet');
  const opened = await desk().openFile(new TextEncoder().encode(text), folder);
  if (opened.kind !== 'front') throw new Error('its checkpoint is none');
  const name = `${folder}, generation ${opened.front.generation}`;
  return putOpened(name, await unshelved(opened)).id;
}

/** Milliseconds between looks at a run in progress. */
const LOOK_EVERY_MS = 3000;

/** Follows a run until the answer is called; looks only while the page is in sight. */
export function followRun(folder: string): () => void {
  let timer = 0;
  let ended = false;
  followed.value = { folder, entries: [] };
  const look = async (): Promise<void> => {
    if (document.visibilityState === 'visible') {
      try {
        const text = await textOf(folder, 'history.jsonl');
        const entries = text === null ? [] : await desk().history(text, folder);
        if (!ended) followed.value = { folder, entries };
      } catch (error) {
        tell('fault', `${folder} can no longer be followed: ${wordsOf(error)}`);
        return;
      }
    }
    if (!ended) timer = window.setTimeout(() => void look(), LOOK_EVERY_MS);
  };
  void look();
  return () => {
    ended = true;
    clearTimeout(timer);
    followed.value = null;
  };
}
