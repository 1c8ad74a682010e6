/**
 * Whether a Web Worker still lives. A browser tells nobody when one ends without a word, killed for
 * memory or closed; but a lock that it holds is then free (W3C Web Locks).
 */

/** What a worker offers so that others can tell when it is gone. */
export interface LifeService {
  /** Holds a lock from now on; resolves once it does, false where this browser has none. */
  hold(name: string): Promise<boolean>;
}

interface Locks {
  request(name: string, work: () => Promise<void> | void): Promise<void>;
}

/** Web Locks, in secure contexts: over https and on this machine. */
function locksHere(): Locks | null {
  const { navigator: here } = globalThis as { readonly navigator?: { readonly locks?: Locks } };
  return here?.locks ?? null;
}

export function createLife(): LifeService {
  return {
    hold(name) {
      const locks = locksHere();
      if (locks === null) return Promise.resolve(false);
      return new Promise((resolve, reject) => {
        locks
          .request(name, () => {
            resolve(true);
            // For as long as the worker lives.
            return new Promise(() => undefined);
          })
          .catch(reject);
      });
    },
  };
}

let count = 0;

/** Resolves when the worker behind a service is gone; never where the browser cannot tell. */
export async function endOf(service: Pick<LifeService, 'hold'>): Promise<void> {
  const locks = locksHere();
  if (locks === null) return new Promise(() => undefined);
  count++;
  const name = `anfract ${crypto.randomUUID()} ${count}`;
  if (!(await service.hold(name))) return new Promise(() => undefined);
  return locks.request(name, () => undefined);
}
