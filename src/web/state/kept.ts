/** Which designs of a front lie within the ranges kept; counted once per change, not per design. */
import { effect, signal } from '@preact/signals';
import { columnsOf, keptMask } from '../plots/columns.ts';
import { ranges } from './fronts.ts';
import type { LoadedFront } from './fronts.ts';
import type { Front } from '../../engine/index.ts';

/** Whether a range is being dragged. */
export const brushing = signal(false);

/** The ranges once the hand that drags one rests: for what takes long to follow. */
export const settledRanges = signal(ranges.peek());
effect(() => {
  if (!brushing.value) settledRanges.value = ranges.value;
});

type Ranges = typeof ranges.value;
const masksOf = new WeakMap<Ranges, WeakMap<Front, Uint8Array>>();

/**
 * 1 for a design kept, 0 for one outside a range; in the order of the front.
 *
 * @param by ranges; those in force if left out. Either way the answer follows them.
 */
export function keptOf({ front }: LoadedFront, by: Ranges = ranges.value): Uint8Array {
  const masks = masksOf.get(by) ?? new WeakMap<Front, Uint8Array>();
  masksOf.set(by, masks);
  const known = masks.get(front);
  if (known !== undefined) return known;
  const mask = keptMask(front, by);
  masks.set(front, mask);
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
