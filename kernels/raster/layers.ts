/** `src/print/runs.ts`, `unsupported.ts` and the sums of `raster.ts`: what each layer holds. */
import {
  COLUMN_SUM, FROM, ONE, PIECE, ROW_START, ROW_SUM, SIZE, SOLID, TO, TWO, UNSUPPORTED,
  f, layerWords, n, rows, setF, setN, words,
} from './state';

let runCount: i32 = 0;
let touchCount: i32 = 0;
let pieceCount: i32 = 0;
let firstTouched: i32 = 0;
let lastTouched: i32 = -1;

export function runs(): i32 { return runCount; }
export function touches(): i32 { return touchCount; }
export function pieces(): i32 { return pieceCount; }
export function firstRow(): i32 { return firstTouched; }
export function lastRow(): i32 { return lastTouched; }

/** Finds and joins the runs of a layer, unless it repeats the one before (1). */
export function readLayer(layer: i32): i32 {
  if (isRepeated(layer)) return 1;
  findRuns(SOLID + ((<usize>layer * <usize>layerWords) << 2));
  joinRuns();
  return 0;
}

function isRepeated(layer: i32): bool {
  if (layer === 0) return false;
  const bytes = <usize>layerWords << 2;
  const end = SOLID + <usize>(layer + 1) * bytes;
  let at = end - bytes;
  for (; at + 16 <= end; at += 16) {
    if (v128.any_true(v128.xor(v128.load(at), v128.load(at - bytes)))) return false;
  }
  for (; at < end; at += 4) if (load<i32>(at) !== load<i32>(at - bytes)) return false;
  return true;
}

function findRuns(bits: usize): void {
  let count = 0;
  for (let row = 0; row < rows; row++) {
    setN(ROW_START, row, count);
    count = addRow(bits, count);
    bits += <usize>words << 2;
  }
  setN(ROW_START, rows, count);
  runCount = count;
}

/** Runs of one row alone, from the first place on; their number. */
export function findRow(bits: usize): i32 {
  return addRow(bits, 0);
}

// @ts-ignore: decorator
@inline function addRow(bits: usize, from: i32): i32 {
  let count = from;
  let carry = 0;
  for (let w = 0; w < words; w++) {
    const word = n(bits, w);
    // Ones where a pixel differs from the one before it: every start and every end.
    let edges = word ^ ((word << 1) | carry);
    while (edges !== 0) {
      const place = ctz(edges);
      if (((word >>> place) & 1) !== 0) setN(FROM, count, 32 * w + place);
      else setN(TO, count++, 32 * w + place);
      edges &= edges - 1;
    }
    carry = word >>> 31;
  }
  if (carry === 1) setN(TO, count++, 32 * words);
  return count;
}

function joinRuns(): void {
  const count = runCount;
  for (let i = 0; i < count; i++) setN(PIECE, i, i);
  let touching = 0;
  let apart = count;
  for (let row = 1; row < rows; row++) {
    let above = n(ROW_START, row - 1);
    let here = n(ROW_START, row);
    const aboveEnd = here;
    const hereEnd = n(ROW_START, row + 1);
    while (above < aboveEnd && here < hereEnd) {
      const toAbove = n(TO, above);
      const toHere = n(TO, here);
      if (n(FROM, above) < toHere && n(FROM, here) < toAbove) {
        touching++;
        const a = rootOf(above);
        const b = rootOf(here);
        if (a !== b) {
          apart--;
          if (a < b) setN(PIECE, b, a);
          else setN(PIECE, a, b);
        }
      }
      if (toAbove < toHere) above++;
      else here++;
    }
  }
  for (let i = 0; i < count; i++) setN(PIECE, i, rootOf(i));
  touchCount = touching;
  pieceCount = apart;
}

function rootOf(run: i32): i32 {
  let at = run;
  let next = n(PIECE, at);
  while (next !== at) {
    const beyond = n(PIECE, next);
    setN(PIECE, at, beyond);
    at = beyond;
    next = n(PIECE, at);
  }
  return at;
}

/** Adds the layer's runs to the sums of rows and columns and to the sizes of pieces; its pixels. */
export function addRuns(): i32 {
  memory.fill(SIZE, 0, 4 * <usize>runCount);
  let area = 0;
  for (let row = 0; row < rows; row++) {
    let sum = 0;
    const end = n(ROW_START, row + 1);
    for (let i = n(ROW_START, row); i < end; i++) {
      const from = n(FROM, i);
      const to = n(TO, i);
      const piece = n(PIECE, i);
      sum += to - from;
      setN(SIZE, piece, n(SIZE, piece) + to - from);
      setF(COLUMN_SUM, from, f(COLUMN_SUM, from) + 1);
      setF(COLUMN_SUM, to, f(COLUMN_SUM, to) - 1);
    }
    setF(ROW_SUM, row, f(ROW_SUM, row) + <f64>sum);
    area += sum;
  }
  return area;
}

/** Marks the pixels of a layer that stand out too far; `one` and `two` are rows of the discs. */
export function findUnsupported(layer: i32, one: i32, two: i32): void {
  const bytes = <usize>layerWords << 2;
  const here = SOLID + <usize>layer * bytes;
  const below = here - bytes;
  firstTouched = rows;
  lastTouched = -1;
  const rowBytes = <usize>words << 2;
  for (let row = 0; row < rows; row++) {
    const at = <usize>row * rowBytes;
    const top = here + at;
    const bottom = below + at;
    let w: usize = 0;
    let fresh = i32x4.splat(0);
    for (; w + 16 <= rowBytes; w += 16) {
      fresh = v128.or(fresh, v128.andnot(v128.load(top + w), v128.load(bottom + w)));
    }
    let rest = 0;
    for (; w < rowBytes; w += 4) rest |= load<i32>(top + w) & ~load<i32>(bottom + w);
    if (rest === 0 && !v128.any_true(fresh)) {
      memory.fill(UNSUPPORTED + at, 0, rowBytes);
      continue;
    }
    let any = 0;
    for (let i = 0; i < words; i++) {
      const pixels = n(top, i) & ~n(bottom, i);
      let left = 0;
      if (pixels !== 0) {
        left = uncovered(below, row, i, ONE, one, pixels);
        if (layer > 1 && left !== pixels) {
          left |= uncovered(below - bytes, row, i, TWO, two, pixels & ~left);
        }
      }
      setN(UNSUPPORTED + at, i, left);
      any |= left;
    }
    if (any !== 0) {
      if (firstTouched > row) firstTouched = row;
      lastTouched = row;
    }
  }
}

/** Pixels of one word that a layer, dilated, does not cover. */
function uncovered(base: usize, row: i32, w: i32, disc: usize, length: i32, pixels: i32): i32 {
  const reach = (length - 1) >> 1;
  let left = pixels;
  for (let d = 0; d <= reach; d++) {
    const wide = n(disc, reach + d);
    if (row + d < rows) left &= ~wideWord(base, row + d, w, wide);
    if (left === 0) return 0;
    if (d > 0 && row >= d) left &= ~wideWord(base, row - d, w, wide);
    if (left === 0) return 0;
  }
  return left;
}

/** One word of a row, spread by `reach` pixels to both sides. */
function wideWord(base: usize, row: i32, w: i32, reach: i32): i32 {
  const at = base + ((<usize>row * <usize>words + <usize>w) << 2);
  const word = load<i32>(at);
  let wide = word;
  if (reach === 0 || word === -1) return wide;
  const before = w > 0 ? load<i32>(at - 4) : 0;
  const after = w + 1 < words ? load<i32>(at + 4) : 0;
  const most = min(reach, 31);
  for (let d = 1; d <= most; d++) {
    wide |= (word << d) | (before >>> (32 - d)) | (word >>> d) | (after << (32 - d));
  }
  return wide;
}
