/** Ties bodies, looks and canvases together; draws only when something has changed. */
import { effect, signal } from '@preact/signals';
import type { ShadeKind } from '../../engine/index.ts';
import type { DesignKey } from '../state/fronts.ts';
import { inkOf } from '../style/ink.ts';
import { scaleColour } from './colour-scale.ts';
import { cut, isLit, shade, shown, view } from './look.ts';
import { modelled } from './models.ts';
import type { Modelled } from './models.ts';
import { drawOver } from './overlay.ts';
import { shadeRange, shareOf } from './shades.ts';
import type { ShadeRange } from './shades.ts';
import type { Viewer } from './viewer.ts';

export interface Stage {
  /** Draws a design on a canvas from now on; the answer ends it. */
  attach(key: DesignKey, canvas: HTMLCanvasElement): () => void;
  close(): void;
}

const BODIES = ['part', 'air'] as const;
/** Pixels per CSS pixel at the most: beyond it only the work grows. */
const MOST_DENSITY = 2;
/** Half height of the picture over the radius of the largest part. */
const MARGIN = 0.96;

/** Loads the 3D code and opens a stage. @throws Error when the browser gives no WebGL. */
export async function openStage(onLost: () => void): Promise<Stage> {
  // Asked first: without WebGL the 3D code would be fetched for nothing.
  const surface = document.createElement('canvas');
  const context = surface.getContext('webgl2', { antialias: true, stencil: true });
  if (context === null) throw new Error('WebGL 2 is not there.');
  const { createViewer } = await import('./viewer.ts');
  const viewer = createViewer(context, onLost);
  const canvases = new Map<DesignKey, HTMLCanvasElement>();
  const bodies = new Map<DesignKey, Modelled>();
  const painted = new Map<string, string>();
  // Work on one body per frame: all at once would hold the page up.
  const jobs = new Map<string, () => void>();
  let asked = 0;
  const redraw = (): void => {
    if (asked === 0) asked = requestAnimationFrame(nextFrame);
  };
  const nextFrame = (): void => {
    asked = 0;
    const [job] = jobs;
    if (job === undefined) {
      drawAll(viewer, canvases);
      return;
    }
    jobs.delete(job[0]);
    job[1]();
    redraw();
  };
  const sizes = new ResizeObserver(redraw);
  // Counts changes between light and dark, whose tones are in the colours of bodies too.
  const themes = signal(0);
  const recolour = (): void => {
    themes.value++;
  };
  const scheme = matchMedia('(prefers-color-scheme: dark)');
  scheme.addEventListener('change', recolour);
  const look = new MutationObserver(recolour);
  look.observe(document.documentElement, { attributes: true });
  const stop = effect(() => {
    void themes.value;
    const models = modelled.value;
    for (const key of bodies.keys()) {
      if (models.has(key)) continue;
      viewer.drop(key);
      bodies.delete(key);
      for (const body of BODIES) painted.delete(`${key} ${body}`);
    }
    const kind = shade.value;
    const range = rangeOf(kind);
    const pale = paleOf(canvases);
    for (const [key, one] of models) {
      if (bodies.get(key)?.model !== one.model) {
        jobs.set(key, () => viewer.put(key, one));
        for (const body of BODIES) painted.delete(`${key} ${body}`);
      }
      bodies.set(key, one);
      for (const body of BODIES) {
        const values = kind === null ? undefined : one.shades[`${body} ${kind}`];
        const name = `${key} ${body}`;
        const state = [kind, values?.length, range.low, range.high, pale].join();
        if (painted.get(name) === state) continue;
        painted.set(name, state);
        jobs.set(name, () =>
          viewer.paint(key, body, values === undefined ? null : coloursOf(values, range, pale)),
        );
      }
    }
    redraw();
  });
  const follow = effect(() => {
    for (const one of [view, shown, cut, isLit]) void one.value;
    redraw();
  });
  return {
    attach(key, canvas) {
      canvases.set(key, canvas);
      sizes.observe(canvas);
      redraw();
      return () => {
        sizes.unobserve(canvas);
        canvases.delete(key);
      };
    },
    close() {
      stop();
      follow();
      cancelAnimationFrame(asked);
      sizes.disconnect();
      look.disconnect();
      scheme.removeEventListener('change', recolour);
      viewer.dispose();
    },
  };
}

/** The range of a shade over all bodies that have it by now. */
export function rangeOf(kind: ShadeKind | null): ShadeRange {
  if (kind === null) return { low: 0, high: 1, isOpen: false };
  const values = [...modelled.value.values()].flatMap(({ shades }) => {
    const found = [shades[`part ${kind}`], shades[`air ${kind}`]];
    return found.filter((one) => one !== undefined);
  });
  return shadeRange(kind, values);
}

function drawAll(viewer: Viewer, canvases: ReadonlyMap<DesignKey, HTMLCanvasElement>): void {
  const density = Math.min(MOST_DENSITY, devicePixelRatio || 1);
  let radius = 1;
  for (const key of canvases.keys()) {
    const one = modelled.value.get(key);
    if (one === undefined) continue;
    const half = one.low.map((low, d) => (one.high[d] - low) / 2);
    radius = Math.max(radius, Math.hypot(...half));
  }
  for (const [key, canvas] of canvases) {
    const width = Math.round(canvas.clientWidth * density);
    const height = Math.round(canvas.clientHeight * density);
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    const ink = inkOf(canvas);
    const frame = {
      view: view.value,
      shown: shown.value,
      cut: cut.value,
      isLit: isLit.value,
      coloured: shade.value !== null,
      ink,
      half_mm: MARGIN * radius,
    };
    drawOver(canvas, ink, view.value, viewer.draw(key, canvas, frame), density);
  }
}

/** Tone of what has no value: the page's own grey, as linear components. */
function paleOf(canvases: ReadonlyMap<DesignKey, HTMLCanvasElement>): readonly number[] {
  const [canvas] = canvases.values();
  const tone = canvas === undefined ? 'rgb(190, 196, 194)' : inkOf(canvas).hair;
  return (tone.match(/[\d.]+/g) ?? ['190', '196', '194']).slice(0, 3).map((c) => linear(+c / 255));
}

function linear(c: number): number {
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

/** Steps of the colour table: finer than a screen shows. */
const STEPS = 512;

function coloursOf(values: Float32Array, range: ShadeRange, pale: readonly number[]): Float32Array {
  const table = Array.from({ length: STEPS }, (_, k) => scaleColour(k / (STEPS - 1)).map(linear));
  const out = new Float32Array(9 * values.length);
  for (let t = 0; t < values.length; t++) {
    const tone = Number.isNaN(values[t])
      ? pale
      : table[Math.round(shareOf(values[t], range) * (STEPS - 1))];
    for (let k = 0; k < 9; k++) out[9 * t + k] = tone[k % 3];
  }
  return out;
}
