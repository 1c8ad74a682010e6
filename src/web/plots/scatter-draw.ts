/** Draws a scatter plot. */
import { scaleLinear } from 'd3-scale';
import type { MeasureInfo } from '../../engine/index.ts';
import { figure } from '../state/words.ts';
import { fitWords, nameOf, titleOf } from './columns.ts';
import type { Pen } from './pen.ts';
import type { Cloud } from './point-cloud.ts';
import type { PlotView, ScatterData } from './scatter-data.ts';
import type { DesignKey } from '../state/fronts.ts';

export const PLOT_MARGIN = { left: 66, right: 14, top: 36, bottom: 46 } as const;
const RADIUS = { least: 3, most: 10, plain: 5, crowd: 3.5 } as const;
/** From so many points on, marks are small. */
const CROWD = 1500;

export interface ScatterScene {
  readonly data: ScatterData;
  readonly view: PlotView;
  readonly thirdAs: 'size' | 'shade';
  isKept(point: number): boolean;
  readonly xInfo: MeasureInfo | undefined;
  readonly yInfo: MeasureInfo | undefined;
  readonly thirdInfo: MeasureInfo | undefined;
}

/** The points in sight and where they lie on a plot of a size. */
export function locatePoints(
  data: ScatterData,
  view: PlotView,
  { width, height }: { readonly width: number; readonly height: number },
): { readonly points: readonly number[]; readonly cloud: Cloud<DesignKey> } {
  const { left, top } = PLOT_MARGIN;
  const [right, foot] = [width - PLOT_MARGIN.right, height - PLOT_MARGIN.bottom];
  const perX = (right - left) / (view.x[1] - view.x[0]);
  const perY = (foot - top) / (view.y[1] - view.y[0]);
  const points: number[] = [];
  for (let i = 0; i < data.keys.length; i++) {
    const inX = data.x[i] >= view.x[0] && data.x[i] <= view.x[1];
    if (inX && data.y[i] >= view.y[0] && data.y[i] <= view.y[1]) points.push(i);
  }
  const cloud = {
    keys: points.map((i) => data.keys[i]),
    x: Float64Array.from(points, (i) => left + (data.x[i] - view.x[0]) * perX),
    y: Float64Array.from(points, (i) => foot - (data.y[i] - view.y[0]) * perY),
  };
  return { points, cloud };
}

/** Axes, legend and marks; answers with where the points in sight came to lie. */
export function drawScatter(pen: Pen, scene: ScatterScene): Cloud<DesignKey> {
  const { data, view } = scene;
  const { width, height } = pen;
  const { left, top } = PLOT_MARGIN;
  const [right, foot] = [width - PLOT_MARGIN.right, height - PLOT_MARGIN.bottom];
  drawAxes(pen, scene);
  drawKey(pen, scene);
  const { points, cloud } = locatePoints(data, view, pen);
  pen.within(left, top, right - left, foot - top, () => {
    // Those outside the ranges first, so that they cover none that are kept.
    for (const faint of [true, false]) {
      points.forEach((i, k) => {
        if (scene.isKept(i) === faint) return;
        pen.mark(cloud.x[k], cloud.y[k], {
          series: data.series[i],
          radius: markRadius(scene, i),
          shade: scene.thirdAs === 'shade' && data.third[i] >= 0 ? data.third[i] : null,
          faint,
        });
      });
    }
  });
  return cloud;
}

/** What is selected and looked at, on a layer of its own. */
export function drawScatterTop(
  pen: Pen,
  scene: ScatterScene,
  selected: ReadonlySet<DesignKey>,
  hovered: DesignKey | null,
): void {
  const { data, view } = scene;
  const { left, top } = PLOT_MARGIN;
  const [right, foot] = [pen.width - PLOT_MARGIN.right, pen.height - PLOT_MARGIN.bottom];
  if (selected.size === 0 && hovered === null) return;
  pen.within(left, top, right - left, foot - top, () => {
    for (let i = 0; i < data.keys.length; i++) {
      const key = data.keys[i];
      const chosen = selected.has(key);
      if (!chosen && key !== hovered) continue;
      const x = left + ((data.x[i] - view.x[0]) * (right - left)) / (view.x[1] - view.x[0]);
      const y = foot - ((data.y[i] - view.y[0]) * (foot - top)) / (view.y[1] - view.y[0]);
      const radius = markRadius(scene, i);
      const tone = chosen ? 'accent' : 'line';
      pen.ring(x, y, data.series[i], radius + 4, { tone, width: chosen ? 2.4 : 1.4 });
      const toLeft = x > right - 60;
      pen.text(toLeft ? x - radius - 7 : x + radius + 7, Math.max(top + 12, y - 6), data.ids[i], {
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
    return data.keys.length > CROWD ? RADIUS.crowd : RADIUS.plain;
  }
  return crowding(data) * radiusAt(share);
}

/** Marks of a crowd are smaller, so that they hide each other less. */
function crowding(data: ScatterData): number {
  return data.keys.length > CROWD ? 0.6 : 1;
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

/** What the sizes or shades mean. */
function drawKey(pen: Pen, { data, thirdAs, thirdInfo }: ScatterScene): void {
  const span = data.thirdSpan;
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
