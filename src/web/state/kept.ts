/** Which designs of a front lie within the ranges kept; counted once per change, not per design. */
import { columnsOf, keptMask } from '../plots/columns.ts';
import { ranges } from './fronts.ts';
import type { LoadedFront } from './fronts.ts';
import type { Front } from '../../engine/index.ts';

let known = new WeakMap<Front, Uint8Array>();
let knownRanges: unknown = null;

/** 1 for a design kept, 0 for one outside a range; in the order of the front. Follows `ranges`. */
export function keptOf({ front }: LoadedFront): Uint8Array {
  if (ranges.value !== knownRanges) {
    knownRanges = ranges.value;
    known = new WeakMap();
  }
  const before = known.get(front);
  if (before !== undefined) return before;
  const mask = keptMask(front, ranges.value);
  known.set(front, mask);
  return mask;
}

/** Keeps the designs between two values of a measure; the whole span of its readings is no range. */
export function keepRange({ front }: LoadedFront, id: string, low: number, high: number): void {
  const column = columnsOf(front).get(id);
  if (column === undefined || !(low <= high)) return;
  if (low <= column.low && high >= column.high) dropRange(id);
  else ranges.value = { ...ranges.value, [id]: [low, high] };
}

export function dropRange(id: string): void {
  if (!(id in ranges.value)) return;
  ranges.value = Object.fromEntries(Object.entries(ranges.value).filter(([key]) => key !== id));
}
