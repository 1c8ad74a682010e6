import { describe, expect, it } from 'vitest';
import { planVerification } from '../../../src/engine/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { boredPlate } from './bored-plate.ts';

/** Nine straight 5 mm bores in a round plate. */
const design = boredPlate(
  Array.from({ length: 9 }, (_, i) => [12 * ((i % 3) - 1), 12 * (Math.floor(i / 3) - 1)]),
);

describe('planVerification()', () => {
  it('plans the asked velocity, with the Reynolds number U D / nu of the air', () => {
    const plan = planVerification(aBrief(), design, 15, 1);
    if (typeof plan === 'string') throw new Error(plan);
    expect(plan.velocity_m_per_s).toBeCloseTo(1, 6);
    expect(plan.channels).toBe(9);
    // Air of 15 to 35 C has 1.47e-5 to 1.66e-5 m2/s (physics/air.ts, checked against ISO 2533).
    expect(plan.reynolds).toBeGreaterThan(300);
    expect(plan.reynolds).toBeLessThan(341);
    expect(plan.memory_bytes).toBeLessThan(150e6);
  });

  it('refuses a Reynolds number beyond the comparisons and names a velocity that it then takes', () => {
    const refusal = planVerification(aBrief(), design, 15, 8);
    expect(refusal).toMatch(/^Re 2\d{3} at 8\.00 m\/s is above 1320/);
    const nearest = Number(
      /answers for is ([\d.]+) m\/s/.exec(typeof refusal === 'string' ? refusal : '')?.[1],
    );
    expect(typeof planVerification(aBrief(), design, 15, nearest)).toBe('object');
    expect(typeof planVerification(aBrief(), design, 15, 1.03 * nearest)).toBe('string');
  });

  it('refuses a grid too coarse, and teeth', () => {
    expect(planVerification(aBrief(), design, 6, 1)).toMatch(/at least 10/);
    const toothed = { ...design.channels[0], teeth: { height_mm: 0.5, pitch_mm: 4 } };
    const plan = planVerification(aBrief(), { ...design, channels: [toothed] }, 15, 1);
    expect(plan).toMatch(/teeth/);
  });
});
