/** Web Worker that draws parts in 3D on canvases handed over to it. */
import { createEngine } from './engine.ts';
import type { SolidEngine } from './engine.ts';
import type { FromEngine, ToEngine } from './far-engine.ts';

function answer(message: FromEngine): void {
  postMessage(message);
}

function handle(engine: SolidEngine, message: ToEngine): void {
  switch (message.kind) {
    case 'attach':
      engine.attach(message.key, message.canvas);
      break;
    case 'detach':
      engine.detach(message.key);
      break;
    case 'put':
      engine.put(message.key, message.part);
      break;
    case 'paint':
      engine.paint(message.key, message.body, message.shading);
      break;
    case 'drop':
      engine.drop(message.key);
      break;
    case 'draw':
      // In step with the screen, as pictures of a worker are shown.
      requestAnimationFrame(() => {
        engine.draw(message.sizes, message.look);
        answer({ kind: 'drawn' });
      });
      break;
    default: {
      const never: never = message;
      throw new Error(`No such message: ${JSON.stringify(never)}`);
    }
  }
}

const surface = new OffscreenCanvas(1, 1);
const context = surface.getContext('webgl2', { antialias: true, stencil: true });
if (context === null) answer({ kind: 'none', why: 'WebGL 2 is not there.' });
else {
  const engine = createEngine(context, () => answer({ kind: 'lost' }));
  addEventListener('message', ({ data }: MessageEvent<ToEngine>) => handle(engine, data));
  answer({ kind: 'ready' });
}
