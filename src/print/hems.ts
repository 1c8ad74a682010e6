/**
 * Hems: thin ledges along a wall whose two ends are held. The printer lays them as lines along the
 * wall, from end to end. A hem at an angle to the pixels is crossed sideways by every straight line
 * of pixels, so it is judged as a whole: by its extent, its depth and its two ends.
 * Source: own heuristic.
 */
import type { Grid } from './grid.ts';
import type { Runs } from './runs.ts';

/** Extremes of each piece: x and row of its leftmost, rightmost, first and last pixel [runs x 8]. */
export type Extremes = Int32Array;
const PER_PIECE = 8;

export function findExtremes(
  runs: Runs,
  firstRow: number,
  lastRow: number,
  known: Extremes,
): Extremes {
  const { from, to, rowStart, piece, count } = runs;
  const out = known.length < PER_PIECE * count ? new Int32Array(2 * PER_PIECE * count) : known;
  for (let row = firstRow; row <= lastRow; row++) {
    for (let i = rowStart[row]; i < rowStart[row + 1]; i++) {
      const at = PER_PIECE * piece[i];
      if (piece[i] === i) {
        out[at] = from[i];
        out[at + 1] = row;
        out[at + 2] = to[i] - 1;
        out[at + 3] = row;
        out[at + 4] = (from[i] + to[i]) >> 1;
        out[at + 5] = row;
      } else {
        if (from[i] < out[at]) {
          out[at] = from[i];
          out[at + 1] = row;
        }
        if (to[i] - 1 > out[at + 2]) {
          out[at + 2] = to[i] - 1;
          out[at + 3] = row;
        }
      }
      out[at + 6] = (from[i] + to[i] - 1) >> 1;
      out[at + 7] = row;
    }
  }
  return out;
}

/** Length of a piece: the longer of its extents [px]. */
export function lengthOf(extremes: Extremes, piece: number): number {
  const at = PER_PIECE * piece;
  return 1 + Math.max(extremes[at + 2] - extremes[at], extremes[at + 7] - extremes[at + 5]);
}

/**
 * Whether both ends of a piece, along its longer extent, touch solid that is supported.
 *
 * @param here first word of the layer in `solid`; `unsupported` holds that layer only.
 */
export function isHeldAtEnds(
  grid: Grid,
  solid: Int32Array,
  here: number,
  unsupported: Int32Array,
  extremes: Extremes,
  piece: number,
): boolean {
  const at = PER_PIECE * piece;
  const across = extremes[at + 7] - extremes[at + 5] > extremes[at + 2] - extremes[at];
  const dx = across ? 0 : 1;
  const dy = across ? 1 : 0;
  for (const [end, way] of across ? ROW_ENDS : COLUMN_ENDS) {
    let held = false;
    for (let side = -1; side <= 1; side++) {
      const x = extremes[at + end] + way * dx + side * dy;
      const y = extremes[at + end + 1] + way * dy + side * dx;
      held ||= isOnlyIn(grid, solid, here, unsupported, x, y);
    }
    if (!held) return false;
  }
  return true;
}

const COLUMN_ENDS = [
  [0, -1],
  [2, 1],
] as const;
const ROW_ENDS = [
  [4, -1],
  [6, 1],
] as const;

function isOnlyIn(
  grid: Grid,
  solid: Int32Array,
  here: number,
  unsupported: Int32Array,
  x: number,
  y: number,
): boolean {
  if (x < 0 || y < 0 || x >= grid.columns || y >= grid.rows) return false;
  const word = y * grid.words + (x >> 5);
  return (((solid[here + word] & ~unsupported[word]) >>> (x & 31)) & 1) === 1;
}
