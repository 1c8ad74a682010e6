/** One layer of a print as pixels. */
import type { LayerPicture } from '../../engine/index.ts';

/** Area that stretches of pixels take [mm2]. @example areaOf(Int32Array.of(0, 2, 6, 1, 0, 4), 0.5) // 2 */
export function areaOf(stretches: Int32Array, pixel_mm: number): number {
  let pixels = 0;
  for (let k = 0; k < stretches.length; k += 3) pixels += stretches[k + 2] - stretches[k + 1];
  return pixels * pixel_mm * pixel_mm;
}

export type Tone = readonly [number, number, number];

/** Bytes of a layer, four per pixel, the highest row first; clear where nothing prints. */
export function layerPixels(
  { columns, rows, solid, hanging }: LayerPicture,
  tones: { readonly solid: Tone; readonly hanging: Tone; readonly stripe: Tone },
): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(4 * columns * rows);
  fill(solid, () => tones.solid);
  // Striped, so that it does not depend on colour.
  fill(hanging, (row, column) => ((row + column) % 4 < 2 ? tones.hanging : tones.stripe));
  return pixels;

  function fill(stretches: Int32Array, toneAt: (row: number, column: number) => Tone): void {
    for (let k = 0; k < stretches.length; k += 3) {
      const row = stretches[k];
      for (let column = stretches[k + 1]; column < stretches[k + 2]; column++) {
        const at = 4 * ((rows - 1 - row) * columns + column);
        const [r, g, b] = toneAt(row, column);
        pixels[at] = r;
        pixels[at + 1] = g;
        pixels[at + 2] = b;
        pixels[at + 3] = 255;
      }
    }
  }
}
