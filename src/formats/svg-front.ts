/** Picture of a front: two objectives against each other, a third as size. */
import type { Front, MeasureInfo } from '../engine/index.ts';
import { drawCallouts } from './svg-callouts.ts';
import type { Spot } from './svg-callouts.ts';
import { roundTicks, tickText } from './svg-ticks.ts';
import { INK, lettering, num, rule, sheet, strokeOf } from './svg-sheet.ts';

const PLOT = { left: 96, top: 84, width: 600, height: 440 } as const;
const SIZE = { width: 900, height: 620 } as const;
const DOT = { least: 3, most: 11, plain: 4.5 } as const;

export interface FrontPictureOptions {
  /** Measure along each axis; by default the first two objectives. */
  readonly x?: string;
  readonly y?: string;
  /** Measure shown as size, bigger is more; by default the third objective, null for none. */
  readonly size?: string | null;
  /** Design to mark as the knee, if one is known. */
  readonly knee?: string;
}

interface Dot {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly size: number | null;
}

/** Linear scale with round ticks. */
interface Axis {
  readonly info: MeasureInfo;
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
}

/**
 * SVG scatter of every design of a front that has both measures. The best design of each shown
 * measure and the knee are marked and named; designs without a value are counted in a note.
 *
 * @throws RangeError when a measure is not in the front.
 */
export function drawFront(front: Front, options: FrontPictureOptions = {}): string {
  const x = options.x ?? front.objectives[0];
  const y = options.y ?? front.objectives[1] ?? front.objectives[0];
  const third = front.objectives.find((id) => id !== x && id !== y) ?? null;
  const size = options.size === undefined ? third : options.size;
  const dots = dotsOf(front, x, y, size);
  const xAxis = axisOf(
    measureOf(front, x),
    dots.map((dot) => dot.x),
  );
  const yAxis = axisOf(
    measureOf(front, y),
    dots.map((dot) => dot.y),
  );
  const sizeInfo = size === null ? null : measureOf(front, size);
  const missing = front.designs.length - dots.length;
  const title = `Front of ${front.brief.name}`;
  const counted =
    `${dots.length} designs after ${front.generation} generations, ` +
    `${front.evaluations} evaluations`;
  const lacking = missing === 0 ? '' : `; ${missing} without a value are not shown`;
  return sheet({
    ...SIZE,
    title,
    description: `${xAxis.info.label} against ${yAxis.info.label}, ${counted}${lacking}.`,
    body: [
      lettering(PLOT.left, 40, title, { size: 17, weight: 'bold' }),
      lettering(PLOT.left, 60, counted + lacking, { tone: INK.soft }),
      ...frameOf(xAxis, yAxis),
      ...plotDots(dots, xAxis, yAxis),
      ...marksOf(dots, xAxis, yAxis, sizeInfo, options.knee),
      ...sizeKey(dots, sizeInfo),
    ],
  });
}

function measureOf(front: Front, id: string): MeasureInfo {
  const info = front.measures.find((measure) => measure.id === id);
  if (info === undefined) {
    const known = front.measures.map((measure) => measure.id).join(', ');
    throw new RangeError(`The front has no measure ${id}; it has ${known}.`);
  }
  return info;
}

function dotsOf(front: Front, x: string, y: string, size: string | null): Dot[] {
  const column = (id: string): number => front.measures.indexOf(measureOf(front, id));
  const [i, j, k] = [column(x), column(y), size === null ? -1 : column(size)];
  const dots: Dot[] = [];
  for (const { id, readings } of front.designs) {
    const [a, b] = [readings[i], readings[j]];
    if (typeof a !== 'number' || typeof b !== 'number') continue;
    const c = readings[k];
    dots.push({ id, x: a, y: b, size: typeof c === 'number' ? c : null });
  }
  return dots;
}

function axisOf(info: MeasureInfo, values: readonly number[]): Axis {
  const least = Math.min(...values);
  const most = Math.max(...values);
  const [from, to] = values.length === 0 ? [0, 1] : [least, most];
  const pad = to > from ? 0.06 * (to - from) : Math.max(0.05 * Math.abs(from), 0.5);
  // No room below zero for a measure that never goes there.
  const low = from >= 0 ? Math.max(0, from - pad) : from - pad;
  const high = to + pad;
  return { info, low, high, ticks: roundTicks(low, high, 6) };
}

function xOf(axis: Axis, value: number): number {
  return PLOT.left + ((value - axis.low) / (axis.high - axis.low)) * PLOT.width;
}

function yOf(axis: Axis, value: number): number {
  return PLOT.top + PLOT.height - ((value - axis.low) / (axis.high - axis.low)) * PLOT.height;
}

function titleOf({ label, unit, better }: MeasureInfo): string {
  return `${label}${unit === '-' ? '' : ` [${unit}]`}, ${better} is better`;
}

function frameOf(xAxis: Axis, yAxis: Axis): string[] {
  const { left, top, width, height } = PLOT;
  const bottom = top + height;
  const faint = { tone: INK.gridBold, width: 0.7 };
  const parts = [
    `<rect x="${left}" y="${top}" width="${width}" height="${height}" fill="${INK.paper}" ` +
      `fill-opacity="0.75" ${strokeOf({ width: 0.8 })}/>`,
  ];
  for (const tick of xAxis.ticks) {
    const x = xOf(xAxis, tick);
    parts.push(rule(x, top, x, bottom, faint), rule(x, bottom, x, bottom + 5));
    parts.push(lettering(x, bottom + 18, tickText(tick), { anchor: 'middle' }));
  }
  for (const tick of yAxis.ticks) {
    const y = yOf(yAxis, tick);
    parts.push(rule(left, y, left + width, y, faint), rule(left - 5, y, left, y));
    parts.push(lettering(left - 9, y + 4, tickText(tick), { anchor: 'end' }));
  }
  parts.push(
    lettering(left + width / 2, bottom + 42, titleOf(xAxis.info), { anchor: 'middle', size: 13 }),
    lettering(28, top + height / 2, titleOf(yAxis.info), {
      anchor: 'middle',
      size: 13,
      turn_deg: -90,
    }),
  );
  return parts;
}

function radii(dots: readonly Dot[]): (size: number | null) => number {
  const sizes = dots.flatMap((dot) => (dot.size === null ? [] : [dot.size]));
  const least = Math.min(...sizes);
  const span = Math.max(...sizes) - least;
  return (size) => {
    if (size === null || !(span > 0)) return DOT.plain;
    // Area, not radius, grows with the value.
    const share = (size - least) / span;
    return Math.sqrt(DOT.least * DOT.least + share * (DOT.most * DOT.most - DOT.least * DOT.least));
  };
}

function plotDots(dots: readonly Dot[], xAxis: Axis, yAxis: Axis): string[] {
  const radius = radii(dots);
  // Small ones last, so that none is hidden; ties by name.
  const order = dots.toSorted((a, b) => radius(b.size) - radius(a.size) || (a.id < b.id ? -1 : 1));
  return order.map(
    (dot) =>
      `<circle cx="${num(xOf(xAxis, dot.x))}" cy="${num(yOf(yAxis, dot.y))}" ` +
      `r="${num(radius(dot.size))}" fill="${INK.air}" fill-opacity="0.28" ` +
      `${strokeOf({ tone: INK.air, width: 0.8 })}/>`,
  );
}

function bestOf(
  dots: readonly Dot[],
  info: MeasureInfo,
  value: (dot: Dot) => number | null,
): Dot | null {
  let best: Dot | null = null;
  let least = Infinity;
  for (const dot of dots) {
    const read = value(dot);
    if (read === null) continue;
    const cost = info.better === 'lower' ? read : -read;
    if (cost < least) {
      least = cost;
      best = dot;
    }
  }
  return best;
}

/** Names of the extremes and the knee. */
function marksOf(
  dots: readonly Dot[],
  xAxis: Axis,
  yAxis: Axis,
  sizeInfo: MeasureInfo | null,
  knee: string | undefined,
): string[] {
  const names = new Map<Dot, string[]>();
  const name = (dot: Dot | null | undefined, text: string): void => {
    if (dot) names.set(dot, [...(names.get(dot) ?? []), text]);
  };
  name(
    bestOf(dots, xAxis.info, (dot) => dot.x),
    `best ${xAxis.info.label}`,
  );
  name(
    bestOf(dots, yAxis.info, (dot) => dot.y),
    `best ${yAxis.info.label}`,
  );
  if (sizeInfo !== null)
    name(
      bestOf(dots, sizeInfo, (dot) => dot.size),
      `best ${sizeInfo.label}`,
    );
  name(
    dots.find((dot) => dot.id === knee),
    'knee',
  );
  const radius = radii(dots);
  const spot = (dot: Dot): Spot => ({
    x: xOf(xAxis, dot.x),
    y: yOf(yAxis, dot.y),
    radius: radius(dot.size),
  });
  const callouts = [...names].map(([dot, texts]) => ({
    ...spot(dot),
    text: `${dot.id}: ${texts.join(', ')}`,
  }));
  return drawCallouts(callouts, dots.map(spot), PLOT);
}

function sizeKey(dots: readonly Dot[], info: MeasureInfo | null): string[] {
  const sizes = dots.flatMap((dot) => (dot.size === null ? [] : [dot.size]));
  if (info === null || sizes.length === 0) return [];
  const radius = radii(dots);
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)];
  const values = most > least ? [least, (least + most) / 2, most] : [least];
  const x = PLOT.left + PLOT.width + 34;
  return [
    lettering(
      x - 12,
      PLOT.top + 12,
      `size: ${info.label}${info.unit === '-' ? '' : ` [${info.unit}]`}`,
    ),
    lettering(x - 12, PLOT.top + 27, `${info.better} is better`, { tone: INK.soft }),
    ...values.map((value, k) => {
      const y = PLOT.top + 54 + 28 * k;
      return (
        `<circle cx="${num(x)}" cy="${num(y)}" r="${num(radius(value))}" fill="${INK.air}" ` +
        `fill-opacity="0.28" ${strokeOf({ tone: INK.air, width: 0.8 })}/>` +
        lettering(x + 20, y + 4, String(Number(value.toPrecision(4))))
      );
    }),
  ];
}
