/** What a scatter plot shows, and the part of the plane it looks at. */
import type { DesignKey, LoadedFront } from '../state/fronts.ts';
import { columnsOf } from './columns.ts';

/** What a drawing needs of the designs that have both measures: plain arrays of equal length. */
export interface ScatterPoints {
  /** Place of the front of each among those shown: it picks the shape of the mark. */
  readonly series: Uint8Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Third measure scaled to 0..1 over the plot; NaN without one. */
  readonly third: Float64Array;
  /** Its least and greatest; null where it shows nothing. */
  readonly thirdSpan: Span | null;
}

/** The same with what tells who they are, in the same order. */
export interface ScatterData extends ScatterPoints {
  readonly keys: readonly DesignKey[];
  readonly ids: readonly string[];
  /** Place of the design in its front. */
  readonly rows: Uint32Array;
}

export type Span = readonly [number, number];

export function collectPoints(
  fronts: readonly LoadedFront[],
  x: string,
  y: string,
  third: string | null,
): ScatterData {
  const keys: DesignKey[] = [];
  const ids: string[] = [];
  const rows: number[] = [];
  const series: number[] = [];
  const [xs, ys, thirds]: [number[], number[], number[]] = [[], [], []];
  fronts.forEach(({ id, front }, place) => {
    const columns = columnsOf(front);
    const [a, b] = [columns.get(x)?.values, columns.get(y)?.values];
    if (a === undefined || b === undefined) return;
    const c = third === null ? undefined : columns.get(third)?.values;
    front.designs.forEach((design, i) => {
      if (Number.isNaN(a[i]) || Number.isNaN(b[i])) return;
      keys.push(`${id}/${design.id}`);
      ids.push(design.id);
      rows.push(i);
      series.push(place);
      xs.push(a[i]);
      ys.push(b[i]);
      thirds.push(c?.[i] ?? Number.NaN);
    });
  });
  const span = extentOf(thirds);
  return {
    keys,
    ids,
    rows: Uint32Array.from(rows),
    series: Uint8Array.from(series),
    x: Float64Array.from(xs),
    y: Float64Array.from(ys),
    third: Float64Array.from(thirds, (value) =>
      span === null || span[0] === span[1] ? Number.NaN : (value - span[0]) / (span[1] - span[0]),
    ),
    thirdSpan: span,
  };
}

/** The same without the names. */
export function pointsOf({ series, x, y, third, thirdSpan }: ScatterData): ScatterPoints {
  return { series, x, y, third, thirdSpan };
}

/** Least and greatest of the numbers; null without any. */
export function extentOf(values: ArrayLike<number>): Span | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < values.length; i++) {
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  return low <= high ? [low, high] : null;
}

/** The part of the plane in sight. */
export interface PlotView {
  readonly x: Span;
  readonly y: Span;
}

/** From the least to the greatest, with a little room about them, none below a zero not crossed. */
export function roomyExtent(values: ArrayLike<number>): Span {
  const found = extentOf(values);
  if (found === null) return [0, 1];
  const [low, high] = found;
  const room = high > low ? 0.06 * (high - low) : Math.max(0.05 * Math.abs(low), 0.5);
  return [low >= 0 ? Math.max(0, low - room) : low - room, high + room];
}

/** All points with a little room about them. */
export function fitView(data: {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}): PlotView {
  return { x: roomyExtent(data.x), y: roomyExtent(data.y) };
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

/** Name of what a view of a scatter is of: measures and fronts. */
export function viewedOf(x: string, y: string, fronts: readonly { readonly id: string }[]): string {
  return [x, y, ...fronts.map(({ id }) => id)].join();
}
