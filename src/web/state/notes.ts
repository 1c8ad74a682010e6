/** Stars and notes on designs. They follow a design's genes, so that they stay while a run goes on. */
import { signal } from '@preact/signals';
import type { DesignNote, FrontDesign, Notes } from '../../engine/index.ts';
import { findNotes, keepNotes } from '../keep/notes.ts';
import { fronts } from './fronts.ts';
import type { LoadedFront } from './fronts.ts';
import { tell, wordsOf } from './notices.ts';

type Noted = Pick<DesignNote, 'star' | 'note'>;

const NOTHING: Noted = { star: false, note: '' };
/** Longest note [characters], as the notes file holds to. */
export const LONGEST_NOTE = 4000;

const noted = signal<ReadonlyMap<string, Noted>>(new Map());

function placeOf(loaded: LoadedFront, design: FrontDesign): string {
  return `${loaded.id} ${design.genes.join(' ')}`;
}

export function noteOf(loaded: LoadedFront, design: FrontDesign): Noted {
  return noted.value.get(placeOf(loaded, design)) ?? NOTHING;
}

/** Notes of all designs of a front that say something. */
export function notesOf(loaded: LoadedFront): DesignNote[] {
  return loaded.front.designs.flatMap((design) => {
    const { star, note } = noteOf(loaded, design);
    return star || note !== '' ? [{ id: design.id, star, note }] : [];
  });
}

export function toggleStar(loaded: LoadedFront, design: FrontDesign): void {
  const old = noteOf(loaded, design);
  put(loaded, [[design, { ...old, star: !old.star }]]);
  keepSoon(loaded);
}

export function writeNote(loaded: LoadedFront, design: FrontDesign, note: string): void {
  put(loaded, [[design, { ...noteOf(loaded, design), note: note.slice(0, LONGEST_NOTE) }]]);
  keepSoon(loaded);
}

function put(loaded: LoadedFront, entries: readonly (readonly [FrontDesign, Noted])[]): void {
  const next = new Map(noted.value);
  for (const [design, note] of entries) next.set(placeOf(loaded, design), note);
  noted.value = next;
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
  if (loaded.digest !== undefined) join(loaded, await findNotes(loaded.digest));
}

/** Milliseconds without a change before notes are kept. */
const PAUSE_MS = 400;
const timers = new Map<string, number>();

function keepSoon(loaded: LoadedFront): void {
  const { id, digest } = loaded;
  if (digest === undefined) return;
  clearTimeout(timers.get(id));
  timers.set(
    id,
    window.setTimeout(() => {
      keepNotes(digest, notesOf(loaded)).catch((error: unknown) =>
        tell('fault', `Notes cannot be kept in this browser: ${wordsOf(error)}`),
      );
    }, PAUSE_MS),
  );
}
