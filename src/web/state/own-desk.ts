/** A desk on the page's own thread, for browsers without workers. */
import { wrap } from 'comlink';
import type { Remote } from 'comlink';
// The bundler answers with the address of the built file.
// oxlint-disable-next-line import/default
import pageWorker from '../../../workers/page.web.ts?worker&url';
import { tell, wordsOf } from './notices.ts';

/** Fetches the worker's file as a part of the page; it finds its end of a channel by this name. */
export function ownDesk<Service>(): Remote<Service> {
  const { port1, port2 } = new MessageChannel();
  Reflect.set(globalThis, 'deskPort', port2);
  import(/* @vite-ignore */ new URL(pageWorker, location.href).href).catch((error: unknown) =>
    tell('fault', `The page cannot compute: ${wordsOf(error)}.`),
  );
  return wrap<Service>(port1);
}
