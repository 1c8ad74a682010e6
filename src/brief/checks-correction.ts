/** What was learnt from prints against what was learnt from computed flows. */
import type { Check } from './check.ts';
import { fault } from './faults.ts';

export const CORRECTION_CHECKS: readonly Check[] = [
  {
    reads: ['calibration.source', 'correction.source'],
    run({ calibration, correction }) {
      if (calibration === undefined || correction === undefined) return [];
      const remedy =
        "A coupon's readings hold already what a correction would add: keep the one, remove the other.";
      return [fault('correction', 'beside a calibration', 'stand without one', remedy)];
    },
  },
];
