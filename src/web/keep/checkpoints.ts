/** The last checkpoint of the page's run, kept in the browser's own storage. */
import type { Checkpoint } from '../../engine/index.ts';
import { openBase } from './base.ts';

const SHELF = 'checkpoints';
const PLACE = 'own run';

export interface Kept {
  readonly checkpoint: Checkpoint;
  /** Milliseconds since 1970. */
  readonly when: number;
}

/** Replaces what is kept, in one step: a lost tab leaves the old one or the new one, whole. */
export async function keep(checkpoint: Checkpoint): Promise<void> {
  const db = await openBase();
  try {
    await db.put(SHELF, { checkpoint, when: Date.now() }, PLACE);
  } finally {
    db.close();
  }
}

/** What was kept, or null; a browser that forbids storage keeps nothing. */
export async function findKept(): Promise<Kept | null> {
  try {
    const db = await openBase();
    const found: Kept | undefined = await db.get(SHELF, PLACE);
    db.close();
    return found ?? null;
  } catch {
    return null;
  }
}

/** Forgets what was kept; a browser that forbids storage has nothing to forget. */
export async function dropKept(): Promise<void> {
  try {
    const db = await openBase();
    await db.delete(SHELF, PLACE);
    db.close();
  } catch {
    // Nothing could be kept there either.
  }
}
