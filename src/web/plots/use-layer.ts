/** Canvases that follow signals: drawn at most once a frame, and only when something they show changed. */
import { effect, signal, useSignal } from '@preact/signals';
import type { Signal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';
import { inkOf, inkTurn } from '../style/ink.ts';
import { canvasPen } from './canvas-pen.ts';
import { dequeue, enqueue } from './draw-queue.ts';
import { paintAfar } from './far-paper.ts';
import type { Pen } from './pen.ts';
import { drawPicture } from './pictures.ts';
import type { Picture } from './pictures.ts';

type Size = Signal<{ readonly width: number; readonly height: number }>;

/** Canvas pixels per page pixel; counts as a change when the reader zooms or moves to another screen. */
const pixelRatio = signal(window.devicePixelRatio || 1);
addEventListener('resize', () => {
  pixelRatio.value = window.devicePixelRatio || 1;
});

export type Drawing = (pen: Pen) => void;

/**
 * Draws a canvas on the page's own thread when it is first seen and whenever a signal read by `ready`
 * changes: for what is quickly drawn.
 *
 * @param size in page pixels.
 * @param ready reads the signals and answers with the drawing itself, which waits for its turn.
 * @param inputs what else `ready` depends on, as for an effect.
 */
export function useLayer(
  canvas: RefObject<HTMLCanvasElement | null>,
  size: Size,
  ready: () => Drawing,
  inputs: readonly unknown[],
): void {
  useEffect(() => {
    const element = canvas.current;
    if (element === null) return undefined;
    return followSeen(element, size, ready, (draw) => drawHere(element, size, draw));
  }, inputs);
}

/** The same for pictures of many designs: drawn in a worker, where there is one. */
export function usePicture(
  canvas: RefObject<HTMLCanvasElement | null>,
  size: Size,
  ready: () => Picture,
  inputs: readonly unknown[],
): void {
  useEffect(() => {
    const element = canvas.current;
    if (element === null) return undefined;
    return followSeen(element, size, ready, (picture) => {
      const sheet = { ...size.peek(), ink: inkOf(element), ratio: pixelRatio.peek() };
      if (paintAfar(element, picture, sheet)) return;
      drawHere(element, size, (pen) => drawPicture(pen, picture));
    });
  }, inputs);
}

function drawHere(element: HTMLCanvasElement, size: Size, draw: Drawing): void {
  const pen = canvasPen(element, size.peek(), inkOf(element), pixelRatio.peek());
  if (pen !== null) draw(pen);
}

function followSeen<Content>(
  element: HTMLCanvasElement,
  size: Size,
  ready: () => Content,
  draw: (content: Content) => void,
): () => void {
  let next: { readonly content: Content } | null = null;
  let seen = false;
  const paint = (): void => {
    if (next !== null) draw(next.content);
    next = null;
  };
  const stop = effect(() => {
    void inkTurn.value;
    void pixelRatio.value;
    const { width } = size.value;
    next = width > 0 ? { content: ready() } : null;
    if (seen && next !== null) enqueue(paint);
  });
  // A plot out of sight is drawn when it comes near.
  const watcher = new IntersectionObserver(
    (entries) => {
      seen = entries.at(-1)?.isIntersecting === true;
      if (seen && next !== null) enqueue(paint);
    },
    { rootMargin: '150px' },
  );
  watcher.observe(element);
  return () => {
    stop();
    watcher.disconnect();
    dequeue(paint);
  };
}

/** Width of an element as laid out, with a height of the plot's own. */
export function useSize(
  element: RefObject<HTMLElement | null>,
  heightOf: (width: number) => number,
  inputs: readonly unknown[] = [],
): Size {
  const size = useSignal({ width: 0, height: heightOf(640) });
  useEffect(() => {
    const found = element.current;
    if (found === null) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      const width = Math.round(entry.contentRect.width);
      const height = Math.round(heightOf(width));
      const known = size.peek();
      if (known.width !== width || known.height !== height) size.value = { width, height };
    });
    observer.observe(found);
    return () => observer.disconnect();
  }, inputs);
  return size;
}
