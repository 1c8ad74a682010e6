import { describe, expect, it } from 'vitest';
import { estimatePrint, rasterPrint } from '../../../src/print/index.ts';
import { PROCESS, aChannelOf, aPlateFor, samplesOf } from '../../support/printed-plate.ts';

const THICK = 20;

function toothed(angle_deg: number, teeth: boolean) {
  const dx = (THICK * Math.tan((angle_deg * Math.PI) / 180)) / 2;
  const lean: [number, number, number] = [
    Math.sin((angle_deg * Math.PI) / 180),
    0,
    Math.cos((angle_deg * Math.PI) / 180),
  ];
  return samplesOf(aPlateFor(), [
    aChannelOf(
      [
        [-dx, 0, 0],
        [dx, 0, THICK],
      ],
      8,
      {
        inletDirection: lean,
        outletDirection: lean,
        ...(teeth ? { teeth: { height_mm: 0.8, pitch_mm: 4 } } : {}),
      },
    ),
  ]);
}

describe('printing stirring teeth', () => {
  for (const angle of [0, 15, 30]) {
    it(`needs no support and hangs nowhere in a channel leaning ${angle} degrees`, () => {
      const report = rasterPrint(toothed(angle, true), PROCESS);
      expect(report.supportArea_mm2).toBe(0);
      expect(report.newIslands).toBe(0);
      expect(report.overhangArea_mm2).toBe(0);
    });
  }

  for (const aside of [2, 4, 5.5]) {
    it(`hangs nowhere in a channel that sways ${2 * aside} mm aside between upright ends`, () => {
      const swaying = (teeth: object) =>
        rasterPrint(
          samplesOf(aPlateFor(), [
            aChannelOf(
              [
                [0, -aside, 0],
                [0, aside, THICK],
              ],
              6,
              teeth,
            ),
          ]),
          PROCESS,
        );
      const report = swaying({ teeth: { height_mm: 0.4, pitch_mm: 4 } });
      expect(report.supportArea_mm2).toBe(0);
      expect(report.overhangArea_mm2).toBe(0);
      expect(report.solidVolume_mm3).toBeGreaterThan(swaying({}).solidVolume_mm3);
    });
  }

  it('carries the teeth: more solid than the plain plate, raster and estimate alike', () => {
    const more = [rasterPrint, estimatePrint].map(
      (form) =>
        form(toothed(0, true), PROCESS).solidVolume_mm3 -
        form(toothed(0, false), PROCESS).solidVolume_mm3,
    );
    // Pappus: four rings, 0.8 mm high, foot 1.25 times as long, in a bore of 8 mm. The raster cuts
    // flanks into pixels of 0.2 mm: 10 %.
    const rings = 4 * 0.5 * 0.8 * 1.25 * 0.8 * 2 * Math.PI * (4 - 0.8 / 3);
    expect(Math.abs(more[1] / rings - 1)).toBeLessThan(1e-6);
    expect(Math.abs(more[0] / rings - 1)).toBeLessThan(0.1);
  });

  it('takes the tips as the finest opening, in both forms', () => {
    const tips = 8 - 2 * 0.8 - PROCESS.holeShrinkage_mm;
    expect(rasterPrint(toothed(0, true), PROCESS).finestFeature_mm).toBeCloseTo(tips, 9);
    expect(estimatePrint(toothed(0, true), PROCESS).finestFeature_mm).toBeCloseTo(tips, 9);
  });
});

describe('printing the lip of a pocket', () => {
  it('hangs nowhere in an upright channel and needs no support', () => {
    const pocket = { at: 0.5, length_mm: 8, depth_mm: 2, width_deg: 130, side_deg: 0, lip_mm: 1.2 };
    const up: [number, number, number][] = [
      [0, 0, 0],
      [0, 0, THICK],
    ];
    const [plain, lipped] = [{ ...pocket, lip_mm: undefined }, pocket].map((each) =>
      rasterPrint(samplesOf(aPlateFor(), [aChannelOf(up, 8, { pockets: [each] })]), PROCESS),
    );
    expect(lipped.supportArea_mm2).toBe(0);
    expect(lipped.newIslands).toBe(0);
    expect(lipped.overhangArea_mm2).toBeLessThanOrEqual(plain.overhangArea_mm2 + 1e-9);
    // Plane polar area, see the mesh's test; the raster's pixels of 0.2 mm: 10 %.
    const w = (130 * Math.PI) / 180;
    const solid = w * ((4 * 1.44) / 2 - 0.125 * 1.728);
    const more = lipped.solidVolume_mm3 - plain.solidVolume_mm3;
    expect(Math.abs(more / solid - 1)).toBeLessThan(0.1);
    expect(lipped.finestFeature_mm).toBeLessThan(plain.finestFeature_mm);
  });
});
