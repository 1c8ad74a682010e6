/** What a scatter plot shows, and the part of the plane it looks at. */
import type { FrontDesign } from '../../engine/index.ts';
import { keyOf } from '../state/fronts.ts';
import type { DesignKey, LoadedFront } from '../state/fronts.ts';

export interface ScatterPoint {
  readonly key: DesignKey;
  readonly loaded: LoadedFront;
  readonly design: FrontDesign;
  /** Place of its front among those shown: it picks the shape of the mark. */
  readonly series: number;
  readonly x: number;
  readonly y: number;
  /** Third measure scaled to 0..1 over the plot; null without one. */
  readonly size: number | null;
}

/** The designs that have both measures. */
export function collectPoints(
  fronts: readonly LoadedFront[],
  x: string,
  y: string,
  size: string | null,
): ScatterPoint[] {
  const points: ScatterPoint[] = [];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  fronts.forEach((loaded, series) => {
    const column = (id: string | null): number =>
      loaded.front.measures.findIndex((info) => info.id === id);
    const [i, j, k] = [column(x), column(y), column(size)];
    for (const design of loaded.front.designs) {
      const a = design.readings[i];
      const b = design.readings[j];
      if (typeof a !== 'number' || typeof b !== 'number') continue;
      const c = design.readings[k] ?? null;
      if (c !== null) {
        low = Math.min(low, c);
        high = Math.max(high, c);
      }
      points.push({ key: keyOf(loaded, design), loaded, design, series, x: a, y: b, size: c });
    }
  });
  return points.map((point) => ({
    ...point,
    size: point.size === null || !(high > low) ? null : (point.size - low) / (high - low),
  }));
}

/** The part of the plane in sight. */
export interface PlotView {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

type Span = readonly [number, number];

/** From the least to the greatest, with a little room about them. */
function spanOf(values: readonly number[]): Span {
  if (values.length === 0) return [0, 1];
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  const room = high > low ? 0.06 * (high - low) : Math.max(0.05 * Math.abs(low), 0.5);
  return [low >= 0 ? Math.max(0, low - room) : low - room, high + room];
}

/** All points with a little room about them. */
export function fitView(points: readonly ScatterPoint[]): PlotView {
  return { x: spanOf(points.map((point) => point.x)), y: spanOf(points.map((point) => point.y)) };
}

function scaled([low, high]: Span, factor: number, share: number): Span {
  const about = low + share * (high - low);
  return [about - factor * (about - low), about + factor * (high - about)];
}

function moved([low, high]: Span, share: number): Span {
  return [low + share * (high - low), high + share * (high - low)];
}

/** Scaled about a place in it; shares run from 0 to 1 to the right and upwards. */
export function zoomView(view: PlotView, factor: number, shareX: number, shareY: number): PlotView {
  return { x: scaled(view.x, factor, shareX), y: scaled(view.y, factor, shareY) };
}

/** Moved by shares of its width and height. */
export function panView(view: PlotView, shareX: number, shareY: number): PlotView {
  return { x: moved(view.x, shareX), y: moved(view.y, shareY) };
}
