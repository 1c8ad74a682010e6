/** Plane geometry of an outline, as far as the checks of a brief need it. Lengths in mm. */
import type { Outline } from './schema.ts';

type Points = readonly (readonly [number, number])[];

function toSegment(x: number, y: number, a: readonly number[], b: readonly number[]): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length2 = dx * dx + dy * dy;
  const along = length2 === 0 ? 0 : ((x - a[0]) * dx + (y - a[1]) * dy) / length2;
  const share = Math.min(1, Math.max(0, along));
  const ex = x - a[0] - share * dx;
  const ey = y - a[1] - share * dy;
  return Math.sqrt(ex * ex + ey * ey);
}

function depthInPolygon(points: Points, x: number, y: number): number {
  let inside = false;
  let least = Infinity;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const a = points[j];
    const b = points[i];
    least = Math.min(least, toSegment(x, y, a, b));
    if (b[1] > y !== a[1] > y && x < ((a[0] - b[0]) * (y - b[1])) / (a[1] - b[1]) + b[0]) {
      inside = !inside;
    }
  }
  return inside ? least : -least;
}

/**
 * How deep a point lies inside an outline: distance to the edge [mm], negative outside.
 *
 * @example depthInside({ kind: 'round', diameter_mm: 80 }, 10, 0) // 30
 * @example depthInside({ kind: 'rectangle', width_mm: 40, height_mm: 20, cornerRadius_mm: 0 }, 0, 4) // 6
 */
export function depthInside(outline: Outline, x_mm: number, y_mm: number): number {
  switch (outline.kind) {
    case 'round':
      return outline.diameter_mm / 2 - Math.sqrt(x_mm * x_mm + y_mm * y_mm);
    case 'rectangle': {
      // A corner radius cannot exceed half the shorter side.
      const radius = Math.min(outline.cornerRadius_mm, outline.width_mm / 2, outline.height_mm / 2);
      const qx = Math.abs(x_mm) - outline.width_mm / 2 + radius;
      const qy = Math.abs(y_mm) - outline.height_mm / 2 + radius;
      const ox = Math.max(qx, 0);
      const oy = Math.max(qy, 0);
      return radius - Math.sqrt(ox * ox + oy * oy) - Math.min(Math.max(qx, qy), 0);
    }
    case 'polygon':
      return depthInPolygon(outline.points_mm, x_mm, y_mm);
    default: {
      const never: never = outline;
      return never;
    }
  }
}

/** Least box around an outline: [x min, y min, x max, y max] [mm]. */
export function outlineBox(outline: Outline): readonly [number, number, number, number] {
  if (outline.kind === 'polygon') {
    const xs = outline.points_mm.map((corner) => corner[0]);
    const ys = outline.points_mm.map((corner) => corner[1]);
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  }
  const w = outline.kind === 'round' ? outline.diameter_mm : outline.width_mm;
  const h = outline.kind === 'round' ? outline.diameter_mm : outline.height_mm;
  return [-w / 2, -h / 2, w / 2, h / 2];
}

/**
 * Radius of the largest circle inside an outline [mm], to within 0.05 mm from below.
 * Round and rectangular outlines are exact. A polygon is searched by cells: one whose middle depth
 * plus half diagonal cannot beat the best so far by 0.05 mm is dropped, the others are quartered.
 *
 * @example inscribedRadius({ kind: 'round', diameter_mm: 80 }) // 40
 */
export function inscribedRadius(outline: Outline): number {
  if (outline.kind === 'round') return outline.diameter_mm / 2;
  if (outline.kind === 'rectangle') return Math.min(outline.width_mm, outline.height_mm) / 2;
  const [x0, y0, x1, y1] = outlineBox(outline);
  let size = Math.max(x1 - x0, y1 - y0) / 2;
  let cells: [number, number][] = [[(x0 + x1) / 2, (y0 + y1) / 2]];
  let best = 0;
  while (cells.length > 0 && size > 0.01) {
    const depths = cells.map(([x, y]) => depthInside(outline, x, y));
    for (const depth of depths) best = Math.max(best, depth);
    const reach = size * Math.SQRT2;
    const half = size / 2;
    cells = cells
      .filter((_, i) => depths[i] + reach > best + 0.05)
      .flatMap(([x, y]): [number, number][] => [
        [x - half, y - half],
        [x + half, y - half],
        [x - half, y + half],
        [x + half, y + half],
      ]);
    size = half;
  }
  return best;
}

/**
 * Area of a polygon [mm2], positive when its corners run counter-clockwise.
 *
 * @example signedArea([[0, 0], [4, 0], [4, 3]]) // 6
 */
export function signedArea(points: Points): number {
  let twice = 0;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    twice += points[j][0] * points[i][1] - points[i][0] * points[j][1];
  }
  return twice / 2;
}

function side(a: readonly number[], b: readonly number[], c: readonly number[]): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

function onSegment(a: readonly number[], b: readonly number[], c: readonly number[]): boolean {
  return (
    Math.min(a[0], b[0]) <= c[0] &&
    c[0] <= Math.max(a[0], b[0]) &&
    Math.min(a[1], b[1]) <= c[1] &&
    c[1] <= Math.max(a[1], b[1])
  );
}

function meet(
  a: readonly number[],
  b: readonly number[],
  c: readonly number[],
  d: readonly number[],
): boolean {
  const ca = side(a, b, c);
  const da = side(a, b, d);
  const ac = side(c, d, a);
  const bc = side(c, d, b);
  if (ca * da < 0 && ac * bc < 0) return true;
  return (
    (ca === 0 && onSegment(a, b, c)) ||
    (da === 0 && onSegment(a, b, d)) ||
    (ac === 0 && onSegment(c, d, a)) ||
    (bc === 0 && onSegment(c, d, b))
  );
}

/**
 * First two edges of a polygon that cross or touch where they must not, by the index of their
 * first corner; null for a simple polygon. Equal neighbouring corners count as touching.
 *
 * @example crossingEdges([[0, 0], [4, 0], [4, 4], [0, 4]]) // null
 */
export function crossingEdges(points: Points): readonly [number, number] | null {
  const n = points.length;
  for (let i = 0; i < n; i++) {
    const a = points[i];
    const b = points[(i + 1) % n];
    if (a[0] === b[0] && a[1] === b[1]) return [i, (i + 1) % n];
    for (let j = i + 1; j < n; j++) {
      const c = points[j];
      const d = points[(j + 1) % n];
      if (j === i + 1 || (j + 1) % n === i) {
        // Neighbours share a corner; they overlap only if one folds back along the other.
        const [p, q, r] = j === i + 1 ? [a, b, d] : [b, a, c];
        const back = (p[0] - q[0]) * (r[0] - q[0]) + (p[1] - q[1]) * (r[1] - q[1]);
        if (side(p, q, r) === 0 && back > 0) return [i, j];
      } else if (meet(a, b, c, d)) return [i, j];
    }
  }
  return null;
}
