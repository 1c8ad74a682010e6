/** Stars and notes on designs. They follow a design's genes, so that they stay while a run goes on. */
import { signal } from '@preact/signals';
import type { DesignNote, FrontDesign, Notes } from '../../engine/index.ts';
import { findNotes, findOwnNotes, keepNotes, keepOwnNotes } from '../keep/notes.ts';
import type { OwnNote } from '../keep/notes.ts';
import { OWN_FRONT, fronts } from './fronts.ts';
import type { LoadedFront } from './fronts.ts';
import { keyOfGenes } from './genes-key.ts';
import { tell, wordsOf } from './notices.ts';

type Noted = Pick<DesignNote, 'star' | 'note'>;

const NOTHING: Noted = { star: false, note: '' };
/** Longest note [characters], as the notes file holds to. */
export const LONGEST_NOTE = 4000;

/** By front and by genes. */
const noted = signal<ReadonlyMap<string, ReadonlyMap<string, OwnNote>>>(new Map());

export function noteOf(loaded: LoadedFront, design: FrontDesign): Noted {
  const ofFront = noted.value.get(loaded.id);
  return ofFront?.get(keyOfGenes(design.genes)) ?? NOTHING;
}

/** Notes of all designs of a front that say something. */
export function notesOf(loaded: LoadedFront): DesignNote[] {
  // Most fronts have none, and a front may have thousands of designs.
  if ((noted.value.get(loaded.id)?.size ?? 0) === 0) return [];
  return loaded.front.designs.flatMap((design) => {
    const { star, note } = noteOf(loaded, design);
    return star || note !== '' ? [{ id: design.id, star, note }] : [];
  });
}

export function toggleStar(loaded: LoadedFront, design: FrontDesign): void {
  const old = noteOf(loaded, design);
  put(loaded, [[design, { ...old, star: !old.star }]]);
  void keepNow(loaded);
}

export function writeNote(loaded: LoadedFront, design: FrontDesign, note: string): void {
  put(loaded, [[design, { ...noteOf(loaded, design), note: note.slice(0, LONGEST_NOTE) }]]);
  keepSoon(loaded);
}

function put(loaded: LoadedFront, entries: readonly (readonly [FrontDesign, Noted])[]): void {
  const own = new Map(noted.value.get(loaded.id));
  for (const [{ genes }, { star, note }] of entries) {
    own.set(keyOfGenes(genes), { genes, star, note });
  }
  noted.value = new Map([...noted.value, [loaded.id, own]]);
}

/** Takes the notes of a file over to the front they belong to; notes of one's own stay, joined. */
export function takeNotes(notes: Notes): void {
  const loaded = fronts.value.find(({ digest }) => digest === notes.front);
  if (loaded === undefined) {
    tell(
      'fault',
      `These notes belong to a front that is not open (digest ${notes.front.slice(0, 16)}): open that front, then the notes.`,
    );
    return;
  }
  join(loaded, notes.designs);
  keepSoon(loaded);
}

function join(loaded: LoadedFront, designs: readonly DesignNote[]): void {
  const byId = new Map(loaded.front.designs.map((design) => [design.id, design]));
  put(
    loaded,
    designs.flatMap(({ id, star, note }) => {
      const design = byId.get(id);
      if (design === undefined) return [];
      const old = noteOf(loaded, design);
      const both =
        old.note === '' || note.includes(old.note)
          ? note
          : old.note.includes(note)
            ? old.note
            : `${old.note}\n${note}`;
      return [[design, { star: star || old.star, note: both.slice(0, LONGEST_NOTE) }] as const];
    }),
  );
}

/** Notes that this browser kept for a front from before. */
export async function recallNotes(loaded: LoadedFront): Promise<void> {
  if (loaded.digest === undefined) return;
  const found = await findNotes(loaded.digest);
  if (found.length > 0) join(loaded, found);
}

/** Notes on designs of this page's own runs, from before a reload: they wait for their genes. */
export async function recallOwnNotes(): Promise<void> {
  const known = noted.value.get(OWN_FRONT) ?? new Map<string, OwnNote>();
  const found = (await findOwnNotes()).map((note) => [keyOfGenes(note.genes), note] as const);
  if (found.length > 0) {
    noted.value = new Map([...noted.value, [OWN_FRONT, new Map([...found, ...known])]]);
  }
}

/** Milliseconds without a change before notes are kept. */
const PAUSE_MS = 400;
const waiting = new Map<string, { readonly timer: number; readonly loaded: LoadedFront }>();

function keepSoon(loaded: LoadedFront): void {
  const { id } = loaded;
  clearTimeout(waiting.get(id)?.timer);
  const timer = window.setTimeout(() => {
    waiting.delete(id);
    void keepNow(loaded);
  }, PAUSE_MS);
  waiting.set(id, { timer, loaded });
}

// What was typed last must not be lost with the page.
addEventListener('pagehide', () => {
  for (const { loaded } of waiting.values()) void keepNow(loaded);
});

/** Notes of a front that still grows are kept by genes, those of a finished one by its digest. */
export async function keepNow(loaded: LoadedFront): Promise<void> {
  const { id, digest } = loaded;
  try {
    if (id === OWN_FRONT) {
      const all = [...(noted.value.get(OWN_FRONT)?.values() ?? [])];
      await keepOwnNotes(all.filter(({ star, note }) => star || note !== ''));
    }
    if (digest !== undefined) await keepNotes(digest, notesOf(loaded));
  } catch (error) {
    tell('fault', `Notes cannot be kept in this browser: ${wordsOf(error)}`);
  }
}
