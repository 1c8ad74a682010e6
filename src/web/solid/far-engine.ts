/**
 * A worker that draws parts: without a graphics card one picture takes tenths of a second, which the
 * page's own thread cannot spare.
 */
import type { BodyKind } from '../../engine/index.ts';
import { tell } from '../state/notices.ts';
import type { Look, Shading, SolidEngine, SolidPart } from './engine.ts';

type Sizes = Parameters<SolidEngine['draw']>[0];

export type ToEngine =
  | { readonly kind: 'attach'; readonly key: string; readonly canvas: OffscreenCanvas }
  | { readonly kind: 'detach' | 'drop'; readonly key: string }
  | { readonly kind: 'put'; readonly key: string; readonly part: SolidPart }
  | {
      readonly kind: 'paint';
      readonly key: string;
      readonly body: BodyKind;
      readonly shading: Shading | null;
    }
  | { readonly kind: 'draw'; readonly sizes: Sizes; readonly look: Look };

/** `ready` comes first, or `none` with the reason; `drawn` answers each picture. */
export type FromEngine =
  | { readonly kind: 'ready' | 'drawn' | 'lost' }
  | { readonly kind: 'none'; readonly why: string };

/** Whether this browser can draw in a worker. */
export const canDrawAfar =
  typeof Worker !== 'undefined' &&
  typeof OffscreenCanvas !== 'undefined' &&
  'transferControlToOffscreen' in HTMLCanvasElement.prototype;

/** @throws Error when there is no WebGL in a worker. */
export function openFarEngine(
  onLost: () => void,
): Promise<Omit<SolidEngine, 'attach'> & { attach(key: string, canvas: HTMLCanvasElement): void }> {
  const worker = new Worker(new URL('./solid.web.ts', import.meta.url), { type: 'module' });
  const send = (message: ToEngine, transfer: Transferable[] = []): void =>
    worker.postMessage(message, transfer);
  // One picture at a time: while a part is turned, those in between are passed over.
  let busy = false;
  let next: { readonly sizes: Sizes; readonly look: Look } | null = null;
  const draw = (sizes: Sizes, look: Look): void => {
    if (busy) next = { sizes, look };
    else {
      busy = true;
      send({ kind: 'draw', sizes, look });
    }
  };
  return new Promise((resolve, reject) => {
    worker.addEventListener('error', ({ message }) => {
      const why = message === '' || message === undefined ? 'its worker did not load' : message;
      // After the first answer nobody waits for a promise any more.
      tell('fault', `The 3D view failed: ${why}.`);
      reject(new Error(why));
    });
    worker.addEventListener('message', ({ data }: MessageEvent<FromEngine>) => {
      switch (data.kind) {
        case 'none':
          worker.terminate();
          reject(new Error(data.why));
          break;
        case 'lost':
          onLost();
          break;
        case 'drawn': {
          busy = false;
          const waiting = next;
          next = null;
          if (waiting !== null) draw(waiting.sizes, waiting.look);
          break;
        }
        case 'ready':
          resolve({
            attach(key, canvas) {
              const twin = canvas.transferControlToOffscreen();
              send({ kind: 'attach', key, canvas: twin }, [twin]);
            },
            detach: (key) => send({ kind: 'detach', key }),
            put: (key, part) => send({ kind: 'put', key, part }),
            paint: (key, body, shading) => send({ kind: 'paint', key, body, shading }),
            drop: (key) => send({ kind: 'drop', key }),
            draw,
            // Its graphics memory goes with it.
            close: () => worker.terminate(),
          });
          break;
        default: {
          const never: never = data;
          throw new Error(`No such answer: ${JSON.stringify(never)}`);
        }
      }
    });
  });
}
