/** Pixels of a layer that stand out further over the layer below than the overhang limit allows. */
import type { Grid } from './grid.ts';

/** Dilation element: half width in pixels for each row offset -n..n. */
type Disc = Int32Array;

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

/** Covering discs for one layer's step and for two. */
export interface Discs {
  readonly one: Disc;
  readonly two: Disc;
}

export function coveringDiscs(step_px: number): Discs {
  return { one: coveringDisc(step_px), two: coveringDisc(2 * step_px) };
}

/**
 * Marks the pixels of a layer that stand out too far.
 *
 *   new = solid[layer] & ~solid[layer - 1]
 *   out = new & ~(dilate(solid[layer - 1], one) & dilate(solid[layer - 2], two))
 *
 * The second layer down sharpens the test: over one layer a disc of one pixel lets slopes of up to
 * sqrt 2 of the limit pass along the diagonals, over two layers up to 1.12. Ceilings are new in
 * their first layer only. Words without new pixels, most of a plate, are passed over.
 *
 * @param layer at least 1.
 * @param out bitmap of one layer.
 */
export function findUnsupported(
  grid: Grid,
  solid: Int32Array,
  layer: number,
  discs: Discs,
  out: Int32Array,
  touched: Touched,
): void {
  const { words, rows, layerWords } = grid;
  const here = layer * layerWords;
  const below = here - layerWords;
  touched.firstRow = rows;
  touched.lastRow = -1;
  for (let row = 0; row < rows; row++) {
    const at = row * words;
    const top = here + at;
    const bottom = below + at;
    let fresh = 0;
    for (let w = 0; w < words; w++) fresh |= solid[top + w] & ~solid[bottom + w];
    if (fresh === 0) {
      out.fill(0, at, at + words);
      continue;
    }
    let any = 0;
    for (let w = 0; w < words; w++) {
      fresh = solid[top + w] & ~solid[bottom + w];
      let left = 0;
      if (fresh !== 0) {
        left = uncovered(grid, solid, below, row, w, discs.one, fresh);
        if (layer > 1 && left !== fresh) {
          left |= uncovered(grid, solid, below - layerWords, row, w, discs.two, fresh & ~left);
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

/** Pixels of one word that a layer, dilated, does not cover. */
function uncovered(
  grid: Grid,
  solid: Int32Array,
  base: number,
  row: number,
  w: number,
  disc: Disc,
  pixels: number,
): number {
  const { words, rows } = grid;
  const n = (disc.length - 1) / 2;
  const at = base + row * words;
  let left = pixels;
  for (let d = 0; d <= n; d++) {
    if (row + d < rows) left &= ~wideWord(solid, at + d * words, w, words, disc[n + d]);
    if (left === 0) return 0;
    if (d > 0 && row >= d) left &= ~wideWord(solid, at - d * words, w, words, disc[n + d]);
    if (left === 0) return 0;
  }
  return left;
}

/** One word of a row, spread by `reach` pixels to both sides. */
function wideWord(bits: Int32Array, row: number, w: number, words: number, reach: number): number {
  const word = bits[row + w];
  let wide = word;
  if (reach === 0 || word === -1) return wide;
  const before = w > 0 ? bits[row + w - 1] : 0;
  const after = w + 1 < words ? bits[row + w + 1] : 0;
  wide |= (word << 1) | (before >>> 31) | (word >>> 1) | (after << 31);
  const most = Math.min(reach, 31);
  for (let d = 2; d <= most; d++) {
    wide |= (word << d) | (before >>> (32 - d)) | (word >>> d) | (after << (32 - d));
  }
  return wide;
}
