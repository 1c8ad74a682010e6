/** Canvases that follow signals: drawn at most once a frame, and only when something they show changed. */
import { effect, signal, useSignal } from '@preact/signals';
import type { Signal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';
import { inkOf, inkTurn } from '../style/ink.ts';
import { canvasPen } from './canvas-pen.ts';
import { dequeue, enqueue } from './draw-queue.ts';
import type { Pen } from './pen.ts';

/** Canvas pixels per page pixel; counts as a change when the reader zooms or moves to another screen. */
const pixelRatio = signal(window.devicePixelRatio || 1);
addEventListener('resize', () => {
  pixelRatio.value = window.devicePixelRatio || 1;
});

/** Draws all at once, or step by step where all would take longer than a frame. */
export type Drawing = (pen: Pen) => Iterable<void> | undefined | void;

/**
 * Draws a canvas when it is first seen and whenever a signal read by `ready` changes.
 *
 * @param size in page pixels.
 * @param ready reads the signals and answers with the drawing itself, which waits for its turn.
 * @param inputs what else `ready` depends on, as for an effect.
 */
export function useLayer(
  canvas: RefObject<HTMLCanvasElement | null>,
  size: Signal<{ readonly width: number; readonly height: number }>,
  ready: () => Drawing,
  inputs: readonly unknown[],
): void {
  useEffect(() => {
    const element = canvas.current;
    if (element === null) return undefined;
    let draw: Drawing | null = null;
    let steps: Iterator<void> | null = null;
    let seen = false;
    const paint = (): void => {
      if (draw !== null) {
        const pen = canvasPen(element, size.peek(), inkOf(element), pixelRatio.peek());
        steps = pen === null ? null : (draw(pen)?.[Symbol.iterator]() ?? null);
        draw = null;
      }
      if (steps === null) return;
      if (steps.next().done === true) steps = null;
      else enqueue(paint);
    };
    const stop = effect(() => {
      void inkTurn.value;
      void pixelRatio.value;
      const { width } = size.value;
      draw = ready();
      if (width > 0 && seen) enqueue(paint);
    });
    // A plot out of sight is drawn when it comes near.
    const watcher = new IntersectionObserver(
      (entries) => {
        seen = entries.at(-1)?.isIntersecting === true;
        if (seen && draw !== null) enqueue(paint);
      },
      { rootMargin: '150px' },
    );
    watcher.observe(element);
    return () => {
      stop();
      watcher.disconnect();
      dequeue(paint);
    };
  }, inputs);
}

/** Width of an element as laid out, with a height of the plot's own. */
export function useSize(
  element: RefObject<HTMLElement | null>,
  heightOf: (width: number) => number,
  inputs: readonly unknown[] = [],
): Signal<{ readonly width: number; readonly height: number }> {
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
