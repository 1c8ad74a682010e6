/** Parallel coordinates: where axes stand, where designs cross them, what a drag on an axis means. */
import type { Front } from '../../engine/index.ts';
import { columnsOf } from './columns.ts';
import type { Column } from './columns.ts';
import type { Span } from './scatter-data.ts';

const AXIS = { top: 78, bottom: 48, side: 70, leastApart: 112 } as const;
/** Pixels within which the end of a range is grasped. */
const GRASP = 9;

export interface ParallelScene {
  readonly columns: readonly Column[];
  /** Where the axes stand [px]. */
  readonly x: readonly number[];
  readonly top: number;
  readonly foot: number;
}

/** Axes at equal distances over a width. */
export function layAxes(
  front: Front,
  ids: readonly string[],
  width: number,
  height: number,
): ParallelScene {
  const known = columnsOf(front);
  const columns = ids.flatMap((id) => known.get(id) ?? []);
  const apart = (width - 2 * AXIS.side) / Math.max(1, columns.length - 1);
  const x = columns.map((_, k) => (columns.length === 1 ? width / 2 : AXIS.side + k * apart));
  return { columns, x, top: AXIS.top, foot: height - AXIS.bottom };
}

/** Least width at which so many axes can be read [px]. */
export function leastWidth(axes: number): number {
  return 2 * AXIS.side + Math.max(0, axes - 1) * AXIS.leastApart;
}

/** Height of a value on an axis [px]; great values lie on top. */
export function heightAt({ top, foot }: ParallelScene, column: Column, value: number): number {
  const span = column.high - column.low;
  const share = span > 0 ? (value - column.low) / span : 0.5;
  return foot - share * (foot - top);
}

/** The value at a height, within the axis. */
export function valueAt({ top, foot }: ParallelScene, column: Column, y: number): number {
  const share = Math.min(1, Math.max(0, (foot - y) / (foot - top)));
  return column.low + share * (column.high - column.low);
}

/** Every design as x0 y0 x1 y1 ...; NaN where it has no reading. */
export function linesOf(scene: ParallelScene): Float64Array[] {
  const rows = scene.columns[0]?.values.length ?? 0;
  return Array.from({ length: rows }, (_, i) => {
    const line = new Float64Array(2 * scene.columns.length);
    scene.columns.forEach((column, k) => {
      line[2 * k] = scene.x[k];
      line[2 * k + 1] = heightAt(scene, column, column.values[i]);
    });
    return line;
  });
}

/** Index of the line nearest below or above a place, within a reach [px]; -1 for none. */
export function nearestLine(
  lines: readonly Float64Array[],
  x: number,
  y: number,
  reach: number,
  counts: (row: number) => boolean,
): number {
  let best = -1;
  let least = reach;
  for (let i = 0; i < lines.length; i++) {
    if (!counts(i)) continue;
    const off = Math.abs(lineAt(lines[i], x) - y);
    if (off < least) {
      least = off;
      best = i;
    }
  }
  return best;
}

/** Height of a line at a place; NaN beside it and in its gaps. */
function lineAt(line: Float64Array, x: number): number {
  if (line.length === 2) return line[1];
  for (let k = 2; k < line.length; k += 2) {
    if (x > line[k] && k + 2 < line.length) continue;
    const share = (x - line[k - 2]) / (line[k] - line[k - 2]);
    // A little beyond the outer axes still counts.
    if (share < -0.2 || share > 1.2) return Number.NaN;
    return line[k - 1] + Math.min(1, Math.max(0, share)) * (line[k + 1] - line[k - 1]);
  }
  return Number.NaN;
}

/** The axis at a place, or -1. */
export function axisAt({ x }: ParallelScene, place: number): number {
  return x.findIndex((stand) => Math.abs(stand - place) <= 16);
}

export type Brush =
  | { readonly kind: 'new'; readonly from: number }
  | { readonly kind: 'end'; readonly fixed: number }
  | { readonly kind: 'move'; readonly grasped: number; readonly range: Span };

/** What pressing an axis at a height begins: a new range, the shift of an end, or of all of it. */
export function beginBrush(
  scene: ParallelScene,
  column: Column,
  range: Span | null,
  y: number,
): Brush {
  const value = valueAt(scene, column, y);
  if (range === null) return { kind: 'new', from: value };
  const [low, high] = [heightAt(scene, column, range[0]), heightAt(scene, column, range[1])];
  if (Math.abs(y - high) <= GRASP) return { kind: 'end', fixed: range[0] };
  if (Math.abs(y - low) <= GRASP) return { kind: 'end', fixed: range[1] };
  if (y < low && y > high) return { kind: 'move', grasped: value, range };
  return { kind: 'new', from: value };
}

/** The range after dragging to a value, kept within the axis. */
export function brushTo(brush: Brush, column: Column, value: number): Span {
  if (brush.kind === 'move') {
    const [low, high] = brush.range;
    const most = column.high - high;
    const shift = Math.min(most, Math.max(column.low - low, value - brush.grasped));
    return [low + shift, high + shift];
  }
  const other = brush.kind === 'new' ? brush.from : brush.fixed;
  return [Math.min(other, value), Math.max(other, value)];
}

/** One end of a range moved by hundredths of the axis; ends do not pass each other. */
export function stepEnd(column: Column, range: Span, end: 0 | 1, hundredths: number): Span {
  const step = (hundredths * (column.high - column.low)) / 100;
  const [low, high] = range;
  return end === 0
    ? [Math.min(high, Math.max(column.low, low + step)), high]
    : [low, Math.max(low, Math.min(column.high, high + step))];
}

/**
 * The list with one entry moved by some places.
 *
 * @example movedBy(['a', 'b', 'c'], 'c', -1).join('') // 'acb'
 */
export function movedBy<T>(list: readonly T[], entry: T, places: number): readonly T[] {
  const from = list.indexOf(entry);
  const to = from + places;
  if (from < 0 || to < 0 || to >= list.length) return list;
  const others = list.filter((_, i) => i !== from);
  return [...others.slice(0, to), entry, ...others.slice(to)];
}

/**
 * Words in lines of about so many letters, at most two; the last is cut.
 *
 * @example wrapped('tightest gap for fingers', 14).join('/') // 'tightest gap/for fingers'
 */
export function wrapped(words: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < letters) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  const shown = lines.slice(0, 2);
  if (lines.length > 2) shown[1] = `${shown[1]} …`;
  return shown.map((line) => (line.length > letters + 4 ? `${line.slice(0, letters + 3)}…` : line));
}
