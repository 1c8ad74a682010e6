/** How a calibration is cited wherever its numbers show. */
import { LOSS_PARTS } from '../brief/index.ts';
import type { Brief, LossPart } from '../brief/index.ts';
import { figure } from './figure.ts';

/** Names of the parts of a pressure drop as people read them. */
export const LOSS_WORDS: Readonly<Record<LossPart, string>> = {
  friction: 'wall friction',
  ends: 'inlet and outlet',
  curvature: 'bends',
  areaChanges: 'widening bores',
};

/** One sentence on the calibration that a brief carries; null without one. */
export function citeCalibration({ calibration }: Brief): string | null {
  if (calibration === undefined) return null;
  const factors = LOSS_PARTS.map((part) => {
    const { value, low, high } = calibration[part];
    return `${LOSS_WORDS[part]} x ${figure(value)} (${figure(low)} to ${figure(high)})`;
  });
  return `Pressure drops are calibrated by ${calibration.source}: ${factors.join(', ')}; 95 % intervals.`;
}
