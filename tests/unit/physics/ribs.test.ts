import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  blendedFriction,
  gnielinskiNusselt,
  pumpingIndex,
  ribDoubts,
  ribHeightPlus,
  ribLaminarRise,
  ribNusselt,
  ribRoughFriction,
  ribbedFriction,
  ribbedHeat,
} from '../../../src/physics/index.ts';

/** Values of Webb, Eckert & Goldstein 1971 worked out apart from this code (own evaluation, Pr 0.71). */
const TABLE: { tables: { repeated_rib: { rows: number[][] } } } = JSON.parse(
  readFileSync('tests/reference/data/system.json', 'utf8'),
);
const ROWS = TABLE.tables.repeated_rib.rows.map(
  ([Re, height, pitch, f, plus, Nu, rise, heat, eta]) => ({
    Re,
    height,
    pitch,
    f,
    plus,
    Nu,
    rise,
    heat,
    eta,
  }),
);
const Pr = 0.71;

describe('the correlation for repeated ribs', () => {
  it.each(ROWS)(
    'gives friction, e+ and Nusselt number at Re $Re, e/D $height, p/e $pitch',
    (row) => {
      const ribs = { height: row.height, pitch: row.pitch };
      expect(ribRoughFriction(ribs) / row.f).toBeCloseTo(1, 6);
      expect(ribHeightPlus(row.Re, ribs) / row.plus).toBeCloseTo(1, 6);
      expect(ribNusselt(row.Re, Pr, ribs) / row.Nu).toBeCloseTo(1, 6);
      expect(ribbedHeat(row.Re, Pr, ribs) / row.heat).toBeCloseTo(1, 6);
    },
  );

  it.each(ROWS)('is met to 2 % by the friction of a channel at Re $Re, p/e $pitch', (row) => {
    const ribs = { height: row.height, pitch: row.pitch };
    const f = ribbedFriction(row.Re, ribs, 64, 0) * blendedFriction(row.Re, 0, 64);
    expect(Math.abs(f / row.f - 1)).toBeLessThan(0.02);
    const eta = pumpingIndex(ribbedHeat(row.Re, Pr, ribs), ribbedFriction(row.Re, ribs, 64, 0));
    // The table divides by Petukhov's smooth friction, here it is Haaland's: 1 % in the cube root.
    expect(Math.abs(eta / row.eta - 1)).toBeLessThan(0.01);
  });
});

const REYNOLDS = [300, 1500, 2300, 2400, 3000, 3999, 4001, 6000, 9000, 20000, 60000];

describe('ribs at any flow', () => {
  it('vanish with their height', () => {
    for (const Re of REYNOLDS) {
      for (const pitch of [5, 10, 40, 100]) {
        const ribs = { height: 1e-7, pitch };
        expect(ribbedFriction(Re, ribs, 64, 0.01)).toBeCloseTo(1, 3);
        expect(ribbedHeat(Re, Pr, ribs)).toBeCloseTo(1, 3);
      }
    }
  });

  it('vanish with growing distance', () => {
    for (const Re of REYNOLDS) {
      const ribs = { height: 0.04, pitch: 1e5 };
      expect(ribbedFriction(Re, ribs, 64, 0)).toBeLessThan(1.01);
      expect(ribbedHeat(Re, Pr, ribs)).toBeLessThan(1.01);
    }
  });

  it('never lower the friction, and raise it the more the higher they are', () => {
    for (const Re of REYNOLDS) {
      let before = 1;
      for (let height = 0.002; height <= 0.2; height += 0.002) {
        const rise = ribbedFriction(Re, { height, pitch: 12 }, 64, 0.005);
        expect(rise).toBeGreaterThanOrEqual(before - 1e-9);
        before = rise;
      }
    }
  });

  it('go over from laminar to turbulent without a jump', () => {
    for (const height of [0.02, 0.04, 0.1]) {
      const ribs = { height, pitch: 15 };
      for (let Re = 1000; Re < 30_000; Re *= 1.002) {
        const next = Re * 1.002;
        const friction = ribbedFriction(next, ribs, 64, 0) / ribbedFriction(Re, ribs, 64, 0);
        const heat = ribbedHeat(next, Pr, ribs) / ribbedHeat(Re, Pr, ribs);
        expect(Math.abs(friction - 1)).toBeLessThan(0.02);
        expect(Math.abs(heat - 1)).toBeLessThan(0.02);
      }
    }
  });

  it('gain nothing in laminar flow, and cost friction', () => {
    const ribs = { height: 0.05, pitch: 10 };
    expect(ribbedHeat(2000, Pr, ribs)).toBe(1);
    expect(ribbedFriction(2000, ribs, 64, 0)).toBe(ribLaminarRise(ribs));
    expect(pumpingIndex(1, ribLaminarRise(ribs))).toBeLessThan(1);
  });

  it('stay at an index of 1.2 below the rough range, and gain no more beyond the tests', () => {
    const low = { height: 0.012, pitch: 20 };
    expect(ribHeightPlus(6000, low)).toBeLessThan(25);
    const index = pumpingIndex(ribbedHeat(6000, Pr, low), ribbedFriction(6000, low, 64, 0));
    expect(index).toBeGreaterThan(1);
    expect(index).toBeLessThanOrEqual(1.2 + 1e-9);
    const high = ribbedHeat(10_000, Pr, { height: 0.15, pitch: 12 });
    expect(high).toBeCloseTo(ribbedHeat(10_000, Pr, { height: 0.04, pitch: 12 }), 9);
  });

  it('credit no more at equal pumping power below Re 10000 than there', () => {
    // A search found an index of 1.69 at Re 5000, where the tests had not gone.
    for (const Re of [4500, 5060, 6000, 8000, 9900]) {
      for (const pitch of [10, 12, 20]) {
        const ribs = { height: 0.04, pitch };
        const index = (at: number): number =>
          pumpingIndex(ribbedHeat(at, Pr, ribs), ribbedFriction(at, ribs, 64, 0));
        expect(index(Re)).toBeLessThanOrEqual(index(10_000) + 1e-9);
      }
    }
  });

  it('raise heat transfer by less than the analogy of heat and momentum allows', () => {
    // Nu/Nu0 <= f/f0: form drag of ribs moves no heat.
    for (const { Re, height, pitch } of ROWS) {
      const ribs = { height, pitch };
      expect(ribbedHeat(Re, Pr, ribs)).toBeLessThan(ribbedFriction(Re, ribs, 64, 0));
      expect(ribNusselt(Re, Pr, ribs)).toBeGreaterThan(gnielinskiNusselt(Re, Pr));
    }
  });

  it('say in words where they leave the tests', () => {
    expect(ribDoubts(10_000, { height: 0.04, pitch: 10 })).toEqual([]);
    expect(ribDoubts(1000, { height: 0.04, pitch: 10 }).join()).toContain('laminar');
    expect(ribDoubts(3000, { height: 0.01, pitch: 30 }).join()).toContain('below 35');
    expect(ribDoubts(20_000, { height: 0.1, pitch: 6 })).toHaveLength(2);
  });
});
