/** A desk on the page's own thread, for browsers without workers. */
import type { Remote } from 'comlink';

/**
 * Looks like a worker's proxy: every method answers with a promise.
 *
 * @param load fetches the service; asked once, so that other browsers never fetch it.
 */
export function ownDesk<Service extends object>(load: () => Promise<Service>): Remote<Service> {
  const loaded = load();
  const answer =
    (name: string | symbol) =>
    async (...questions: readonly unknown[]): Promise<unknown> => {
      const method: unknown = Reflect.get(await loaded, name);
      if (typeof method !== 'function') throw new Error(`The desk does not know ${String(name)}.`);
      return method(...questions);
    };
  return new Proxy({}, { get: (_, name) => answer(name) }) as Remote<Service>;
}
