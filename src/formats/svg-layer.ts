/** A layer of a plate as it prints, with what hangs. */
import type { LayerPicture, Stretches } from '../print/index.ts';
import { INK, lettering, num, sheet } from './svg-sheet.ts';

const WIDTH = 640;
const MARGIN = 24;
const LETTERING = 46;

/** SVG of a layer, seen from above: solid in grey, hanging parts in the accent. */
export function drawLayer(picture: LayerPicture, title: string): string {
  const { columns, rows, layer, layers, height_mm } = picture;
  const cell = (WIDTH - 2 * MARGIN) / columns;
  const height = MARGIN + rows * cell + LETTERING;
  const hangs = picture.hanging.length > 0;
  const words = `Layer ${layer + 1} of ${layers}, ${num(height_mm)} mm above the bed`;
  const body = [
    path(picture.solid, rows, cell, INK.soft, 0.45),
    path(picture.hanging, rows, cell, INK.accent, 1),
    lettering(MARGIN, height - 26, words, { size: 12 }),
    lettering(
      MARGIN,
      height - 10,
      hangs
        ? 'Dark: hangs over the layer below by more than the overhang limit (bridges among it)'
        : 'Nothing hangs over the layer below by more than the overhang limit',
      { tone: hangs ? INK.accent : INK.soft },
    ),
  ];
  return sheet({ width: WIDTH, height, title, description: `${words}.`, body });
}

function path(
  stretches: Stretches,
  rows: number,
  cell: number,
  tone: string,
  opacity: number,
): string {
  let d = '';
  for (let k = 0; k < stretches.length; k += 3) {
    const y = MARGIN + (rows - stretches[k] - 0.5) * cell;
    const x = MARGIN + stretches[k + 1] * cell;
    const length = (stretches[k + 2] - stretches[k + 1]) * cell;
    d += `M${place(x)} ${place(y)}h${place(length)}`;
  }
  return d === ''
    ? ''
    : `<path d="${d}" fill="none" stroke="${tone}" stroke-opacity="${opacity}" stroke-width="${num(1.02 * cell)}"/>`;
}

function place(value: number): string {
  return num(Math.round(10 * value) / 10);
}
