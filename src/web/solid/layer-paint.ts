/** One layer of a print on a canvas. */
import type { LayerPicture } from '../../engine/index.ts';
import type { Ink } from '../style/ink-tones.ts';
import { layerPixels } from './layer-pixels.ts';
import type { Tone } from './layer-pixels.ts';

export function paintLayer(canvas: HTMLCanvasElement, picture: LayerPicture, ink: Ink): void {
  const { columns, rows } = picture;
  canvas.width = columns;
  canvas.height = rows;
  const context = canvas.getContext('2d');
  if (context === null) return;
  const tones = { solid: toneOf(ink.hair), hanging: toneOf(ink.accent), stripe: toneOf(ink.line) };
  context.putImageData(new ImageData(layerPixels(picture, tones), columns, rows), 0, 0);
}

function toneOf(color: string): Tone {
  const [r = 0, g = 0, b = 0] = (color.match(/[\d.]+/g) ?? []).map(Number);
  return [r, g, b];
}
