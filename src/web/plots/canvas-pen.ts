/** A pen on canvas. Marks are stamped from prepared ones: five thousand in a few milliseconds. */
import type { Ink } from '../style/ink-tones.ts';
import { mixTones } from './tones.ts';
import { isCross, markCorners } from './marks.ts';
import { MARK_OPACITY } from './pen.ts';
import type { Lettering, MarkLook, Pen, Stroke } from './pen.ts';

/** Steps of size and shade that stamps are made for. */
const STEPS = { radius_px: 0.5, shades: 24 } as const;

/** On the page, or in a worker. */
export type AnyCanvas = HTMLCanvasElement | OffscreenCanvas;
type Paper = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

interface Stamps {
  readonly ratio: number;
  readonly made: Map<number, AnyCanvas>;
}
const stampsOf = new WeakMap<Ink, Stamps>();

/**
 * Readies a canvas and gives a pen for it.
 *
 * @param ratio canvas pixels per page pixel.
 * @returns null where the browser grants no canvas.
 */
export function canvasPen(
  canvas: AnyCanvas,
  size: { readonly width: number; readonly height: number },
  ink: Ink,
  ratio: number,
): Pen | null {
  const { width, height } = size;
  const [across, down] = [Math.round(width * ratio), Math.round(height * ratio)];
  // Setting the size makes the browser find new memory, so only when it differs.
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
  const paper = paperOf(canvas);
  if (paper === null) return null;
  paper.setTransform(ratio, 0, 0, ratio, 0, 0);
  paper.clearRect(0, 0, width, height);
  return new CanvasPen(paper, width, height, ink, ratio);
}

function paperOf(canvas: AnyCanvas): Paper | null {
  return canvas.getContext('2d');
}

class CanvasPen implements Pen {
  readonly #paper: Paper;
  readonly width: number;
  readonly height: number;
  readonly #ink: Ink;
  readonly #ratio: number;

  constructor(paper: Paper, width: number, height: number, ink: Ink, ratio: number) {
    this.#paper = paper;
    this.width = width;
    this.height = height;
    this.#ink = ink;
    this.#ratio = ratio;
  }

  line(x1: number, y1: number, x2: number, y2: number, stroke: Stroke): void {
    const crisp = (value: number): number => (Math.round(value * this.#ratio) + 0.5) / this.#ratio;
    const across = y1 === y2;
    const down = x1 === x2;
    this.#paper.beginPath();
    this.#paper.moveTo(down ? crisp(x1) : x1, across ? crisp(y1) : y1);
    this.#paper.lineTo(down ? crisp(x2) : x2, across ? crisp(y2) : y2);
    this.#stroke(stroke);
  }

  polylines(lines: readonly ArrayLike<number>[], stroke: Stroke): void {
    const paper = this.#paper;
    paper.lineJoin = 'bevel';
    paper.beginPath();
    for (const line of lines) {
      // A gap (NaN) lifts the pen.
      let down = false;
      for (let k = 0; k + 1 < line.length; k += 2) {
        if (Number.isNaN(line[k + 1])) down = false;
        else if (down) paper.lineTo(line[k], line[k + 1]);
        else {
          paper.moveTo(line[k], line[k + 1]);
          down = true;
        }
      }
    }
    this.#stroke(stroke);
  }

  box(x: number, y: number, width: number, height: number, fill: Stroke | null, edge?: Stroke) {
    const paper = this.#paper;
    if (fill !== null) {
      paper.globalAlpha = fill.opacity ?? 1;
      paper.fillStyle = this.#ink[fill.tone];
      paper.fillRect(x, y, width, height);
      paper.globalAlpha = 1;
    }
    if (edge === undefined) return;
    paper.beginPath();
    paper.rect(Math.round(x) + 0.5, Math.round(y) + 0.5, Math.round(width), Math.round(height));
    this.#stroke(edge);
  }

  patch(outline: readonly number[], tone: Stroke['tone']): void {
    const paper = this.#paper;
    paper.beginPath();
    paper.moveTo(outline[0], outline[1]);
    for (let k = 2; k < outline.length; k += 2) paper.lineTo(outline[k], outline[k + 1]);
    paper.fillStyle = this.#ink[tone];
    paper.fill();
  }

  text(x: number, y: number, words: string, lettering: Lettering = {}): void {
    const { tone = 'line', anchor = 'start', size = 12, bold = false, upwards = false } = lettering;
    const paper = this.#paper;
    paper.font = `${bold ? '600 ' : ''}${size}px ${this.#ink.font}`;
    paper.textAlign = anchor === 'middle' ? 'center' : anchor;
    paper.fillStyle = this.#ink[tone];
    if (!upwards) {
      paper.fillText(words, x, y);
      return;
    }
    paper.save();
    paper.translate(x, y);
    paper.rotate(-Math.PI / 2);
    paper.fillText(words, 0, 0);
    paper.restore();
  }

  mark(x: number, y: number, look: MarkLook): void {
    const ratio = this.#ratio;
    const stamp = this.#stamp(look);
    const [width, height] = [stamp.width / ratio, stamp.height / ratio];
    // On whole pixels the browser copies instead of blending neighbours.
    const left = Math.round((x - width / 2) * ratio) / ratio;
    const top = Math.round((y - height / 2) * ratio) / ratio;
    this.#paper.drawImage(stamp, left, top, width, height);
  }

  ring(x: number, y: number, series: number, radius: number, stroke: Stroke): void {
    traceMark(this.#paper, series, x, y, radius);
    this.#stroke(stroke);
  }

  within(x: number, y: number, width: number, height: number, draw: () => void): void {
    this.#paper.save();
    this.#paper.beginPath();
    this.#paper.rect(x, y, width, height);
    this.#paper.clip();
    draw();
    this.#paper.restore();
  }

  #stroke({ tone, width = 1, opacity = 1, dash }: Stroke): void {
    this.#paper.strokeStyle = this.#ink[tone];
    this.#paper.lineWidth = width === 0 ? 1 / this.#ratio : width;
    this.#paper.globalAlpha = opacity;
    if (dash !== undefined) this.#paper.setLineDash([...dash]);
    this.#paper.stroke();
    if (dash !== undefined) this.#paper.setLineDash([]);
    this.#paper.globalAlpha = 1;
  }

  #stamp({ series, radius, shade, faint }: MarkLook): AnyCanvas {
    let stamps = stampsOf.get(this.#ink);
    if (stamps?.ratio !== this.#ratio) {
      stamps = { ratio: this.#ratio, made: new Map() };
      stampsOf.set(this.#ink, stamps);
    }
    const size = Math.round(radius / STEPS.radius_px);
    const tint = shade === null ? STEPS.shades + 1 : Math.round(shade * STEPS.shades);
    const key = ((series * 64 + size) * 64 + tint) * 2 + (faint ? 1 : 0);
    let stamp = stamps.made.get(key);
    if (stamp === undefined) {
      const shown = shade === null ? null : tint / STEPS.shades;
      stamp = drawStamp(this.#ink, this.#ratio, series, size * STEPS.radius_px, shown, faint);
      stamps.made.set(key, stamp);
    }
    return stamp;
  }
}

function drawStamp(
  ink: Ink,
  ratio: number,
  series: number,
  radius: number,
  shade: number | null,
  faint: boolean,
): AnyCanvas {
  const reach = Math.ceil(1.15 * radius + 2);
  const stamp = aCanvas(Math.ceil(2 * reach * ratio));
  const paper = paperOf(stamp);
  if (paper === null) return stamp;
  paper.scale(ratio, ratio);
  traceMark(paper, series, reach, reach, radius);
  const weight = faint ? MARK_OPACITY.faint : 1;
  paper.globalAlpha = weight * (shade === null ? MARK_OPACITY.inside : 1);
  paper.fillStyle = shade === null ? ink.air : mixTones(ink.paper, ink.line, shade);
  paper.fill();
  paper.globalAlpha = weight;
  paper.strokeStyle = shade === null ? ink.air : ink.line;
  paper.lineWidth = 1.2;
  paper.stroke();
  return stamp;
}

/** A square canvas that is nowhere on the page. */
function aCanvas(side: number): AnyCanvas {
  if (typeof OffscreenCanvas !== 'undefined') return new OffscreenCanvas(side, side);
  const canvas = document.createElement('canvas');
  canvas.width = side;
  canvas.height = side;
  return canvas;
}

/** Traces the mark of a series about a point; the caller fills or strokes it. */
function traceMark(paper: Paper, series: number, x: number, y: number, radius: number): void {
  paper.beginPath();
  if (isCross(series)) {
    paper.moveTo(x - radius, y - radius);
    paper.lineTo(x + radius, y + radius);
    paper.moveTo(x + radius, y - radius);
    paper.lineTo(x - radius, y + radius);
    return;
  }
  const corners = markCorners(series, x, y, radius);
  if (corners.length === 0) {
    paper.arc(x, y, radius, 0, 2 * Math.PI);
    return;
  }
  paper.moveTo(corners[0], corners[1]);
  for (let k = 2; k < corners.length; k += 2) paper.lineTo(corners[k], corners[k + 1]);
  paper.closePath();
}
