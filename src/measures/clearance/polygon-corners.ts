/** Corner directions of regular polygons with a flat side facing the first axis, x y each. */
import { cos, radians, sin } from '../../numeric/index.ts';

const PI = radians(180);
export const MOST_SIDES = 12;

/** By number of sides. */
export const CORNERS: readonly Float64Array[] = Array.from({ length: MOST_SIDES + 1 }, (_, n) => {
  const corners = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) {
    corners[2 * i] = cos((PI * (2 * i + 1)) / n);
    corners[2 * i + 1] = sin((PI * (2 * i + 1)) / n);
  }
  return corners;
});
