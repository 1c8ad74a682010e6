/** The staircase of an attainment surface as a path. */

/**
 * Path along the edge of the attained region: each corner with its two sides, drawn out to the
 * worse edges of the plot.
 *
 * @param corners from the best first measure on, row-major [n x 2].
 * @param edges where the plot ends on the worse sides, in its own pixels.
 */
export function stepsOf(
  corners: ArrayLike<number>,
  x: (value: number) => number,
  y: (value: number) => number,
  edges: { readonly x: number; readonly y: number },
): string {
  const parts: string[] = [];
  for (let k = 0; k < corners.length; k += 2) {
    const [px, py] = [x(corners[k]).toFixed(1), y(corners[k + 1]).toFixed(1)];
    // Along at the level of the corner before, then up or down to the new corner.
    parts.push(k === 0 ? `M${px} ${edges.y.toFixed(1)}V${py}` : `H${px}V${py}`);
  }
  if (parts.length > 0) parts.push(`H${edges.x.toFixed(1)}`);
  return parts.join('');
}
