/** The last checkpoint of the page's run, kept in the browser's own storage. */
import { openDB } from 'idb';
import type { IDBPDatabase } from 'idb';
import type { Checkpoint } from '../../engine/index.ts';

const BASE = 'anfract';
const SHELF = 'checkpoints';
const PLACE = 'own run';

export interface Kept {
  readonly checkpoint: Checkpoint;
  /** Milliseconds since 1970. */
  readonly when: number;
}

function open(): Promise<IDBPDatabase> {
  return openDB(BASE, 1, { upgrade: (db) => void db.createObjectStore(SHELF) });
}

/** Replaces what is kept, in one step: a lost tab leaves the old one or the new one, whole. */
export async function keep(checkpoint: Checkpoint): Promise<void> {
  const db = await open();
  await db.put(SHELF, { checkpoint, when: Date.now() }, PLACE);
  db.close();
}

/** What was kept, or null; a browser that forbids storage keeps nothing. */
export async function findKept(): Promise<Kept | null> {
  try {
    const db = await open();
    const found: Kept | undefined = await db.get(SHELF, PLACE);
    db.close();
    return found ?? null;
  } catch {
    return null;
  }
}

export async function dropKept(): Promise<void> {
  const db = await open();
  await db.delete(SHELF, PLACE);
  db.close();
}
