/** Pixels of a layer that stand out further over the layer below than the overhang limit allows. */
import type { Grid } from './grid.ts';

/** Dilation element: half width in pixels for each row offset -n..n. */
export type Disc = Int32Array;

/**
 * Pixel offsets whose convex hull holds the disc of radius `radius_px`.
 *
 * Then a straight wall edge may move by the radius in any direction of the plane without leaving a
 * pixel unsupported, whatever the pixel raster makes of it. The price: between the axes the element
 * reaches up to sqrt 2 further for a radius of 1, less for larger ones.
 *
 * @returns half widths of the rows -n..n.
 * @example coveringDisc(1).join() // '1,1,1'
 */
export function coveringDisc(radius_px: number): Disc {
  for (let square = 0; ; square++) {
    const disc = discOf(square);
    if (hullRadius(disc) >= radius_px - 1e-9) return disc;
  }
}

function discOf(square: number): Disc {
  const n = Math.floor(Math.sqrt(square));
  return Int32Array.from({ length: 2 * n + 1 }, (_, i) =>
    Math.floor(Math.sqrt(square - (i - n) * (i - n))),
  );
}

/** Radius of the largest disc about the origin inside the hull of an element. */
function hullRadius(disc: Disc): number {
  const n = (disc.length - 1) / 2;
  let least = n;
  // The hull's sides lie between pairs of points of the first quadrant.
  for (let y1 = 0; y1 <= n; y1++) {
    for (let y2 = y1 + 1; y2 <= n; y2++) {
      const x1 = disc[n + y1];
      const x2 = disc[n + y2];
      const nx = y2 - y1;
      const ny = x1 - x2;
      const offset = nx * x1 + ny * y1;
      let outermost = true;
      for (let y = 0; y <= n; y++) outermost &&= nx * disc[n + y] + ny * y <= offset;
      if (outermost) least = Math.min(least, offset / Math.sqrt(nx * nx + ny * ny));
    }
  }
  return Math.min(least, disc[n]);
}

/** What `findUnsupported` saw: rows touched and whether anything was found. */
export interface Touched {
  firstRow: number;
  lastRow: number;
}

/**
 * Marks the pixels of a layer that the layer below, dilated, does not carry.
 *
 *   out = solid[layer] & ~dilate(solid[layer - 1], disc)
 *
 * Only words that gained pixels over the layer below are dilated: in a plate most did not.
 *
 * @param layer at least 1.
 * @param out bitmap of one layer; rows outside `touched` are left as they were.
 */
export function findUnsupported(
  grid: Grid,
  solid: Int32Array,
  layer: number,
  disc: Disc,
  out: Int32Array,
  touched: Touched,
): void {
  const { words, rows, layerWords } = grid;
  const here = layer * layerWords;
  const below = here - layerWords;
  const n = (disc.length - 1) / 2;
  touched.firstRow = rows;
  touched.lastRow = -1;
  for (let row = 0; row < rows; row++) {
    const at = row * words;
    let any = 0;
    for (let w = 0; w < words; w++) {
      let left = solid[here + at + w] & ~solid[below + at + w];
      if (left !== 0) {
        for (let d = 0; d <= n && left !== 0; d++) {
          left &= ~wideWord(
            solid,
            below + at + d * words,
            w,
            words,
            row + d < rows ? disc[n + d] : -1,
          );
          if (d > 0) {
            left &= ~wideWord(solid, below + at - d * words, w, words, row >= d ? disc[n + d] : -1);
          }
        }
      }
      out[at + w] = left;
      any |= left;
    }
    if (any !== 0) {
      if (touched.firstRow > row) touched.firstRow = row;
      touched.lastRow = row;
    }
  }
}

/** One word of a row, spread by `reach` pixels to both sides; reach < 0: no such row. */
function wideWord(bits: Int32Array, row: number, w: number, words: number, reach: number): number {
  if (reach < 0) return 0;
  const word = bits[row + w];
  let wide = word;
  if (reach === 0 || word === -1) return wide;
  const before = w > 0 ? bits[row + w - 1] : 0;
  const after = w + 1 < words ? bits[row + w + 1] : 0;
  const most = Math.min(reach, 31);
  for (let d = 1; d <= most; d++) {
    wide |= (word << d) | (before >>> (32 - d)) | (word >>> d) | (after << (32 - d));
  }
  return wide;
}
