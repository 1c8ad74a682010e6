/** Draws a scatter matrix. */
import { scaleLinear } from 'd3-scale';
import { figure } from '../state/words.ts';
import { titleWithin } from './columns.ts';
import { cellPoints } from './matrix-data.ts';
import type { MatrixScene } from './matrix-data.ts';
import type { Pen } from './pen.ts';

const RADIUS = { few: 2.5, many: 1.5 } as const;
/** From so many designs on, marks are small. */
const MANY = 400;

function radiusOf(designs: number): number {
  return designs > MANY ? RADIUS.many : RADIUS.few;
}

/** Names, and cell by cell axes and marks. */
export function drawMatrix(pen: Pen, scene: MatrixScene, kept: Uint8Array): void {
  const { columns, spans, cells, cell } = scene;
  drawNames(pen, scene);
  for (const place of cells) {
    const { left, top, width, height, across, up } = place;
    pen.box(left, top, width, height, null, { tone: 'hair' });
    const x = scaleLinear(spans[across], [left, left + width]);
    const y = scaleLinear(spans[up], [top + height, top]);
    const isFoot = up === columns.length - 1;
    for (const tick of x.ticks(Math.max(2, cell.width / 70))) {
      pen.line(x(tick), top, x(tick), top + height, { tone: 'grid' });
      if (!isFoot) continue;
      const words = figure(Number(tick.toPrecision(6)));
      pen.text(x(tick), top + height + 14, words, { tone: 'soft', size: 10, anchor: 'middle' });
    }
    for (const tick of y.ticks(3)) {
      pen.line(left, y(tick), left + width, y(tick), { tone: 'grid' });
      if (across !== 0) continue;
      const words = figure(Number(tick.toPrecision(6)));
      pen.text(left - 4, y(tick) + 3, words, { tone: 'soft', size: 10, anchor: 'end' });
    }
    const points = cellPoints(scene, place);
    const radius = radiusOf(points.x.length);
    for (const faint of [true, false]) {
      for (let i = 0; i < points.x.length; i++) {
        if ((kept[i] === 0) !== faint || Number.isNaN(points.x[i] + points.y[i])) continue;
        pen.mark(points.x[i], points.y[i], { series: 0, radius, shade: null, faint });
      }
    }
  }
}

/** Measures across are named along the foot, those up along the left side. */
function drawNames(pen: Pen, { columns, cells, cell }: MatrixScene): void {
  for (const { across, up, left, top } of cells) {
    if (up === columns.length - 1) {
      const words = titleWithin(columns[across].info, cell.width);
      pen.text(left + cell.width / 2, pen.height - 10, words, { size: 11, anchor: 'middle' });
    }
    if (across === 0) {
      const words = titleWithin(columns[up].info, cell.height);
      pen.text(13, top + cell.height / 2, words, { size: 11, anchor: 'middle', upwards: true });
    }
  }
}

/** Selected designs and the one looked at, in every cell. */
export function drawMatrixTop(
  pen: Pen,
  scene: MatrixScene,
  selected: readonly number[],
  hovered: number,
): void {
  const radius = radiusOf(scene.columns[0]?.values.length ?? 0) + 3;
  for (const cell of scene.cells) {
    const { x, y } = cellPoints(scene, cell);
    const ring = (i: number, tone: 'accent' | 'line'): void => {
      if (i < 0 || Number.isNaN(x[i] + y[i])) return;
      pen.ring(x[i], y[i], 0, radius, { tone, width: tone === 'accent' ? 2.2 : 1.6 });
    };
    for (const row of selected) ring(row, 'accent');
    ring(hovered, 'line');
  }
}
