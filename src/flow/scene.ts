/**
 * What is to be solved, as the grid sees it: where air is, and what lies at the edges.
 *
 * Coordinates are in cells; cell (i, j, k) has its centre at exactly (i, j, k).
 */

/** First and last cell across x and y between mirror planes; the planes lie half a cell beyond. */
export interface MirrorBox {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

export interface Scene {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** Whether a point holds air; asked anywhere within the grid and half a cell around it. */
  inside(x: number, y: number, z: number): boolean;
  /** Mirror planes around layer k, null where walls are all there is. */
  box(k: number): MirrorBox | null;
  /**
   * open: air enters at even velocity before layer 0 and leaves at even pressure behind the last.
   * periodic: what leaves comes in again, with a given rise of pressure.
   */
  readonly ends: 'open' | 'periodic';
}
