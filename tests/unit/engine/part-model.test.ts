import { describe, expect, it } from 'vitest';
import { designFlow_m3_per_h, modelPart, shadeBody } from '../../../src/engine/index.ts';
import type { Design, ShadeKind } from '../../../src/engine/index.ts';
import { smallBrief } from '../../support/small-brief.ts';
import { POCKET, aChannel, aDesign, stoodFour } from '../solids/plates.ts';

const brief = smallBrief();
const STRAIGHT = aDesign([stoodFour(aChannel(15), 17)]);
/** 30 degrees from plumb. */
const LEAN = 15 * Math.tan(Math.PI / 6);
const LEANING = aDesign([
  aChannel(15, {
    points_mm: [
      [-LEAN / 2, 0, 0],
      [LEAN / 2, 0, 15],
    ],
    inletDirection: null,
    outletDirection: null,
  }),
]);

async function values(design: Design, body: 'part' | 'air', shade: ShadeKind): Promise<number[]> {
  const model = await modelPart('test', design);
  const shown = model[body];
  if (shown === null) throw new Error('no air');
  const all = shadeBody(brief, design, body, shown.corners, shade);
  expect(all.length).toBe(shown.corners.length / 9);
  return [...all].filter((value) => !Number.isNaN(value));
}

describe('shadeBody()', () => {
  it('shows the mean velocity: flow over section (continuity)', async () => {
    const area_m2 = 4 * Math.PI * 0.002 ** 2;
    const expected = designFlow_m3_per_h(brief) / 3600 / area_m2;
    for (const body of ['part', 'air'] as const) {
      const found = await values(STRAIGHT, body, 'velocity');
      expect(found.length).toBeGreaterThan(100);
      for (const value of found) expect(value / expected).toBeCloseTo(1, 5);
    }
  });

  it('shows a bore 30 degrees from plumb as hanging by up to 30 degrees, in part and air', async () => {
    for (const body of ['part', 'air'] as const) {
      const found = await values(LEANING, body, 'overhang');
      const most = Math.max(...found);
      // A polygon of 24 sides has its flattest facet within 7.5 degrees around.
      expect(most).toBeLessThan(30.01);
      expect(most).toBeGreaterThan(29.5);
    }
  });

  it('finds nothing that hangs in a plate of plumb bores', async () => {
    expect(await values(STRAIGHT, 'part', 'overhang')).toEqual([]);
    expect(await values(STRAIGHT, 'air', 'overhang')).toEqual([]);
  });

  it('shows the thickness of the plate on its faces, and none for the air', async () => {
    const found = await values(STRAIGHT, 'part', 'thickness');
    expect(found.some((value) => Math.abs(value - 15) < 1e-3)).toBe(true);
    expect(await values(STRAIGHT, 'air', 'thickness')).toEqual([]);
  });

  it('shows dust as shares, another in the pocket than on the bare wall', async () => {
    const pocketed = aDesign([stoodFour(aChannel(15, { pockets: [POCKET] }), 17)]);
    const found = await values(pocketed, 'part', 'dust');
    const kinds = new Set(found.map((value) => value.toPrecision(6)));
    expect(kinds.size).toBe(2);
    for (const value of found) {
      expect(value).toBeGreaterThanOrEqual(0);
      expect(value).toBeLessThanOrEqual(1);
    }
  });
});
