/** The outline as clearance needs it: the way outwards, and corners that point inwards. */
import type { Outline } from '../../brief/index.ts';
import { signedArea } from '../../brief/index.ts';

export { outwards } from '../../design/index.ts';

/**
 * Corners of the outline that point into the plate: a wide section may straddle one although all
 * its corners lie inside.
 *
 * @example inwardCorners({ kind: 'round', diameter_mm: 80 }).length // 0
 */
export function inwardCorners(outline: Outline): readonly (readonly [number, number])[] {
  if (outline.kind !== 'polygon') return [];
  const points = outline.points_mm;
  const turn = signedArea(points) > 0 ? 1 : -1;
  return points.filter(([x, y], i) => {
    const [px, py] = points[(i + points.length - 1) % points.length];
    const [nx, ny] = points[(i + 1) % points.length];
    return turn * ((x - px) * (ny - y) - (y - py) * (nx - x)) < 0;
  });
}
