/**
 * Canvases whose drawing is handed to a worker: marks of thousands of designs take tens of
 * milliseconds where no graphics card helps, and the page's own thread has better things to do.
 */
import { hasWorkers } from '../state/desk.ts';
import { tell } from '../state/notices.ts';
import type { Ink } from '../style/ink-tones.ts';
import type { Picture } from './pictures.ts';

/** What a picture is drawn on: page pixels, canvas pixels per page pixel, tones. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly ratio: number;
  readonly ink: Ink;
}

export type ToPainter =
  | { readonly kind: 'take'; readonly id: number; readonly canvas: OffscreenCanvas }
  | { readonly kind: 'draw'; readonly id: number; readonly picture: Picture; readonly sheet: Sheet }
  | { readonly kind: 'drop'; readonly id: number }
  | {
      readonly kind: 'file';
      readonly id: number;
      readonly form: FileForm;
      readonly title: string;
      readonly picture: Picture;
      readonly sheet: Sheet;
    };

export type FileForm = 'svg' | 'png';

/** `drawn` answers each picture, `file` each file asked for; null where it could not be made. */
export type FromPainter =
  | { readonly kind: 'drawn'; readonly id: number }
  | { readonly kind: 'file'; readonly id: number; readonly bytes: Uint8Array<ArrayBuffer> | null };

interface Place {
  readonly id: number;
  /** A picture is being drawn; only the newest of those that come meanwhile is drawn after it. */
  busy: boolean;
  next: { readonly picture: Picture; readonly sheet: Sheet } | null;
}

const places = new WeakMap<HTMLCanvasElement, Place>();
const byId = new Map<number, WeakRef<Place>>();
const files = new Map<number, (bytes: Uint8Array<ArrayBuffer> | null) => void>();
let painter: Worker | null = null;
let count = 0;

/** A canvas that leaves the page takes its twin in the worker along. */
const gone = new FinalizationRegistry<number>((id) => {
  byId.delete(id);
  send({ kind: 'drop', id });
});

const isPossible =
  hasWorkers &&
  typeof OffscreenCanvas !== 'undefined' &&
  'transferControlToOffscreen' in HTMLCanvasElement.prototype;

/** Has a picture drawn on a canvas of the page. @returns false where this browser cannot. */
export function paintAfar(canvas: HTMLCanvasElement, picture: Picture, sheet: Sheet): boolean {
  if (!isPossible) return false;
  const place = placeOf(canvas);
  if (place.busy) {
    place.next = { picture, sheet };
  } else {
    place.busy = true;
    send({ kind: 'draw', id: place.id, picture, sheet });
  }
  return true;
}

/** A picture as a file, or null where it is too large; rejects where this browser cannot. */
export function fileAfar(
  form: FileForm,
  title: string,
  picture: Picture,
  sheet: Sheet,
): Promise<Uint8Array<ArrayBuffer> | null> {
  if (!isPossible) return Promise.reject(new Error('this browser draws no pictures in a worker'));
  const id = ++count;
  return new Promise((resolve) => {
    files.set(id, resolve);
    send({ kind: 'file', id, form, title, picture, sheet });
  });
}

function placeOf(canvas: HTMLCanvasElement): Place {
  const known = places.get(canvas);
  if (known !== undefined) return known;
  const place: Place = { id: ++count, busy: false, next: null };
  places.set(canvas, place);
  byId.set(place.id, new WeakRef(place));
  gone.register(canvas, place.id);
  const twin = canvas.transferControlToOffscreen();
  send({ kind: 'take', id: place.id, canvas: twin }, [twin]);
  return place;
}

function send(message: ToPainter, transfer: Transferable[] = []): void {
  painter ??= spawnPainter();
  painter.postMessage(message, transfer);
}

function spawnPainter(): Worker {
  const worker = new Worker(new URL('./paint.web.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('error', ({ message }) => {
    const why = message === '' || message === undefined ? 'its worker did not load' : message;
    tell('fault', `Plots cannot be drawn: ${why}. Tables and files work; reload the page.`);
  });
  worker.addEventListener('message', ({ data }: MessageEvent<FromPainter>) => {
    if (data.kind === 'file') {
      files.get(data.id)?.(data.bytes);
      files.delete(data.id);
      return;
    }
    const place = byId.get(data.id)?.deref();
    if (place === undefined) return;
    const { next } = place;
    place.next = null;
    place.busy = next !== null;
    if (next !== null) send({ kind: 'draw', id: place.id, ...next });
  });
  return worker;
}
