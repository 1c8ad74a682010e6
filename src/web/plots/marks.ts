/** Marks of fronts in plots: they differ by shape, so that colour is never the only sign. */

export const MARK_NAMES = ['circle', 'square', 'triangle', 'diamond', 'cross', 'hexagon'] as const;

/** Corners on the unit circle per mark; none for the circle. */
const CORNERS: readonly (readonly number[])[] = [
  [],
  [45, 135, 225, 315],
  [90, 210, 330],
  [0, 90, 180, 270],
  [],
  [0, 60, 120, 180, 240, 300],
];

/** Traces the mark of a series about a point; the caller fills or strokes it. */
export function traceMark(
  paper: CanvasRenderingContext2D,
  series: number,
  x: number,
  y: number,
  radius: number,
): void {
  const kind = series % CORNERS.length;
  paper.beginPath();
  if (MARK_NAMES[kind] === 'cross') {
    paper.moveTo(x - radius, y - radius);
    paper.lineTo(x + radius, y + radius);
    paper.moveTo(x + radius, y - radius);
    paper.lineTo(x - radius, y + radius);
    return;
  }
  const corners = CORNERS[kind];
  if (corners.length === 0) {
    paper.arc(x, y, radius, 0, 2 * Math.PI);
    return;
  }
  corners.forEach((angle, k) => {
    const turn = (angle * Math.PI) / 180;
    const [px, py] = [x + 1.15 * radius * Math.cos(turn), y - 1.15 * radius * Math.sin(turn)];
    if (k === 0) paper.moveTo(px, py);
    else paper.lineTo(px, py);
  });
  paper.closePath();
}
