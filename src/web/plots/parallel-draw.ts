/** Draws parallel coordinates. */
import { scaleLinear } from 'd3-scale';
import { figure } from '../state/words.ts';
import { nameOf } from './columns.ts';
import { heightAt, wrapped } from './parallel-data.ts';
import type { ParallelScene } from './parallel-data.ts';
import type { Pen } from './pen.ts';
import type { Span } from './scatter-data.ts';

/** Lines drawn in one go: within such a batch crossings do not darken, between batches they do. */
const BATCH = 64;
/** From so many designs on, lines are as thin as can be. */
const MANY = 300;

/** Opacity of a kept line: many lines are fainter, so that dense places still differ. */
function opacityOf(count: number): number {
  return Math.max(0.12, Math.min(0.75, 9 / Math.sqrt(Math.max(1, count))));
}

/** All lines; those outside the ranges first, so that they cover none that are kept. */
export function drawLines(pen: Pen, lines: readonly Float64Array[], kept: Uint8Array): void {
  const width = lines.length > MANY ? 0 : 1.1;
  const [outside, inside] = [0, 1].map((keep) => lines.filter((_, i) => kept[i] === keep));
  for (let i = 0; i < outside.length; i += BATCH) {
    pen.polylines(outside.slice(i, i + BATCH), { tone: 'hair', width, opacity: 0.5 });
  }
  const opacity = opacityOf(inside.length);
  for (let i = 0; i < inside.length; i += BATCH) {
    pen.polylines(inside.slice(i, i + BATCH), { tone: 'air', width, opacity });
  }
}

/** The axes, with the ranges kept. */
export function drawParallelAxes(
  pen: Pen,
  scene: ParallelScene,
  ranges: Readonly<Record<string, Span>>,
): void {
  scene.columns.forEach((column, k) => {
    drawAxis(pen, scene, k);
    const range = ranges[column.info.id];
    if (range === undefined) return;
    const y1 = heightAt(scene, column, Math.min(column.high, range[1]));
    const y2 = heightAt(scene, column, Math.max(column.low, range[0]));
    pen.box(
      scene.x[k] - 7,
      y1,
      14,
      Math.max(1, y2 - y1),
      { tone: 'accent', opacity: 0.25 },
      { tone: 'accent', width: 1.5 },
    );
  });
}

function drawAxis(pen: Pen, scene: ParallelScene, k: number): void {
  const { info, low, high } = scene.columns[k];
  const { top, foot } = scene;
  const x = scene.x[k];
  pen.line(x, top, x, foot, { tone: 'line', width: 1.2 });
  const apart = scene.x.length > 1 ? scene.x[1] - scene.x[0] : 200;
  const lines = wrapped(nameOf(info), Math.floor(apart / 6.6));
  lines.forEach((line, i) => {
    pen.text(x, 14 + 14 * i + 14 * (2 - lines.length), line, { anchor: 'middle' });
  });
  // The better end is marked in words and by an arrow, beyond where ranges are grasped.
  const up = info.better === 'higher';
  const [tip, base] = up ? [top - 30, top - 22] : [foot + 30, foot + 22];
  pen.patch([x - 24, tip, x - 29, base, x - 19, base], 'line');
  const words = { tone: 'soft', size: 11 } as const;
  pen.text(x - 15, up ? top - 22 : foot + 30, 'better', words);
  if (low === high) {
    pen.text(x + 8, heightAt(scene, scene.columns[k], low) - 6, `${figure(low)} throughout`, words);
    return;
  }
  pen.text(x + 11, top - 4, figure(high), words);
  pen.text(x + 11, foot + 12, figure(low), words);
  const scale = scaleLinear([low, high], [foot, top]);
  for (const tick of scale.ticks(4)) {
    const y = scale(tick);
    pen.line(x - 3, y, x + 3, y, { tone: 'line' });
    if (y < top + 13 || y > foot - 9) continue;
    const text = String(tick);
    // Figures stay readable where many lines pass behind them.
    pen.box(x + 5, y - 6, 6.2 * text.length + 2, 12, { tone: 'paper', opacity: 0.75 });
    pen.text(x + 6, y + 4, text, words);
  }
}

/**
 * Selected designs and the one looked at, on a layer of their own.
 *
 * @param chosen names by row.
 * @param hovered row, or -1; with its name.
 */
export function drawParallelTop(
  pen: Pen,
  lines: readonly Float64Array[],
  chosen: ReadonlyMap<number, string>,
  hovered: number,
  hoveredName: string,
): void {
  const draw = (row: number, name: string, tone: 'accent' | 'line', width: number): void => {
    const line = lines[row];
    if (line === undefined) return;
    pen.polylines([line], { tone, width });
    for (let k = 0; k < line.length; k += 2) {
      if (!Number.isNaN(line[k + 1])) {
        pen.ring(line[k], line[k + 1], 0, 3.5, { tone, width: 1.5 });
      }
    }
    const start = line[1];
    if (!Number.isNaN(start)) {
      pen.text(line[0] - 10, start + 4, name, { tone, bold: true, anchor: 'end' });
    }
  };
  for (const [row, name] of chosen) draw(row, name, 'accent', 2.4);
  if (hovered >= 0 && !chosen.has(hovered)) draw(hovered, hoveredName, 'line', 2);
}
