/** Notes on the designs of fronts, kept in the browser's own storage by the front's digest. */
import type { DesignNote } from '../../engine/index.ts';
import { openBase } from './base.ts';

const SHELF = 'notes';
/** Place of notes on the page's own runs: a front that grows has no digest, so they go by genes. */
const OWN = 'own run';
/** Most notes kept of one's own runs; the oldest go first. */
const MOST_OWN = 2000;

/** A note on whichever design has these genes. */
export interface OwnNote {
  readonly genes: readonly number[];
  readonly star: boolean;
  readonly note: string;
}

export async function keepNotes(digest: string, notes: readonly DesignNote[]): Promise<void> {
  const db = await openBase();
  if (notes.length > 0) await db.put(SHELF, notes, digest);
  else await db.delete(SHELF, digest);
  db.close();
}

/** What was kept; none where a browser forbids storage. */
export async function findNotes(digest: string): Promise<readonly DesignNote[]> {
  try {
    const db = await openBase();
    const found: readonly DesignNote[] | undefined = await db.get(SHELF, digest);
    db.close();
    return found ?? [];
  } catch {
    return [];
  }
}

export async function keepOwnNotes(notes: readonly OwnNote[]): Promise<void> {
  const db = await openBase();
  await db.put(SHELF, notes.slice(-MOST_OWN), OWN);
  db.close();
}

export async function findOwnNotes(): Promise<readonly OwnNote[]> {
  try {
    const db = await openBase();
    const found: readonly OwnNote[] | undefined = await db.get(SHELF, OWN);
    db.close();
    return found ?? [];
  } catch {
    return [];
  }
}
