/** Runs of ones in a bitmap and the connected pieces they make. */

/** Runs of one bitmap, row by row; memory grows as needed. */
export interface Runs {
  count: number;
  /** First and one-past-last pixel of each run. */
  from: Int32Array;
  to: Int32Array;
  /** Index of the first run of each row [rows + 1]. */
  rowStart: Int32Array;
  /** Piece of each run: index of the piece's first run, after `joinRuns`. */
  piece: Int32Array;
  /** Places where runs of neighbouring rows touch, after `joinRuns`. */
  touches: number;
  pieces: number;
}

export function createRuns(): Runs {
  const none = new Int32Array(0);
  return { count: 0, from: none, to: none, rowStart: none, piece: none, touches: 0, pieces: 0 };
}

function grow(runs: Runs, least: number): void {
  const size = Math.max(least, 2 * runs.from.length, 1024);
  const wider = (old: Int32Array): Int32Array => {
    const next = new Int32Array(size);
    next.set(old);
    return next;
  };
  runs.from = wider(runs.from);
  runs.to = wider(runs.to);
  runs.piece = wider(runs.piece);
}

/**
 * Finds the runs of rows [firstRow, lastRow] of a bitmap; other rows count as empty.
 *
 * @param at first word of the bitmap.
 */
export function findRuns(
  bits: Int32Array,
  at: number,
  rows: number,
  words: number,
  runs: Runs,
  firstRow: number = 0,
  lastRow: number = rows - 1,
): void {
  if (runs.rowStart.length < rows + 1) runs.rowStart = new Int32Array(rows + 1);
  const { rowStart } = runs;
  const most = 16 * words + 1;
  let count = 0;
  for (let row = 0; row < rows; row++) {
    rowStart[row] = count;
    if (row < firstRow || row > lastRow) continue;
    if (runs.from.length < count + most) grow(runs, count + most);
    const { from, to } = runs;
    const base = at + row * words;
    let carry = 0;
    for (let w = 0; w < words; w++) {
      const word = bits[base + w];
      // Ones where a pixel differs from the one before it: every start and every end.
      let edges = word ^ ((word << 1) | carry);
      while (edges !== 0) {
        const low = edges & -edges;
        const place = 32 * w + 31 - Math.clz32(low);
        if ((word & low) !== 0) from[count] = place;
        else to[count++] = place;
        edges ^= low;
      }
      carry = word >>> 31;
    }
    if (carry === 1) to[count++] = 32 * words;
  }
  rowStart[rows] = count;
  runs.count = count;
}

/**
 * Joins runs that touch into pieces.
 *
 * @param reach 0: pieces join along pixel sides (4 neighbours); 1: along corners too (8).
 *
 * After it, `pieces` is their number, and with side contact the number of holes in them is
 * pieces - count + touches: each run and each contact is a simple patch, and the Euler
 * characteristic of their union is count - touches = pieces - holes.
 */
export function joinRuns(runs: Runs, rows: number, reach: 0 | 1): void {
  const { from, to, rowStart, piece, count } = runs;
  for (let i = 0; i < count; i++) piece[i] = i;
  let touches = 0;
  let pieces = count;
  for (let row = 1; row < rows; row++) {
    let above = rowStart[row - 1];
    let here = rowStart[row];
    const aboveEnd = here;
    const hereEnd = rowStart[row + 1];
    while (above < aboveEnd && here < hereEnd) {
      if (from[above] < to[here] + reach && from[here] < to[above] + reach) {
        touches++;
        const a = rootOf(piece, above);
        const b = rootOf(piece, here);
        if (a !== b) {
          pieces--;
          if (a < b) piece[b] = a;
          else piece[a] = b;
        }
      }
      if (to[above] < to[here]) above++;
      else here++;
    }
  }
  for (let i = 0; i < count; i++) piece[i] = rootOf(piece, i);
  runs.touches = touches;
  runs.pieces = pieces;
}

function rootOf(piece: Int32Array, run: number): number {
  let at = run;
  while (piece[at] !== at) {
    piece[at] = piece[piece[at]];
    at = piece[at];
  }
  return at;
}

/** Pixels from the first to the last column that runs reach. */
export function extentOf(runs: Runs): number {
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < runs.count; i++) {
    least = Math.min(least, runs.from[i]);
    most = Math.max(most, runs.to[i]);
  }
  return most > least ? most - least : 0;
}
