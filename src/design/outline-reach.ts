/** How far it is to the rim. */
import type { Outline } from '../brief/index.ts';
import { insideDistance } from './outline.ts';

/** Steps of the search; each goes as far as no edge can be nearer. */
const MOST_STEPS = 400;
const CLOSE_MM = 1e-10;

/**
 * Distance from a point inside an outline to its edge in a direction [mm]: the first time it is met.
 *
 * @param c,s unit direction.
 * @example outlineReach({ kind: 'round', diameter_mm: 80 }, 10, 0, 1, 0) // 30
 * @example outlineReach({ kind: 'rectangle', width_mm: 40, height_mm: 20, cornerRadius_mm: 0 }, 0, 0, 0.6, 0.8) // 12.5
 */
export function outlineReach(
  outline: Outline,
  x_mm: number,
  y_mm: number,
  c: number,
  s: number,
): number {
  if (outline.kind === 'round') {
    const r = outline.diameter_mm / 2;
    const along = x_mm * c + y_mm * s;
    const square = along * along + r * r - x_mm * x_mm - y_mm * y_mm;
    return Math.sqrt(Math.max(0, square)) - along;
  }
  let t = 0;
  for (let n = 0; n < MOST_STEPS; n++) {
    const room = insideDistance(outline, x_mm + t * c, y_mm + t * s);
    if (room < CLOSE_MM) break;
    t += room;
  }
  return t;
}
