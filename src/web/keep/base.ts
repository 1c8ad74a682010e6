/** The page's data base in the browser's own storage. */
import { openDB } from 'idb';
import type { IDBPDatabase } from 'idb';

/** 1 had checkpoints only. */
const VERSION = 2;
const SHELVES = ['checkpoints', 'notes'] as const;

export function openBase(): Promise<IDBPDatabase> {
  return openDB('anfract', VERSION, {
    upgrade(db) {
      for (const shelf of SHELVES) {
        if (!db.objectStoreNames.contains(shelf)) db.createObjectStore(shelf);
      }
    },
    // Another tab brings a newer version: let it.
    blocking: (_, __, event) => (event.target as IDBDatabase).close(),
  });
}
