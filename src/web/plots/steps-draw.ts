/** Draws staircases: the edge of what several fronts attain, under the marks of a scatter plot. */
import type { MeasureInfo } from '../../engine/index.ts';
import type { Pen, Stroke } from './pen.ts';

export interface StepLine {
  /** What the key calls it. */
  readonly name: string;
  /** Corners of the attained region from the best first measure on, x0 y0 x1 y1 ... */
  readonly corners: ArrayLike<number>;
}

/** One look per line, told apart without colour; the key names them. */
const LOOKS: readonly Stroke[] = [
  { tone: 'line', width: 1.6, dash: [2, 4] },
  { tone: 'line', width: 2 },
  { tone: 'line', width: 1.6, dash: [9, 5] },
];

interface Places {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
  x(value: number): number;
  y(value: number): number;
}

interface Directions {
  readonly xInfo: Pick<MeasureInfo, 'better'> | undefined;
  readonly yInfo: Pick<MeasureInfo, 'better'> | undefined;
}

export function drawSteps(
  pen: Pen,
  lines: readonly StepLine[],
  places: Places,
  directions: Directions,
): void {
  lines.forEach(({ corners }, k) => {
    pen.polylines([stepPoints(corners, places, directions)], LOOKS[k % LOOKS.length]);
  });
}

/**
 * Points along the edge of the attained region: each corner with its two sides, drawn out to the
 * worse edges of the plot.
 */
export function stepPoints(
  corners: ArrayLike<number>,
  places: Places,
  { xInfo, yInfo }: Directions,
): number[] {
  const worseX = xInfo?.better === 'higher' ? places.left : places.right;
  const worseY = yInfo?.better === 'higher' ? places.foot : places.top;
  const points: number[] = [];
  let level = worseY;
  for (let k = 0; k + 1 < corners.length; k += 2) {
    const [x, y] = [places.x(corners[k]), places.y(corners[k + 1])];
    // Along at the level of the corner before, then up or down to this one.
    points.push(x, level, x, y);
    level = y;
  }
  if (points.length > 0) points.push(worseX, level);
  return points;
}

/** Samples of the lines with their names, above the plot; small where the plot is narrow. */
export function drawStepsKey(pen: Pen, lines: readonly StepLine[], left: number): void {
  const whole = lines.reduce((sum, { name }) => sum + widthOf(name, 12), left);
  const size = whole < pen.width ? 12 : 10;
  let x = whole < pen.width ? left : 8;
  lines.forEach(({ name }, k) => {
    pen.line(x, 29, x + 2.2 * size, 29, LOOKS[k % LOOKS.length]);
    pen.text(x + 2.6 * size, 33, name, { tone: 'soft', size });
    x += widthOf(name, size);
  });
}

function widthOf(name: string, size: number): number {
  return size * (4.2 + 0.53 * name.length);
}
