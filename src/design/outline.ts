/** The outer edge of a plate: distances, areas and a polygon for meshing. */
import { PI, acos, asin, cos, sin } from './angles.ts';
import { depthInside, signedArea } from '../brief/index.ts';
import type { Outline } from '../brief/index.ts';

/**
 * Distance from a point to the outline [mm]: positive inside, negative outside.
 *
 * @example insideDistance({ kind: 'round', diameter_mm: 80 }, 30, 0) // 10
 * @example insideDistance({ kind: 'rectangle', width_mm: 40, height_mm: 20, cornerRadius_mm: 0 }, 0, 0) // 10
 */
export function insideDistance(outline: Outline, x_mm: number, y_mm: number): number {
  return depthInside(outline, x_mm, y_mm);
}

/** A corner radius cannot exceed half the shorter side. */
function cornerRadius(outline: Extract<Outline, { kind: 'rectangle' }>): number {
  return Math.min(outline.cornerRadius_mm, 0.5 * outline.width_mm, 0.5 * outline.height_mm);
}

/** Whether a point lies within the outline. */
export function isInside(outline: Outline, x_mm: number, y_mm: number): boolean {
  return insideDistance(outline, x_mm, y_mm) >= 0;
}

/**
 * Area within the outline [mm2].
 *
 * @example outlineArea({ kind: 'rectangle', width_mm: 40, height_mm: 20, cornerRadius_mm: 0 }) // 800
 */
export function outlineArea(outline: Outline): number {
  return areaInside(outline, 0);
}

/**
 * Area of the points at least `inset_mm` within the outline [mm2]: what a rim leaves.
 *
 * Round and rectangular outlines exactly; polygons by 2000 strips (about 1e-3 of the area at worst).
 *
 * @example areaInside({ kind: 'round', diameter_mm: 20 }, 5) // 78.53981634
 */
export function areaInside(outline: Outline, inset_mm: number): number {
  switch (outline.kind) {
    case 'round': {
      const r = Math.max(0, 0.5 * outline.diameter_mm - inset_mm);
      return PI * r * r;
    }
    case 'rectangle': {
      const w = Math.max(0, outline.width_mm - 2 * inset_mm);
      const h = Math.max(0, outline.height_mm - 2 * inset_mm);
      const r = Math.max(0, Math.min(cornerRadius(outline) - inset_mm, 0.5 * w, 0.5 * h));
      return w * h - (4 - PI) * r * r;
    }
    case 'polygon':
      return inset_mm === 0
        ? Math.abs(signedArea(outline.points_mm))
        : strippedArea(outline.points_mm, inset_mm);
    default:
      return unknownOutline(outline);
  }
}

/** Strips along x: inside the polygon, less what lies within `inset` of any edge. */
function strippedArea(points: readonly (readonly [number, number])[], inset: number): number {
  const box = outlineBounds({ kind: 'polygon', points_mm: points.map(([x, y]) => [x, y]) });
  const strips = 2000;
  const step = (box.maxY_mm - box.minY_mm) / strips;
  let area = 0;
  for (let k = 0; k < strips; k++) {
    const y = box.minY_mm + (k + 0.5) * step;
    const crossings: number[] = [];
    const banned: [number, number][] = [];
    for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
      const [ax, ay] = points[j];
      const [bx, by] = points[i];
      if (ay > y !== by > y) crossings.push(ax + ((y - ay) / (by - ay)) * (bx - ax));
      const span = capsuleSpan(ax, ay, bx, by, inset, y);
      if (span) banned.push(span);
    }
    crossings.sort((a, b) => a - b);
    banned.sort((a, b) => a[0] - b[0]);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      let from = crossings[i];
      const to = crossings[i + 1];
      for (const [low, high] of banned) {
        if (low > from) area += step * Math.max(0, Math.min(low, to) - from);
        from = Math.max(from, high);
      }
      area += step * Math.max(0, to - from);
    }
  }
  return area;
}

/** Where the row y meets the points within r of a line segment, or null. */
function capsuleSpan(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  r: number,
  y: number,
): [number, number] | null {
  let low = Infinity;
  let high = -Infinity;
  const take = (x: number): void => {
    low = Math.min(low, x);
    high = Math.max(high, x);
  };
  for (const [cx, cy] of [
    [ax, ay],
    [bx, by],
  ]) {
    const square = r * r - (y - cy) * (y - cy);
    if (square >= 0) {
      take(cx - Math.sqrt(square));
      take(cx + Math.sqrt(square));
    }
  }
  const ex = bx - ax;
  const ey = by - ay;
  const length = Math.sqrt(ex * ex + ey * ey);
  if (length > 0 && ey !== 0) {
    for (const side of [-r, r]) {
      const ox = ax - (side * ey) / length;
      const t = (y - ay - (side * ex) / length) / ey;
      if (t >= 0 && t <= 1) take(ox + t * ex);
    }
  }
  return low <= high ? [low, high] : null;
}

/** Smallest box about the outline [mm]. */
export function outlineBounds(outline: Outline): {
  minX_mm: number;
  minY_mm: number;
  maxX_mm: number;
  maxY_mm: number;
} {
  if (outline.kind === 'polygon') {
    const xs = outline.points_mm.map(([x]) => x);
    const ys = outline.points_mm.map(([, y]) => y);
    return {
      minX_mm: Math.min(...xs),
      minY_mm: Math.min(...ys),
      maxX_mm: Math.max(...xs),
      maxY_mm: Math.max(...ys),
    };
  }
  const halfX = 0.5 * (outline.kind === 'round' ? outline.diameter_mm : outline.width_mm);
  const halfY = 0.5 * (outline.kind === 'round' ? outline.diameter_mm : outline.height_mm);
  return { minX_mm: -halfX, minY_mm: -halfY, maxX_mm: halfX, maxY_mm: halfY };
}

/**
 * The outline as a polygon, counter-clockwise, with corners on the true edge; arcs stray inwards by
 * at most `tolerance_mm`.
 *
 * @example outlinePolygon({ kind: 'rectangle', width_mm: 4, height_mm: 2, cornerRadius_mm: 0 }, 0.1).length // 4
 */
export function outlinePolygon(outline: Outline, tolerance_mm: number): [number, number][] {
  switch (outline.kind) {
    case 'round': {
      const r = 0.5 * outline.diameter_mm;
      const n = 4 * arcSteps(r, tolerance_mm);
      return Array.from({ length: n }, (_, i) => [
        r * cos((2 * PI * i) / n),
        r * sin((2 * PI * i) / n),
      ]);
    }
    case 'rectangle':
      return rectanglePolygon(outline, tolerance_mm);
    case 'polygon': {
      const points = outline.points_mm.map(([x, y]): [number, number] => [x, y]);
      return signedArea(points) < 0 ? points.toReversed() : points;
    }
    default:
      return unknownOutline(outline);
  }
}

function rectanglePolygon(
  outline: Extract<Outline, { kind: 'rectangle' }>,
  tolerance_mm: number,
): [number, number][] {
  const r = cornerRadius(outline);
  const x = 0.5 * outline.width_mm - r;
  const y = 0.5 * outline.height_mm - r;
  const n = r > 0 ? arcSteps(r, tolerance_mm) : 0;
  const points: [number, number][] = [];
  const corners: [number, number][] = [
    [x, y],
    [-x, y],
    [-x, -y],
    [x, -y],
  ];
  corners.forEach(([cx, cy], quarter) => {
    for (let i = 0; i <= n; i++) {
      const angle = 0.5 * PI * (quarter + (n > 0 ? i / n : 0));
      const px = cx + (r > 0 ? r * cos(angle) : 0);
      const py = cy + (r > 0 ? r * sin(angle) : 0);
      const before = points[points.length - 1];
      // A side as long as the corners' circles leaves no straight part: its ends coincide.
      if (!before || Math.abs(before[0] - px) + Math.abs(before[1] - py) > 1e-9) {
        points.push([px, py]);
      }
    }
  });
  const [first] = points;
  const last = points[points.length - 1];
  if (Math.abs(first[0] - last[0]) + Math.abs(first[1] - last[1]) <= 1e-9) points.pop();
  return points;
}

/** Steps per quarter circle that keep the sagitta within the tolerance; asin saves no digits here. */
function arcSteps(radius_mm: number, tolerance_mm: number): number {
  const cosHalf = Math.max(1 - tolerance_mm / radius_mm, 0.5);
  const half = cosHalf > 0.99 ? asin(Math.sqrt(1 - cosHalf * cosHalf)) : acos(cosHalf);
  return Math.max(2, Math.ceil((0.5 * PI) / (2 * half)));
}

function unknownOutline(outline: never): never {
  throw new Error(`Unknown outline ${JSON.stringify(outline)}.`);
}
