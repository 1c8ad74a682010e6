/** `judgeLines` of `src/print/bridges.ts`: the lines of unsupported pixels along one direction. */
import {
  DEEPEST, FAILED, FAILING, FREE_ENDED, LONGEST, LOOSE_FROM, LOOSE_PIECE, LOOSE_START, LOOSE_TO, SOLID, UNSUPPORTED,
  columns, f, layerWords, n, rows, setF, setN, words,
} from './state';

const DIRECTIONS: i32 = 4;
const FREE: f64 = 1e9;

let here: usize = 0;
let dx: i32 = 0;
let dy: i32 = 0;
let unit: f64 = 1;
let bridge_px: f64 = 0;
let closing_px: f64 = 0;
let bits: usize = 0;
let direction: i32 = 0;

/** Judges the lines of one direction in the rows [firstRow, lastRow]. */
export function judgeLines(
  layer: i32,
  way: i32,
  firstRow: i32,
  lastRow: i32,
  longestBridge_px: f64,
  widestClosing_px: f64,
): void {
  const bytes = <usize>layerWords << 2;
  here = SOLID + <usize>layer * bytes;
  direction = way;
  dx = way === 1 ? 0 : 1;
  dy = way === 0 ? 0 : way === 3 ? -1 : 1;
  unit = way < 2 ? 1 : 1.4142135623730951;
  bridge_px = longestBridge_px;
  closing_px = widestClosing_px;
  bits = FAILING + <usize>way * bytes;
  for (let row = firstRow; row <= lastRow; row++) {
    const end = n(LOOSE_START, row + 1);
    for (let i = n(LOOSE_START, row); i < end; i++) {
      const root = DIRECTIONS * n(LOOSE_PIECE, i) + way;
      const from = n(LOOSE_FROM, i);
      const to = n(LOOSE_TO, i);
      if (way === 0) judgeLine(root, from, row, to - from);
      else judgeStarts(root, row, from, to);
    }
  }
}

/** Judges the lines that begin in a run: at the pixels whose forerunner is not in the region. */
function judgeStarts(root: i32, row: i32, from: i32, to: i32): void {
  const last = (to - 1) >> 5;
  const back = row - dy;
  const isIn = back >= 0 && back < rows;
  const line = UNSUPPORTED + (<usize>(row * words) << 2);
  const before = UNSUPPORTED + (<usize>(back * words) << 2);
  for (let w = from >> 5; w <= last; w++) {
    let starts = n(line, w);
    if (w === from >> 5) starts &= -1 << (from & 31);
    if (w === last) starts &= -1 >>> (31 - ((to - 1) & 31));
    if (isIn) {
      let known = n(before, w);
      if (dx === 1) known = (known << 1) | (w > 0 ? n(before, w - 1) >>> 31 : 0);
      starts &= ~known;
    }
    while (starts !== 0) {
      const x = 32 * w + ctz(starts);
      starts &= starts - 1;
      let length = 1;
      while (isSet(UNSUPPORTED, x + length * dx, row + length * dy)) length++;
      judgeLine(root, x, row, length);
    }
  }
}

function judgeLine(root: i32, x: i32, row: i32, length: i32): void {
  const before = isSet(here, x - dx, row - dy);
  const after = isSet(here, x + length * dx, row + length * dy);
  let span = <f64>length * unit;
  let holds = span <= bridge_px;
  if (!before || !after) {
    const way = before ? 1 : -1;
    const u = before ? x + length * dx : x - dx;
    const v = before ? row + length * dy : row - dy;
    holds = before !== after && closes(length, u, v, way * dx, way * dy);
    span *= 2;
    if (!holds) setN(FREE_ENDED, root, n(FREE_ENDED, root) + length);
  }
  if ((holds || before === after) && (before || after) && span > f(LONGEST, root)) {
    setF(LONGEST, root, span);
  }
  if (holds) return;
  setN(FAILED, root, n(FAILED, root) + length);
  const depth = before === after ? FREE : <f64>length * unit;
  if (depth > f(DEEPEST, root)) setF(DEEPEST, root, depth);
  for (let k = 0; k < length; k++) {
    const u = x + k * dx;
    const w = (row + k * dy) * words + (u >> 5);
    setN(bits, w, n(bits, w) | (1 << (u & 31)));
  }
}

/** Whether the opening before a ledge is narrow and its far wall does not step back. */
function closes(length: i32, x: i32, y: i32, stepX: i32, stepY: i32): bool {
  let width = length;
  let u = x;
  let v = y;
  while (<f64>width * unit <= closing_px) {
    if (u < 0 || v < 0 || u >= columns || v >= rows) return false;
    if (isSet(here, u, v) && !isSet(UNSUPPORTED, u, v)) {
      // A wall that leans away has solid below where the layer is open now.
      return !isSet(here - (<usize>layerWords << 2), u - stepX, v - stepY);
    }
    width++;
    u += stepX;
    v += stepY;
  }
  return false;
}

// @ts-ignore: decorator
@inline function isSet(at: usize, x: i32, y: i32): bool {
  if (x < 0 || y < 0 || x >= columns || y >= rows) return false;
  return ((n(at, y * words + (x >> 5)) >>> (x & 31)) & 1) === 1;
}
