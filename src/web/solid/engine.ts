/** Draws parts on canvases, wherever it runs: in a worker, or on the page where a browser cannot. */
import type { BodyKind, ShownBody } from '../../engine/index.ts';
import type { Ink } from '../style/ink-tones.ts';
import { coloursOf } from './colours.ts';
import type { Cut, Shown } from './look.ts';
import { drawOver } from './overlay.ts';
import type { ShadeRange } from './shades.ts';
import type { View } from './view.ts';
import { createViewer } from './viewer.ts';
import type { AnyCanvas } from './viewer.ts';

/** What is drawn of a part: plain data. */
export interface SolidPart {
  readonly part: ShownBody;
  readonly air: ShownBody | null;
  /** Outline of the plate x0 y0 x1 y1 ... [mm]. */
  readonly outline: ArrayLike<number>;
  readonly holes: readonly {
    readonly x_mm: number;
    readonly y_mm: number;
    readonly diameter_mm: number;
  }[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** How all parts look now. */
export interface Look {
  readonly view: View;
  readonly shown: Shown;
  readonly cut: Cut | null;
  readonly isLit: boolean;
  readonly coloured: boolean;
  readonly ink: Ink;
  /** Half height of the picture at zoom 1, the same for all designs [mm]. */
  readonly half_mm: number;
  /** Canvas pixels per page pixel. */
  readonly density: number;
}

/** Values per triangle over a range; what has none is pale (linear components). */
export interface Shading {
  readonly values: Float32Array;
  readonly range: ShadeRange;
  readonly pale: readonly number[];
}

export interface SolidEngine {
  attach(key: string, canvas: AnyCanvas): void;
  detach(key: string): void;
  put(key: string, part: SolidPart): void;
  paint(key: string, body: BodyKind, shading: Shading | null): void;
  drop(key: string): void;
  /** @param sizes of canvases by key [canvas pixels]. */
  draw(
    sizes: readonly { readonly key: string; readonly width: number; readonly height: number }[],
    look: Look,
  ): void;
  close(): void;
}

/** @param context with a stencil buffer, on a canvas of its own. */
export function createEngine(context: WebGL2RenderingContext, onLost: () => void): SolidEngine {
  const viewer = createViewer(context, onLost);
  const canvases = new Map<string, AnyCanvas>();
  return {
    attach: (key, canvas) => void canvases.set(key, canvas),
    detach: (key) => void canvases.delete(key),
    put: (key, part) => viewer.put(key, part),
    paint(key, body, shading) {
      const colours =
        shading === null ? null : coloursOf(shading.values, shading.range, shading.pale);
      viewer.paint(key, body, colours);
    },
    drop: (key) => viewer.drop(key),
    draw(sizes, look) {
      for (const { key, width, height } of sizes) {
        const canvas = canvases.get(key);
        if (canvas === undefined) continue;
        if (canvas.width !== width) canvas.width = width;
        if (canvas.height !== height) canvas.height = height;
        const mm_per_px = viewer.draw(key, canvas, look);
        drawOver(canvas, look.ink, look.view, mm_per_px, look.density);
      }
    },
    close: () => viewer.dispose(),
  };
}
