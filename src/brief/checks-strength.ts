/** Cross-checks of the push: it must fit the plate. */
import type { Check } from './check.ts';
import { fault, shownSum } from './faults.ts';
import { outlineBox } from './outline.ts';

const pad: Check = {
  reads: ['strength.padRadius_mm', 'plate.outline'],
  run: ({ strength, plate }) => {
    if (strength === undefined) return [];
    const [x0, y0, x1, y1] = outlineBox(plate.outline);
    const most = 0.5 * Math.min(x1 - x0, y1 - y0);
    if (strength.padRadius_mm <= most) return [];
    const allowed = `be at most ${shownSum(most)}, half the width of plate.outline`;
    const remedy = 'A pad wider than the plate pushes on its frame: use a smaller one.';
    return [fault('strength.padRadius_mm', String(strength.padRadius_mm), allowed, remedy)];
  },
};

export const STRENGTH_CHECKS: readonly Check[] = [pad];
