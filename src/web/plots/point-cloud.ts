/** Where points lie on a plot, and which is nearest to the pointer. */

/** Points in plot pixels with what they stand for. */
export interface Cloud<K> {
  readonly keys: readonly K[];
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/**
 * Index of the nearest point within a reach, or -1. A plain scan: five thousand points take some
 * microseconds, less than any tree would need to be rebuilt while panning.
 */
export function nearestPoint<K>(cloud: Cloud<K>, x: number, y: number, reach: number): number {
  let best = -1;
  let least = reach * reach;
  for (let i = 0; i < cloud.keys.length; i++) {
    const dx = cloud.x[i] - x;
    const dy = cloud.y[i] - y;
    const square = dx * dx + dy * dy;
    if (square < least) {
      least = square;
      best = i;
    }
  }
  return best;
}

/** Index of the next point to one side, for arrow keys: the nearest within a quarter turn of it. */
export function pointTowards<K>(
  cloud: Cloud<K>,
  from: number,
  towards: 'left' | 'right' | 'up' | 'down',
): number {
  const [ux, uy] = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] }[towards];
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < cloud.keys.length; i++) {
    const dx = cloud.x[i] - cloud.x[from];
    const dy = cloud.y[i] - cloud.y[from];
    const along = dx * ux + dy * uy;
    const across = Math.abs(dx * uy) + Math.abs(dy * ux);
    if (i === from || along <= 0 || across > along) continue;
    const square = dx * dx + dy * dy;
    if (square < least) {
      least = square;
      best = i;
    }
  }
  return best;
}
