import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  ligamentEfficiency,
  perforatedElastic,
  slotStiffness,
  torsionConstant,
} from '../../../src/physics/index.ts';

interface Tables {
  readonly tables: { readonly constants: { readonly rows: readonly (readonly number[])[] } };
}

const file = new URL('../../reference/data/perforated-elastic.json', import.meta.url);
// The file is ours and its shape is written down in it.
const { tables } = JSON.parse(readFileSync(file, 'utf8')) as Tables;
const { rows } = tables.constants;

describe('perforatedElastic()', () => {
  it('holds every row of the periodic-cell table to 0.1 %', () => {
    expect(rows.length).toBe(8);
    for (const [eta, , , , diagonal, , , triangular, poisson] of rows) {
      expect(perforatedElastic(eta, 'square').modulusRatio / diagonal).toBeCloseTo(1, 3);
      expect(perforatedElastic(eta, 'triangular').modulusRatio / triangular).toBeCloseTo(1, 3);
      expect(perforatedElastic(eta, 'triangular').poisson / poisson).toBeCloseTo(1, 3);
    }
  });

  it('takes the smaller of the two directions of a square lattice', () => {
    for (const [eta, , pitch] of rows) {
      expect(perforatedElastic(eta, 'square').modulusRatio).toBeLessThan(pitch);
    }
  });

  it('rises steadily from nothing to the solid plate', () => {
    for (const pattern of ['square', 'triangular'] as const) {
      let before = -1;
      for (let i = 0; i <= 200; i++) {
        const ratio = perforatedElastic(i / 200, pattern).modulusRatio;
        expect(ratio).toBeGreaterThan(before);
        before = ratio;
      }
      expect(perforatedElastic(0, pattern).modulusRatio).toBe(0);
      expect(before).toBe(1);
      expect(perforatedElastic(1, pattern).poisson).toBeCloseTo(0.3, 12);
    }
  });

  it('ligamentEfficiency() of holes of 7 at a pitch of 10 is 0.3', () => {
    expect(ligamentEfficiency(10, 7)).toBeCloseTo(0.3, 12);
  });
});

describe('slotStiffness()', () => {
  const cell = { width: 3, slat: 1.2, pitch: 19.2, web: 1.2, shift: 0, thickness: 12 };

  it('is the solid plate without slots, however it gets there', () => {
    for (const gone of [{ width: 0 }, { web: 19.2 }]) {
      const stiffness = slotStiffness({ ...cell, ...gone });
      expect(stiffness.along).toBeCloseTo(1, 12);
      expect(stiffness.across).toBeCloseTo(1, 12);
    }
  });

  it('webs in line carry as beams in a row with the slats between', () => {
    // Across: a web 1.2 of 19.2 wide over 3 of 4.2, solid over the rest.
    const compliance = (3 / 4.2) * (19.2 / 1.2) + 1.2 / 4.2;
    expect(slotStiffness(cell).across).toBeCloseTo(1 / compliance, 12);
  });

  it('webs apart twist the slats: a thousandth of the plate, by a sum of its own', () => {
    // Moment 1 per slot enters by one web and leaves by two, each 9.6 - 1.2 = 8.4 mm away, half each.
    const t = 12;
    const j = torsionConstant(1.2, t);
    const modulus = 1000;
    const twist = (0.5 * 8.4) / ((modulus / 2.6) * j);
    const curvature = twist / 4.2 + ((3 / 4.2) * 12) / (modulus * 1.2 * t ** 3);
    const rest = ((1.2 / 4.2) * 12) / (modulus * 19.2 * t ** 3);
    const across = 1 / 19.2 / (curvature + rest) / ((modulus * t ** 3) / 12);
    const found = slotStiffness({ ...cell, shift: 9.6 }).across;
    expect(found).toBeCloseTo(across, 12);
    expect(found).toBeLessThan(0.002);
  });

  it('torsionConstant() of a square and a strip: 0.1406 and 0.333 a b^3 (handbook series)', () => {
    expect(torsionConstant(1, 1)).toBeCloseTo(0.1406, 3);
    expect(torsionConstant(50, 1) / 50).toBeCloseTo(0.3291, 3);
  });
});
