/** Draws a scatter plot on canvas. */
import { scaleLinear } from 'd3-scale';
import type { MeasureInfo } from '../../engine/index.ts';
import type { DesignKey } from '../state/fronts.ts';
import { inkOf } from '../style/ink.ts';
import type { Ink } from '../style/ink.ts';
import { traceMark } from './marks.ts';
import type { Cloud } from './point-cloud.ts';
import type { PlotView, ScatterPoint } from './scatter-data.ts';

export const PLOT_MARGIN = { left: 64, right: 14, top: 12, bottom: 46 } as const;
const RADIUS = { least: 3.5, most: 10, plain: 5 } as const;

export interface ScatterScene {
  readonly points: readonly ScatterPoint[];
  readonly view: PlotView;
  /** Size of the canvas in page pixels. */
  readonly width: number;
  readonly height: number;
  isKept(point: ScatterPoint): boolean;
  readonly selected: readonly DesignKey[];
  readonly hovered: DesignKey | null;
  readonly xInfo: MeasureInfo | undefined;
  readonly yInfo: MeasureInfo | undefined;
}

/** Draws all of it; answers with where the points in sight came to lie. */
export function drawScatter(canvas: HTMLCanvasElement, scene: ScatterScene): Cloud<DesignKey> {
  const { width, height, view } = scene;
  const ratio = window.devicePixelRatio || 1;
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  const paper = canvas.getContext('2d');
  if (paper === null) return { keys: [], x: new Float64Array(0), y: new Float64Array(0) };
  const ink = inkOf(canvas);
  paper.scale(ratio, ratio);
  paper.clearRect(0, 0, width, height);
  const x = scaleLinear(view.x, [PLOT_MARGIN.left, width - PLOT_MARGIN.right]);
  const y = scaleLinear(view.y, [height - PLOT_MARGIN.bottom, PLOT_MARGIN.top]);
  drawAxes(paper, ink, scene, x, y);

  const inSight = scene.points.filter(
    (point) =>
      point.x >= view.x[0] && point.x <= view.x[1] && point.y >= view.y[0] && point.y <= view.y[1],
  );
  const cloud = {
    keys: inSight.map((point) => point.key),
    x: Float64Array.from(inSight, (point) => x(point.x)),
    y: Float64Array.from(inSight, (point) => y(point.y)),
  };
  const chosen = new Set(scene.selected);
  inSight.forEach((point, i) => {
    const radius = radiusOf(point);
    paper.globalAlpha = scene.isKept(point) ? 1 : 0.18;
    traceMark(paper, point.series, cloud.x[i], cloud.y[i], radius);
    paper.fillStyle = ink.air;
    const solid = paper.globalAlpha;
    paper.globalAlpha = 0.3 * solid;
    paper.fill();
    paper.globalAlpha = solid;
    paper.strokeStyle = ink.air;
    paper.lineWidth = 1.2;
    paper.stroke();
  });
  paper.globalAlpha = 1;
  inSight.forEach((point, i) => {
    const isChosen = chosen.has(point.key);
    const isHovered = point.key === scene.hovered;
    if (!isChosen && !isHovered) return;
    traceMark(paper, point.series, cloud.x[i], cloud.y[i], radiusOf(point) + 4);
    paper.strokeStyle = isChosen ? ink.accent : ink.line;
    paper.lineWidth = isChosen ? 2.4 : 1.4;
    paper.stroke();
    paper.fillStyle = isChosen ? ink.accent : ink.line;
    paper.font = `600 12px ${ink.font}`;
    paper.textAlign = 'left';
    paper.fillText(point.design.id, cloud.x[i] + radiusOf(point) + 7, cloud.y[i] - 6);
  });
  return cloud;
}

function radiusOf({ size }: ScatterPoint): number {
  if (size === null) return RADIUS.plain;
  // Area, not radius, grows with the value.
  const [least, most] = [RADIUS.least * RADIUS.least, RADIUS.most * RADIUS.most];
  return Math.sqrt(least + size * (most - least));
}

type Scale = ReturnType<typeof scaleLinear<number, number>>;

function drawAxes(
  paper: CanvasRenderingContext2D,
  ink: Ink,
  { width, height, xInfo, yInfo }: ScatterScene,
  x: Scale,
  y: Scale,
): void {
  const foot = height - PLOT_MARGIN.bottom;
  const right = width - PLOT_MARGIN.right;
  paper.lineWidth = 1;
  paper.font = `12px ${ink.font}`;
  paper.fillStyle = ink.soft;
  for (const tick of x.ticks(Math.max(3, Math.floor(width / 110)))) {
    stroke(paper, ink.grid, x(tick), PLOT_MARGIN.top, x(tick), foot);
    paper.textAlign = 'center';
    paper.fillText(String(tick), x(tick), foot + 16);
  }
  for (const tick of y.ticks(6)) {
    stroke(paper, ink.grid, PLOT_MARGIN.left, y(tick), right, y(tick));
    paper.textAlign = 'right';
    paper.fillText(String(tick), PLOT_MARGIN.left - 7, y(tick) + 4);
  }
  stroke(paper, ink.line, PLOT_MARGIN.left, foot, right, foot);
  stroke(paper, ink.line, PLOT_MARGIN.left, PLOT_MARGIN.top, PLOT_MARGIN.left, foot);
  paper.fillStyle = ink.line;
  paper.textAlign = 'center';
  paper.fillText(titleOf(xInfo), (PLOT_MARGIN.left + right) / 2, height - 10);
  paper.save();
  paper.translate(14, (PLOT_MARGIN.top + foot) / 2);
  paper.rotate(-Math.PI / 2);
  paper.fillText(titleOf(yInfo), 0, 0);
  paper.restore();
}

/** Label with unit and the better direction. */
export function titleOf(info: MeasureInfo | undefined): string {
  if (info === undefined) return '';
  const unit = info.unit === '-' ? '' : ` [${info.unit}]`;
  return `${info.label}${unit}, ${info.better} is better`;
}

function stroke(
  paper: CanvasRenderingContext2D,
  tone: string,
  x1: number,
  y1: number,
  x2: number,
  y2: number,
): void {
  paper.strokeStyle = tone;
  paper.beginPath();
  paper.moveTo(Math.round(x1) + 0.5, Math.round(y1) + 0.5);
  paper.lineTo(Math.round(x2) + 0.5, Math.round(y2) + 0.5);
  paper.stroke();
}
