import { describe, expect, it } from 'vitest';
import { plateDigest, solvedBefore, verifyTasks } from '../../../src/engine/index.ts';
import { aComputedFlow } from '../../support/computed-flows.ts';
import { aBrief, aChannel, aDesign, aGrid, aPlacement } from '../../support/plates.ts';

const usual = aBrief();
/** Slow enough for the solver. */
const brief = {
  ...usual,
  air: { ...usual.air, supply: { kind: 'flow' as const, flow_m3_per_h: 2 } },
};
const holes = aDesign({ channels: [aChannel({ placements: aGrid(4, 9) })] });
const mixed = aDesign({
  channels: [
    aChannel({ bore_mm: [3], placements: [aPlacement({ x_mm: -20 })] }),
    aChannel({ placements: aGrid(3, 9) }),
    aChannel({ bore_mm: [7], placements: [aPlacement({ x_mm: 25 })] }),
  ],
});
const choice = { cells: 12, velocities_m_per_s: null, spread: true };

describe('verifyTasks()', () => {
  it('asks for the operating point, half of it and half as much again', () => {
    const { tasks, refused } = verifyTasks('d001', brief, holes, choice);
    // Continuity: 2 m3/h through 16 bores of 5 mm.
    const velocity = 2 / 3600 / (16 * Math.PI * 0.0025 * 0.0025);
    expect(refused).toEqual([]);
    expect(tasks.map((task) => task.velocity_m_per_s / velocity)).toEqual([
      expect.closeTo(1, 3),
      expect.closeTo(0.5, 3),
      expect.closeTo(1.5, 3),
    ]);
  });

  it('solves the channels of least and of greatest flow at the first velocity only', () => {
    const asked = { ...choice, velocities_m_per_s: [1, 2] };
    const { tasks } = verifyTasks('d001', brief, mixed, asked);
    expect(tasks.map(({ role, velocity_m_per_s }) => [role, velocity_m_per_s])).toEqual([
      ['median', 1],
      ['least', 1],
      ['widest', 1],
      ['median', 2],
    ]);
    const [median, least, widest] = tasks;
    // A narrow bore slows its air under the same pressure drop.
    expect(least.found.velocity_m_per_s).toBeLessThan(median.found.velocity_m_per_s);
    expect(widest.found.velocity_m_per_s).toBeGreaterThan(median.found.velocity_m_per_s);
    const alone = verifyTasks('d001', brief, mixed, { ...asked, spread: false });
    expect(alone.tasks).toHaveLength(2);
  });

  it('leaves out what is beyond the solver, at both ends, and says what it answers for', () => {
    const asked = { ...choice, velocities_m_per_s: [1, 9, 0.001] };
    const { tasks, refused } = verifyTasks('d001', brief, holes, asked);
    expect(tasks).toHaveLength(1);
    expect(refused[0]).toMatch(/above 1320.*nearest velocity it answers for is 3\.\d\d m\/s/);
    expect(refused[1]).toMatch(/below 7.*nearest velocity it answers for is 0\.03 m\/s/);
    const nearest = refused.map((text) => Number(/is ([\d.]+) m\/s \(/.exec(text)?.[1]));
    expect(
      verifyTasks('d001', brief, holes, { ...choice, velocities_m_per_s: nearest }).refused,
    ).toEqual([]);
  });
});

describe('solvedBefore()', () => {
  const [task] = verifyTasks('d001', brief, holes, choice).tasks;
  const known = aComputedFlow({
    ...task.found,
    digest: plateDigest(brief, holes),
    cells: 12,
    channels: 16,
  });

  it('finds the same flow on the same grid', () => {
    expect(solvedBefore(task, [aComputedFlow(), known])).toBe(known);
  });

  it.each([
    ['on another grid', { ...known, cells: 15 }],
    ['of another solver', { ...known, solver: 99 }],
    ['of another plate', { ...known, digest: 'b'.repeat(64) }],
    ['at another velocity', { ...known, velocity_m_per_s: 1.01 * known.velocity_m_per_s }],
  ])('passes over a flow %s', (_what, entry) => {
    expect(solvedBefore(task, [entry])).toBeNull();
  });

  it('tells plates and airs apart', () => {
    const warm = { ...brief, air: { ...brief.air, temperature_C: 40 } };
    expect(plateDigest(warm, holes)).not.toBe(plateDigest(brief, holes));
    expect(plateDigest(brief, mixed)).not.toBe(plateDigest(brief, holes));
    expect(plateDigest({ ...brief, name: 'other' }, holes)).toBe(plateDigest(brief, holes));
  });
});
