import { describe, expect, it } from 'vitest';
import { flowSplit } from '../../../src/engine/verify-split.ts';
import { aComputedFlow } from '../../support/computed-flows.ts';

const at = (medianVelocity_m_per_s: number, velocity: number, pressureDrop_Pa: number) =>
  ({ medianVelocity_m_per_s, velocity_m_per_s: velocity, pressureDrop_Pa }) as const;

describe('flowSplit()', () => {
  it('moves channels to one pressure drop by the law of the median channel', () => {
    // dp = 2 U^2 in the median channel; the wider one is computed at U 1.2 with dp 1.62 instead of 2:
    // at 2 Pa it passes 1.2 sqrt(2 / 1.62) = 1.2 / 0.9.
    const cases = [
      aComputedFlow({ role: 'median', ...at(1, 1, 2) }),
      aComputedFlow({ role: 'median', ...at(0.5, 0.5, 0.5) }),
      aComputedFlow({ role: 'widest', ...at(1, 1.2, 1.62) }),
    ];
    const [wide] = flowSplit(cases);
    expect(wide.role).toBe('widest');
    expect(wide.estimated).toBeCloseTo(1.2, 9);
    expect(wide.computed).toBeCloseTo(1.2 / 0.9, 9);
  });

  it('has nothing to say of one channel alone', () => {
    expect(flowSplit([aComputedFlow()])).toEqual([]);
    expect(flowSplit([])).toEqual([]);
  });
});
