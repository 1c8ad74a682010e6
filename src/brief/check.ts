/** What a cross-check is. */
import type { Fault } from './faults.ts';
import type { Brief } from './schema.ts';

/** Compares values of a brief that are each allowed by themselves. */
export interface Check {
  /** Parts it reads, two keys deep; it is left out while one of them is itself at fault. */
  readonly reads: readonly `${string}.${string}`[];
  /** Every fault found, none when the parts agree. */
  run(brief: Brief): readonly Fault[];
}
