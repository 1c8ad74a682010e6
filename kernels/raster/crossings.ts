/** `src/print/crossings.ts`: where walls cross the rows of a layer, and the clearing between. */
import { COUNT, CROSSING, SIGN, SOLID, columns, f, layerWords, n, room, rows, setF, setN, words } from './state';

let firstRow: i32 = 0;
let lastRow: i32 = -1;
/** Whether a row had no room left: the tube is then carved by the plain form. */
let full: bool = false;

// @ts-ignore: decorator
@inline export function startLayer(): void {
  firstRow = rows;
  lastRow = -1;
}

/** Tells whether a row ran out of room since the last call. */
export function wasFull(): bool {
  if (!full) return false;
  full = false;
  memory.fill(COUNT, 0, 4 * <usize>rows);
  return true;
}

// @ts-ignore: decorator
@inline export function addSegment(u1: f64, v1: f64, u2: f64, v2: f64): void {
  const row1 = <i32>Math.ceil(v1);
  const row2 = <i32>Math.ceil(v2);
  if (row1 !== row2) noteCrossings(u1, v1, u2, v2, row1, row2);
}

function noteCrossings(u1: f64, v1: f64, u2: f64, v2: f64, row1: i32, row2: i32): void {
  const rising = row2 > row1;
  const from = max(0, rising ? row1 : row2);
  const to = min(rows, rising ? row2 : row1);
  if (from >= to) return;
  const slope = (u2 - u1) / (v2 - v1);
  const sign = rising ? 1 : -1;
  if (from < firstRow) firstRow = from;
  if (to - 1 > lastRow) lastRow = to - 1;
  for (let row = from; row < to; row++) {
    const count = n(COUNT, row);
    if (count === room) {
      full = true;
      return;
    }
    const at = row * room + count;
    setF(CROSSING, at, u1 + (<f64>row - v1) * slope);
    setN(SIGN, at, sign);
    setN(COUNT, row, count + 1);
  }
}

/** Sorts each touched row's crossings and clears where the winding number is not zero. */
export function clearBetween(layer: i32, last: i32): void {
  for (let row = firstRow; row <= lastRow; row++) {
    const count = n(COUNT, row);
    if (count === 0) continue;
    setN(COUNT, row, 0);
    const at = row * room;
    if (count > 2 || (count === 2 && f(CROSSING, at) > f(CROSSING, at + 1))) sortRow(at, count);
    let winding = 0;
    let from: f64 = 0;
    for (let c = at; c < at + count; c++) {
      if (winding === 0) from = f(CROSSING, c);
      winding += n(SIGN, c);
      if (winding !== 0) continue;
      const left = max(0, <i32>Math.ceil(from));
      const right = min(columns, <i32>Math.ceil(f(CROSSING, c)));
      if (left >= right) continue;
      for (let k = layer; k <= last; k++) clearBits(k * layerWords + row * words, left, right);
    }
  }
}

function clearBits(at: i32, from: i32, to: i32): void {
  const first = from >> 5;
  const last = (to - 1) >> 5;
  const head = -1 << (from & 31);
  const tail = -1 >>> (31 - ((to - 1) & 31));
  if (first === last) {
    setN(SOLID, at + first, n(SOLID, at + first) & ~(head & tail));
    return;
  }
  setN(SOLID, at + first, n(SOLID, at + first) & ~head);
  for (let w = first + 1; w < last; w++) setN(SOLID, at + w, 0);
  setN(SOLID, at + last, n(SOLID, at + last) & ~tail);
}

function sortRow(at: i32, count: i32): void {
  for (let c = at + 1; c < at + count; c++) {
    const value = f(CROSSING, c);
    const mark = n(SIGN, c);
    let d = c - 1;
    for (; d >= at && f(CROSSING, d) > value; d--) {
      setF(CROSSING, d + 1, f(CROSSING, d));
      setN(SIGN, d + 1, n(SIGN, d));
    }
    setF(CROSSING, d + 1, value);
    setN(SIGN, d + 1, mark);
  }
}
