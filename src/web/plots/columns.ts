/** Readings of a front by measure, in plain arrays; made once per front. */
import type { Front, MeasureInfo } from '../../engine/index.ts';

export interface Column {
  readonly info: MeasureInfo;
  /** One per design, in the order of the front; NaN for none. */
  readonly values: Float64Array;
  /** Least and greatest. */
  readonly low: number;
  readonly high: number;
}

const known = new WeakMap<Front, ReadonlyMap<string, Column>>();

/** Columns by measure id, of the measures that at least one design has a reading of. */
export function columnsOf(front: Front): ReadonlyMap<string, Column> {
  const before = known.get(front);
  if (before !== undefined) return before;
  const columns = new Map<string, Column>();
  front.measures.forEach((info, j) => {
    const values = Float64Array.from(front.designs, (design) => design.readings[j] ?? Number.NaN);
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const value of values) {
      if (value < low) low = value;
      if (value > high) high = value;
    }
    if (low <= high) columns.set(info.id, { info, values, low, high });
  });
  known.set(front, columns);
  return columns;
}

/** Measures that can be plotted: those with a reading. */
export function plottable(front: Front): readonly MeasureInfo[] {
  return [...columnsOf(front).values()].map(({ info }) => info);
}

/**
 * Which designs lie within every range: 1 kept, 0 not. A design without a reading of a ranged
 * measure is kept: nothing speaks against it.
 */
export function keptMask(
  front: Front,
  ranges: Readonly<Record<string, readonly [number, number]>>,
): Uint8Array {
  const mask = new Uint8Array(front.designs.length).fill(1);
  const columns = columnsOf(front);
  for (const [id, [low, high]] of Object.entries(ranges)) {
    const values = columns.get(id)?.values;
    if (values === undefined) continue;
    for (let i = 0; i < mask.length; i++) if (values[i] < low || values[i] > high) mask[i] = 0;
  }
  return mask;
}

/** Label with its unit. */
export function nameOf(info: MeasureInfo): string {
  return info.unit === '-' ? info.label : `${info.label} [${info.unit}]`;
}

/** Label with unit and the better direction. */
export function titleOf(info: MeasureInfo | undefined): string {
  return info === undefined ? '' : `${nameOf(info)}, ${info.better} is better`;
}

/** Words cut to about a length [px], letters taken as 6 px wide. */
export function fitWords(words: string, room: number): string {
  const most = Math.max(8, Math.floor(room / 6));
  return words.length <= most ? words : `${words.slice(0, most - 1)}…`;
}

/** The title of an axis, or a shorter one where it would be cut. */
export function titleWithin(info: MeasureInfo, room: number): string {
  const title = titleOf(info);
  return fitWords(6 * title.length <= room ? title : `${info.label}, ${info.better}`, room);
}
