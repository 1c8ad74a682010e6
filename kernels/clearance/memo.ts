/** Gaps already known, as in src/measures/clearance/plate-pairs.ts; open addressing, emptied by a new stamp. */
import { memo } from './state';

/** i32 stamp, shapes; f64 offset x, y in quanta, gap. */
const ENTRY: usize = 40;
const SIZE: i32 = 4096;
const MOST: i32 = 3000;
export const MEMO_BYTES: usize = <usize>SIZE * ENTRY;
const QUANTUM: f64 = 1e-9;

let now: i32 = 0;
let count: i32 = 0;

export function clearMemo(): void {
  now++;
  count = 0;
  if (now === 0x7fffffff) {
    memory.fill(memo, 0, MEMO_BYTES);
    now = 1;
  }
}

/** Entry of a pair, or 0 when the table is full enough. */
export function findMemo(shapeA: i32, shapeB: i32, ox: f64, oy: f64): usize {
  const x = Math.round(ox / QUANTUM);
  const y = Math.round(oy / QUANTUM);
  // Adding nothing makes one zero of both.
  let h: i64 = ((<i64>shapeA << 32) | <i64>shapeB) * -0x61c8864680b583eb;
  h = (h ^ reinterpret<i64>(x + 0)) * -0x4b47d0c5a1a6a9b5;
  h = (h ^ (h >>> 32) ^ reinterpret<i64>(y + 0)) * -0x61c8864680b583eb;
  let slot = <i32>(h >>> 40) & (SIZE - 1);
  while (true) {
    const at = memo + <usize>slot * ENTRY;
    if (load<i32>(at) !== now) {
      if (count >= MOST) return 0;
      store<i32>(at, now);
      store<i32>(at, shapeA, 4);
      store<i32>(at, shapeB, 8);
      store<f64>(at, x, 16);
      store<f64>(at, y, 24);
      store<f64>(at, NaN, 32);
      count++;
      return at;
    }
    if (
      load<f64>(at, 16) === x &&
      load<f64>(at, 24) === y &&
      load<i32>(at, 4) === shapeA &&
      load<i32>(at, 8) === shapeB
    ) {
      return at;
    }
    slot = (slot + 1) & (SIZE - 1);
  }
}

// @ts-ignore: decorator
@inline
export function memoGap(at: usize): f64 {
  return load<f64>(at, 32);
}

// @ts-ignore: decorator
@inline
export function fillMemo(at: usize, gap: f64): void {
  store<f64>(at, gap, 32);
}
