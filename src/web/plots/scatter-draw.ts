/** Draws a scatter plot. */
import { scaleLinear } from 'd3-scale';
import type { MeasureInfo } from '../../engine/index.ts';
import { figure } from '../state/words.ts';
import { fitWords, nameOf, titleOf } from './columns.ts';
import type { Pen } from './pen.ts';
import type { Cloud } from './point-cloud.ts';
import type { PlotView, ScatterData, ScatterPoints } from './scatter-data.ts';
import { drawSteps, drawStepsKey } from './steps-draw.ts';
import type { StepLine } from './steps-draw.ts';
import type { DesignKey } from '../state/fronts.ts';

export const PLOT_MARGIN = { left: 66, right: 14, top: 42, bottom: 46 } as const;
const RADIUS = { least: 3, most: 10, plain: 5, crowd: 3.5 } as const;
/** From so many points on, marks are small. */
const CROWD = 1500;

export interface ScatterScene {
  readonly data: ScatterPoints;
  readonly view: PlotView;
  readonly thirdAs: 'size' | 'shade';
  /** Per point: 1 within the ranges kept, 0 outside. */
  readonly kept: Uint8Array;
  readonly xInfo: MeasureInfo | undefined;
  readonly yInfo: MeasureInfo | undefined;
  readonly thirdInfo: MeasureInfo | undefined;
  /** Staircases under the marks. */
  readonly steps: readonly StepLine[];
  /** What the fronts are called, in the order of their marks; one alone needs no name. */
  readonly names: readonly string[];
}

/** A point with a ring about it: selected, or only looked at. */
export interface Ring {
  readonly point: number;
  readonly id: string;
  readonly chosen: boolean;
}

/** Page pixels of measures. */
interface Places {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
  x(value: number): number;
  y(value: number): number;
}

export function placesOf(
  view: PlotView,
  { width, height }: { readonly width: number; readonly height: number },
): Places {
  const { left, top } = PLOT_MARGIN;
  const [right, foot] = [width - PLOT_MARGIN.right, height - PLOT_MARGIN.bottom];
  const perX = (right - left) / (view.x[1] - view.x[0]);
  const perY = (foot - top) / (view.y[1] - view.y[0]);
  return {
    left,
    right,
    top,
    foot,
    x: (value) => left + (value - view.x[0]) * perX,
    y: (value) => foot - (value - view.y[0]) * perY,
  };
}

/** Whether a point lies in sight. */
function isInSight({ x, y }: ScatterPoints, view: PlotView, i: number): boolean {
  return x[i] >= view.x[0] && x[i] <= view.x[1] && y[i] >= view.y[0] && y[i] <= view.y[1];
}

/** The points in sight and where they lie on a plot of a size. */
export function locatePoints(
  data: ScatterData,
  view: PlotView,
  size: { readonly width: number; readonly height: number },
): Cloud<DesignKey> {
  const places = placesOf(view, size);
  const points: number[] = [];
  for (let i = 0; i < data.keys.length; i++) if (isInSight(data, view, i)) points.push(i);
  return {
    keys: points.map((i) => data.keys[i]),
    x: Float64Array.from(points, (i) => places.x(data.x[i])),
    y: Float64Array.from(points, (i) => places.y(data.y[i])),
  };
}

/** Axes, legend and marks. */
export function drawScatter(pen: Pen, scene: ScatterScene): void {
  const { data, view, kept } = scene;
  const places = placesOf(view, pen);
  const { left, right, top, foot } = places;
  drawAxes(pen, scene);
  drawKey(pen, scene);
  pen.within(left, top, right - left, foot - top, () => {
    drawSteps(pen, scene.steps, places, scene);
    // Those outside the ranges first, so that they cover none that are kept.
    for (const keep of [0, 1]) {
      for (let i = 0; i < data.x.length; i++) {
        if (kept[i] !== keep || !isInSight(data, view, i)) continue;
        pen.mark(places.x(data.x[i]), places.y(data.y[i]), {
          series: data.series[i],
          radius: markRadius(scene, i),
          shade: scene.thirdAs === 'shade' && data.third[i] >= 0 ? data.third[i] : null,
          faint: keep === 0,
        });
      }
    }
  });
}

/** What is selected and looked at, on a layer of its own. */
export function drawScatterTop(pen: Pen, scene: ScatterScene, rings: readonly Ring[]): void {
  const { data, view } = scene;
  if (rings.length === 0) return;
  const places = placesOf(view, pen);
  const { left, right, top, foot } = places;
  pen.within(left, top, right - left, foot - top, () => {
    for (const { point, id, chosen } of rings) {
      const [x, y] = [places.x(data.x[point]), places.y(data.y[point])];
      const radius = markRadius(scene, point);
      const tone = chosen ? 'accent' : 'line';
      pen.ring(x, y, data.series[point], radius + 4, { tone, width: chosen ? 2.4 : 1.4 });
      const toLeft = x > right - 60;
      pen.text(toLeft ? x - radius - 7 : x + radius + 7, Math.max(top + 12, y - 6), id, {
        tone,
        bold: true,
        anchor: toLeft ? 'end' : 'start',
      });
    }
  });
}

function markRadius({ data, thirdAs }: ScatterScene, i: number): number {
  const share = data.third[i];
  if (thirdAs === 'shade' || !(share >= 0)) {
    return data.x.length > CROWD ? RADIUS.crowd : RADIUS.plain;
  }
  return crowding(data) * radiusAt(share);
}

/** Marks of a crowd are smaller, so that they hide each other less. */
function crowding(data: ScatterPoints): number {
  return data.x.length > CROWD ? 0.6 : 1;
}

/** Area, not radius, grows with the value. */
function radiusAt(share: number): number {
  const [least, most] = [RADIUS.least * RADIUS.least, RADIUS.most * RADIUS.most];
  return Math.sqrt(least + share * (most - least));
}

function drawAxes(pen: Pen, { view, xInfo, yInfo }: ScatterScene): void {
  const { left, top } = PLOT_MARGIN;
  const [right, foot] = [pen.width - PLOT_MARGIN.right, pen.height - PLOT_MARGIN.bottom];
  const x = scaleLinear(view.x, [left, right]);
  const y = scaleLinear(view.y, [foot, top]);
  for (const tick of x.ticks(Math.max(3, Math.floor(pen.width / 110)))) {
    pen.line(x(tick), top, x(tick), foot, { tone: 'grid' });
    pen.text(x(tick), foot + 16, String(tick), { tone: 'soft', anchor: 'middle' });
  }
  for (const tick of y.ticks(6)) {
    pen.line(left, y(tick), right, y(tick), { tone: 'grid' });
    pen.text(left - 7, y(tick) + 4, String(tick), { tone: 'soft', anchor: 'end' });
  }
  pen.line(left, foot, right, foot, { tone: 'line' });
  pen.line(left, top, left, foot, { tone: 'line' });
  pen.text((left + right) / 2, pen.height - 10, fitWords(titleOf(xInfo), right - left), {
    anchor: 'middle',
  });
  const up = fitWords(titleOf(yInfo), foot - top + 40);
  pen.text(14, (top + foot) / 2, up, { anchor: 'middle', upwards: true });
}

/** Which mark stands for which front; as many as find room. */
function drawNames(pen: Pen, names: readonly string[]): void {
  const room = (pen.width - PLOT_MARGIN.left - PLOT_MARGIN.right) / names.length;
  let x = PLOT_MARGIN.left + RADIUS.plain;
  names.forEach((name, series) => {
    if (room < 70) return;
    const words = fitWords(name, room - 34);
    pen.mark(x, 11, { series, radius: RADIUS.plain, shade: null, faint: false });
    pen.text(x + RADIUS.plain + 5, 15, words);
    x += Math.min(room, 40 + 6.4 * words.length);
  });
}

/** What the sizes or shades mean. */
function drawKey(pen: Pen, { data, thirdAs, thirdInfo, steps, names }: ScatterScene): void {
  const span = data.thirdSpan;
  if (names.length > 1) drawNames(pen, names);
  if (steps.length > 0) drawStepsKey(pen, steps, PLOT_MARGIN.left);
  if (thirdInfo === undefined || span === null) return;
  const { left } = PLOT_MARGIN;
  const y = 17;
  if (span[0] === span[1]) {
    pen.text(left, y + 4, `${nameOf(thirdInfo)} ${figure(span[0])} throughout`, { tone: 'soft' });
    return;
  }
  let x = left + RADIUS.most;
  for (const share of [0, 0.5, 1]) {
    const radius = thirdAs === 'size' ? crowding(data) * radiusAt(share) : RADIUS.plain;
    pen.mark(x, y, {
      series: 0,
      radius,
      shade: thirdAs === 'shade' ? share : null,
      faint: false,
    });
    const words = figure(Number((span[0] + share * (span[1] - span[0])).toPrecision(3)));
    pen.text(x + radius + 5, y + 4, words, { tone: 'soft' });
    x += radius + 24 + 7 * words.length;
  }
  const room = pen.width - PLOT_MARGIN.right - x;
  pen.text(x, y + 4, fitWords(titleOf(thirdInfo), room), { tone: 'soft' });
}
