/** Marks of fronts in plots: they differ by shape, so that colour is never the only sign. */

export const MARK_NAMES = ['circle', 'square', 'triangle', 'diamond', 'cross', 'hexagon'] as const;

/** Corners on the unit circle per mark [deg]; none for the circle. */
const CORNERS: readonly (readonly number[])[] = [
  [],
  [45, 135, 225, 315],
  [90, 210, 330],
  [0, 90, 180, 270],
  [],
  [0, 60, 120, 180, 240, 300],
];

/** Corners x0 y0 x1 y1 ... of the mark of a series, y downwards; none for circle and cross. */
export function markCorners(series: number, x: number, y: number, radius: number): number[] {
  return CORNERS[series % CORNERS.length].flatMap((angle) => {
    const turn = (angle * Math.PI) / 180;
    return [x + 1.15 * radius * Math.cos(turn), y - 1.15 * radius * Math.sin(turn)];
  });
}

export function isCross(series: number): boolean {
  return MARK_NAMES[series % MARK_NAMES.length] === 'cross';
}

/** The same mark as the data of an SVG path. */
export function markPath(series: number, x: number, y: number, radius: number): string {
  if (isCross(series)) {
    const [left, right, top, foot] = [x - radius, x + radius, y - radius, y + radius];
    return `M${at(left, top)}L${at(right, foot)}M${at(right, top)}L${at(left, foot)}`;
  }
  const corners = markCorners(series, x, y, radius);
  if (corners.length === 0) {
    const arc = `A${round(radius)} ${round(radius)} 0 1 1 `;
    return `M${at(x - radius, y)}${arc}${at(x + radius, y)}${arc}${at(x - radius, y)}Z`;
  }
  const parts: string[] = [];
  for (let k = 0; k < corners.length; k += 2) parts.push(at(corners[k], corners[k + 1]));
  return `M${parts.join('L')}Z`;
}

function at(x: number, y: number): string {
  return `${round(x)} ${round(y)}`;
}

/** A length for a picture file: hundredths of a pixel are more than the eye sees. */
export function round(value: number): number {
  return Math.round(100 * value) / 100 + 0;
}
