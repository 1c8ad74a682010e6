/** Ties bodies, looks and canvases together; draws only when something has changed. */
import { effect, signal } from '@preact/signals';
import type { ShadeKind } from '../../engine/index.ts';
import type { DesignKey } from '../state/fronts.ts';
import { inkOf } from '../style/ink.ts';
import { linear } from './colours.ts';
import type { SolidEngine, SolidPart } from './engine.ts';
import { canDrawAfar, openFarEngine } from './far-engine.ts';
import { cut, isLit, shade, shown, view } from './look.ts';
import { modelled } from './models.ts';
import type { Modelled } from './models.ts';
import { shadeRange } from './shades.ts';
import type { ShadeRange } from './shades.ts';

export interface Stage {
  /** Draws a design on a canvas from now on; the answer ends it. */
  attach(key: DesignKey, canvas: HTMLCanvasElement): () => void;
  close(): void;
}

/** An engine that is given canvases of the page. */
type PageEngine = Omit<SolidEngine, 'attach'> & {
  attach(key: string, canvas: HTMLCanvasElement): void;
};

const BODIES = ['part', 'air'] as const;
/** Pixels per CSS pixel at the most: beyond it only the work grows. */
const MOST_DENSITY = 2;
/** Half height of the picture over the radius of the largest part. */
const MARGIN = 0.96;

/** The 3D code on the page's own thread. @throws Error when the browser gives no WebGL. */
async function openNearEngine(onLost: () => void): Promise<PageEngine> {
  // Asked first: without WebGL the 3D code would be fetched for nothing.
  const surface = document.createElement('canvas');
  const context = surface.getContext('webgl2', { antialias: true, stencil: true });
  if (context === null) throw new Error('WebGL 2 is not there.');
  const { createEngine } = await import('./engine.ts');
  return createEngine(context, onLost);
}

/** Loads the 3D code and opens a stage. @throws Error when the browser gives no WebGL. */
export async function openStage(onLost: () => void): Promise<Stage> {
  const engine = await (canDrawAfar ? openFarEngine(onLost) : openNearEngine(onLost));
  const canvases = new Map<DesignKey, HTMLCanvasElement>();
  const bodies = new Map<DesignKey, Modelled>();
  const painted = new Map<string, string>();
  let asked = 0;
  const redraw = (): void => {
    if (asked !== 0) return;
    asked = requestAnimationFrame(() => {
      asked = 0;
      drawAll(engine, canvases);
    });
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
      engine.drop(key);
      bodies.delete(key);
      for (const body of BODIES) painted.delete(`${key} ${body}`);
    }
    const kind = shade.value;
    const range = rangeOf(kind);
    const pale = paleOf(canvases);
    for (const [key, one] of models) {
      if (bodies.get(key)?.model !== one.model) {
        engine.put(key, partOf(one));
        for (const body of BODIES) painted.delete(`${key} ${body}`);
      }
      bodies.set(key, one);
      for (const body of BODIES) {
        const values = kind === null ? undefined : one.shades[`${body} ${kind}`];
        const name = `${key} ${body}`;
        const state = [kind, values?.length, range.low, range.high, pale].join();
        if (painted.get(name) === state) continue;
        painted.set(name, state);
        engine.paint(key, body, values === undefined ? null : { values, range, pale });
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
      engine.attach(key, canvas);
      sizes.observe(canvas);
      redraw();
      return () => {
        sizes.unobserve(canvas);
        canvases.delete(key);
        engine.detach(key);
      };
    },
    close() {
      stop();
      follow();
      cancelAnimationFrame(asked);
      sizes.disconnect();
      look.disconnect();
      scheme.removeEventListener('change', recolour);
      engine.close();
    },
  };
}

function partOf({ model, design, low, high }: Modelled): SolidPart {
  const { part, air, outline } = model;
  return { part, air, outline, holes: design.plate.holes, low, high };
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

function drawAll(engine: PageEngine, canvases: ReadonlyMap<DesignKey, HTMLCanvasElement>): void {
  const [first] = canvases.values();
  if (first === undefined) return;
  const density = Math.min(MOST_DENSITY, devicePixelRatio || 1);
  let radius = 1;
  for (const key of canvases.keys()) {
    const one = modelled.value.get(key);
    if (one === undefined) continue;
    const half = one.low.map((low, d) => (one.high[d] - low) / 2);
    radius = Math.max(radius, Math.hypot(...half));
  }
  const sizes = [...canvases].map(([key, canvas]) => ({
    key,
    width: Math.round(canvas.clientWidth * density),
    height: Math.round(canvas.clientHeight * density),
  }));
  engine.draw(sizes, {
    view: view.value,
    shown: shown.value,
    cut: cut.value,
    isLit: isLit.value,
    coloured: shade.value !== null,
    ink: inkOf(first),
    half_mm: MARGIN * radius,
    density,
  });
}

/** Tone of what has no value: the page's own grey, as linear components. */
function paleOf(canvases: ReadonlyMap<DesignKey, HTMLCanvasElement>): readonly number[] {
  const [canvas] = canvases.values();
  const tone = canvas === undefined ? 'rgb(190, 196, 194)' : inkOf(canvas).hair;
  return (tone.match(/[\d.]+/g) ?? ['190', '196', '194']).slice(0, 3).map((c) => linear(+c / 255));
}
