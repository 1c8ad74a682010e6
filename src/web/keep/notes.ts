/** Notes on the designs of fronts, kept in the browser's own storage by the front's digest. */
import type { DesignNote } from '../../engine/index.ts';
import { openBase } from './base.ts';

const SHELF = 'notes';

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
