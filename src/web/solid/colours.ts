/** Colours of the corners of triangles, of their values. */
import { scaleColour } from './colour-scale.ts';
import { shareOf } from './shades.ts';
import type { ShadeRange } from './shades.ts';

/** Steps of the colour table: finer than a screen shows. */
const STEPS = 512;

/**
 * Linear components, three times three per triangle.
 *
 * @param pale of what has no value, linear components.
 */
export function coloursOf(
  values: Float32Array,
  range: ShadeRange,
  pale: readonly number[],
): Float32Array {
  const table = Array.from({ length: STEPS }, (_, k) => scaleColour(k / (STEPS - 1)).map(linear));
  const out = new Float32Array(9 * values.length);
  for (let t = 0; t < values.length; t++) {
    const tone = Number.isNaN(values[t])
      ? pale
      : table[Math.round(shareOf(values[t], range) * (STEPS - 1))];
    for (let k = 0; k < 9; k++) out[9 * t + k] = tone[k % 3];
  }
  return out;
}

/** Of an sRGB component (IEC 61966-2-1, from memory). */
export function linear(c: number): number {
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}
