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

/** Own plate finite elements, see the script beside the file. */
const slotFile = new URL('../../reference/data/slot-stiffness.json', import.meta.url);
const slots = JSON.parse(readFileSync(slotFile, 'utf8')) as {
  readonly rows: readonly (readonly number[])[];
};

/** Own plane finite elements, see the script beside the file. */
const layerFile = new URL('../../reference/data/slot-layer.json', import.meta.url);
const layer = JSON.parse(readFileSync(layerFile, 'utf8')) as {
  readonly rows: readonly (readonly number[])[];
};

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

  it('is the solid plate where the web is the pitch', () => {
    const stiffness = slotStiffness({ ...cell, web: 19.2 });
    expect(stiffness.along).toBeCloseTo(1, 12);
    expect(stiffness.across).toBeCloseTo(1, 12);
  });

  it('along: slats alone beside the slots, all of it beside the webs, one after the other', () => {
    // 18 of 19.2 mm at 1.2 / 4.2 of the plate, 1.2 mm at all of it.
    const compliance = (18 * (4.2 / 1.2) + 1.2) / 19.2;
    expect(slotStiffness(cell).along).toBeCloseTo(1 / compliance, 12);
  });

  it('across, thin plates: 10 % below to 3 % above plate finite elements', () => {
    expect(slots.rows.length).toBe(8);
    for (const [width, slat, pitch, web, shift, across] of slots.rows) {
      const found = slotStiffness({ width, slat, pitch, web, shift, thickness: 0.02 }).across;
      expect(found / across).toBeGreaterThan(0.89);
      expect(found / across).toBeLessThan(1.04);
    }
  });

  it('webs apart twist the slats of a plate no thicker than they are: torsion alone, but for little', () => {
    // Moment 1 per slot enters by one web and leaves by two, each 9.6 - 1.2 = 8.4 mm away, half each.
    const t = 0.6;
    const j = torsionConstant(1.2, t);
    const twist = (0.5 * 8.4) / ((1 / 2.6) * j);
    const alone = (1 / 19.2 / (twist / 4.2)) * (12 / t ** 3);
    const brick = slotStiffness({ ...cell, shift: 9.6, thickness: t }).across;
    // What is left is that of slats and webs alone, and at most of a row of cracks besides.
    const left = 1 / brick - 1 / alone;
    const webs = (3 * (19.2 / 1.2) + 1.2) / 4.2;
    const cracks = ((4 / Math.PI) * 19.2 * -Math.log(Math.sin((0.5 * Math.PI * 1.2) / 19.2))) / 4.2;
    expect(left).toBeGreaterThan(webs);
    expect(left).toBeLessThan(webs + cracks);
  });

  it('thick plates: as plane finite elements of a layer, along within 8 %, across 27 % below to 15 % above', () => {
    expect(layer.rows.length).toBe(7);
    for (const [width, slat, pitch, web, shift, along, across] of layer.rows) {
      const found = slotStiffness({ width, slat, pitch, web, shift, thickness: 2000 });
      expect(Math.abs(found.along / along - 1)).toBeLessThan(0.08);
      expect(found.across / across).toBeGreaterThan(0.73);
      expect(found.across / across).toBeLessThan(1.15);
    }
  });

  it('torsionConstant() of a square and a strip: 0.1406 and 0.333 a b^3 (handbook series)', () => {
    expect(torsionConstant(1, 1)).toBeCloseTo(0.1406, 3);
    expect(torsionConstant(50, 1) / 50).toBeCloseTo(0.3291, 3);
  });
});
