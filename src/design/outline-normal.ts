/** Which way an outline faces. */
import type { Outline } from '../brief/index.ts';

/**
 * Unit direction from a point towards the nearest place of the outline, or straight on outwards
 * when the point lies outside: minus the gradient of `insideDistance`.
 *
 * @param out receives x and y.
 */
export function outwards(outline: Outline, x: number, y: number, out: Float64Array): void {
  switch (outline.kind) {
    case 'round':
      unit(x, y, out);
      return;
    case 'rectangle': {
      const r = Math.min(outline.cornerRadius_mm, 0.5 * outline.width_mm, 0.5 * outline.height_mm);
      const dx = Math.abs(x) - (0.5 * outline.width_mm - r);
      const dy = Math.abs(y) - (0.5 * outline.height_mm - r);
      const sx = x < 0 ? -1 : 1;
      const sy = y < 0 ? -1 : 1;
      if (dx > 0 && dy > 0) unit(sx * dx, sy * dy, out);
      else if (dx > dy) unit(sx, 0, out);
      else unit(0, sy, out);
      return;
    }
    case 'polygon':
      towardsPolygon(outline.points_mm, x, y, out);
      return;
    default:
      unknownOutline(outline);
  }
}

function unit(x: number, y: number, out: Float64Array): void {
  const length = Math.sqrt(x * x + y * y);
  out[0] = length > 0 ? x / length : 1;
  out[1] = length > 0 ? y / length : 0;
}

function towardsPolygon(
  points: readonly (readonly [number, number])[],
  x: number,
  y: number,
  out: Float64Array,
): void {
  let nearest = Infinity;
  let inside = false;
  let toX = 1;
  let toY = 0;
  let edgeX = 1;
  let edgeY = 0;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const [ax, ay] = points[j];
    const [bx, by] = points[i];
    const ex = bx - ax;
    const ey = by - ay;
    const square = ex * ex + ey * ey;
    const t = square > 0 ? ((x - ax) * ex + (y - ay) * ey) / square : 0;
    const share = t < 0 ? 0 : t > 1 ? 1 : t;
    const dx = ax + share * ex - x;
    const dy = ay + share * ey - y;
    if (dx * dx + dy * dy < nearest) {
      nearest = dx * dx + dy * dy;
      toX = dx;
      toY = dy;
      edgeX = ey;
      edgeY = -ex;
    }
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * ex) inside = !inside;
  }
  if (nearest < 1e-18) {
    const turn = isCounterClockwise(points) ? 1 : -1;
    unit(turn * edgeX, turn * edgeY, out);
  } else if (inside) unit(toX, toY, out);
  else unit(-toX, -toY, out);
}

function isCounterClockwise(points: readonly (readonly [number, number])[]): boolean {
  let twice = 0;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    twice += points[j][0] * points[i][1] - points[i][0] * points[j][1];
  }
  return twice > 0;
}

function unknownOutline(outline: never): never {
  throw new Error(`Unknown outline ${JSON.stringify(outline)}.`);
}
