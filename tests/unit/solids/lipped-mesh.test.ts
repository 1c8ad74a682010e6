import { describe, expect, it } from 'vitest';
import { designFaults } from '../../../src/design/index.ts';
import { meshDesign } from '../../../src/solids/index.ts';
import type { Pocket } from '../../../src/design/index.ts';
import { judge, soupOf } from '../../support/mesh-reader.ts';
import { COURSES, aChannel, aDesign, stoodFour } from './plates.ts';

const LIPPED: Pocket = {
  at: 0.45,
  length_mm: 5,
  depth_mm: 1.5,
  width_deg: 100,
  side_deg: 40,
  lip_mm: 0.8,
};

describe('meshDesign() of pockets with a lip', () => {
  for (const course of ['straight', 'sBend', 'free'] as const) {
    it(`is watertight, of the right genus and volume, ${course}`, async () => {
      const channel = aChannel(15, { pockets: [LIPPED], ...COURSES[course](15) });
      const { mesh, report } = await meshDesign(aDesign([stoodFour(channel, 17)]));
      expect(report.faults).toEqual([]);
      expect(report).toMatchObject({ genus: 4, parts: 1, isClosed: true });
      expect(judge(soupOf(mesh)).volume_mm3).toBeCloseTo(report.volume_mm3, 1);
    });
  }

  it('holds the lip more than without, as plane polar area says', async () => {
    const { lip_mm: _, ...bare } = LIPPED;
    const [plain, lipped] = await Promise.all(
      [bare, LIPPED].map((pocket) => meshDesign(aDesign([aChannel(15, { pockets: [pocket] })]))),
    );
    // Area between R and R - h cos^2: w (R h/2 - 3/16 h^2); over a ridge of height l with flanks of
    // 45 degrees h sums up to l^2 and h^2 to 2/3 l^3.
    const l = 0.8;
    const w = (100 * Math.PI) / 180;
    const solid = w * ((2 * l * l) / 2 - (3 / 16) * (2 / 3) * l * l * l);
    const more = lipped.report.volume_mm3 - plain.report.volume_mm3;
    expect(Math.abs(more / solid - 1)).toBeLessThan(0.08);
  });
});

describe('designFaults() of lips', () => {
  it('wants a lip no higher than its pocket is deep and 0.3 of the bore', () => {
    const faults = (lip_mm: number): string[] =>
      designFaults(aDesign([aChannel(15, { pockets: [{ ...LIPPED, lip_mm }] })])).map(
        ({ message }) => message,
      );
    expect(faults(0.8)).toEqual([]);
    expect(faults(1.3)[0]).toContain('lip_mm is 1.3; it must lie between 0 and 1.2');
  });
});
