/** Tabulated functions of one variable: cubic pieces on equal cells, for loops that cannot afford a power or a logarithm. */

/** Cubic pieces on equal cells; beyond the ends the outermost piece is continued at its end value. */
export interface Table {
  readonly low: number;
  readonly high: number;
  readonly cellsPerUnit: number;
  readonly cells: number;
  /** Four coefficients per cell, lowest power first, in the cell's own variable 0..1 [4 x cells]. */
  readonly coefficients: Float64Array;
}

/**
 * Tabulates `fn` on [low, high] by cubic Hermite pieces whose slopes are central differences of
 * `fn` itself, so the table is smooth (C1) and off by O(cell^4).
 *
 * @throws RangeError if `fn` is not finite on the nodes.
 * @example tabulate((x) => x * x, 0, 4, 8).cells // 8
 */
export function tabulate(
  fn: (x: number) => number,
  low: number,
  high: number,
  cells: number,
): Table {
  const width = (high - low) / cells;
  const nudge = 1e-3 * width;
  const coefficients = new Float64Array(4 * cells);
  const value = (index: number): number => {
    const y = fn(low + index * width);
    if (!Number.isFinite(y)) throw new RangeError(`tabulated function is ${y} at node ${index}`);
    return y;
  };
  const slope = (index: number): number => {
    const x = low + index * width;
    const a = Math.max(low, x - nudge);
    const b = Math.min(high, x + nudge);
    return ((fn(b) - fn(a)) / (b - a)) * width;
  };
  for (let cell = 0; cell < cells; cell += 1) {
    const y0 = value(cell);
    const y1 = value(cell + 1);
    const s0 = slope(cell);
    const s1 = slope(cell + 1);
    coefficients[4 * cell] = y0;
    coefficients[4 * cell + 1] = s0;
    coefficients[4 * cell + 2] = 3 * (y1 - y0) - 2 * s0 - s1;
    coefficients[4 * cell + 3] = 2 * (y0 - y1) + s0 + s1;
  }
  return { low, high, cellsPerUnit: 1 / width, cells, coefficients };
}

/**
 * Value of a table; arguments beyond its ends give the end value.
 *
 * @example readTable(tabulate((x) => x * x, 0, 4, 8), 3) // 9
 */
export function readTable(table: Table, x: number): number {
  const t = (x - table.low) * table.cellsPerUnit;
  if (!(t > 0)) return table.coefficients[0];
  const cell = t < table.cells ? Math.trunc(t) : table.cells - 1;
  const u = t < table.cells ? t - cell : 1;
  const c = table.coefficients;
  const k = 4 * cell;
  return c[k] + u * (c[k + 1] + u * (c[k + 2] + u * c[k + 3]));
}
