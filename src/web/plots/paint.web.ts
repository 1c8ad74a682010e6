/** Web Worker that draws the pictures of plots. */
import type { Ink } from '../style/ink-tones.ts';
import { canvasPen } from './canvas-pen.ts';
import type { FromPainter, Sheet, ToPainter } from './far-paper.ts';
import { drawPicture } from './pictures.ts';
import type { Picture } from './pictures.ts';
import { svgPen } from './svg-pen.ts';

const canvases = new Map<number, OffscreenCanvas>();
/** Tones come anew with every picture; marks are prepared for those seen first. */
const inks = new Map<string, Ink>();

addEventListener('message', ({ data }: MessageEvent<ToPainter>) => {
  switch (data.kind) {
    case 'take':
      canvases.set(data.id, data.canvas);
      break;
    case 'draw': {
      const canvas = canvases.get(data.id);
      if (canvas !== undefined) draw(canvas, data.picture, data.sheet);
      answer({ kind: 'drawn', id: data.id });
      break;
    }
    case 'drop':
      canvases.delete(data.id);
      break;
    case 'file':
      void makeFile(data).then((bytes) => answer({ kind: 'file', id: data.id, bytes }));
      break;
    default: {
      const never: never = data;
      throw new Error(`No such message: ${JSON.stringify(never)}`);
    }
  }
});

function answer(message: FromPainter): void {
  postMessage(message);
}

function draw(canvas: OffscreenCanvas, picture: Picture, sheet: Sheet): void {
  const pen = canvasPen(canvas, sheet, inkOf(sheet), sheet.ratio);
  if (pen !== null) drawPicture(pen, picture);
}

async function makeFile({
  form,
  title,
  picture,
  sheet,
}: Extract<ToPainter, { kind: 'file' }>): Promise<Uint8Array<ArrayBuffer> | null> {
  const { width, height } = sheet;
  if (form === 'svg') {
    const pen = svgPen(width, height, sheet.ink);
    drawPicture(pen, picture);
    return new TextEncoder().encode(pen.finish(title));
  }
  try {
    const canvas = new OffscreenCanvas(1, 1);
    const pen = canvasPen(canvas, sheet, inkOf(sheet), sheet.ratio);
    if (pen === null) return null;
    pen.box(0, 0, width, height, { tone: 'paper' });
    drawPicture(pen, picture);
    const blob = await canvas.convertToBlob({ type: 'image/png' });
    return new Uint8Array(await blob.arrayBuffer());
  } catch {
    // Beyond the browser's largest canvas.
    return null;
  }
}

function inkOf({ ink }: Sheet): Ink {
  const key = JSON.stringify(ink);
  const known = inks.get(key);
  if (known !== undefined) return known;
  inks.set(key, ink);
  return ink;
}
