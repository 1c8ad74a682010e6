/** Printing plates with exits in the rim: raster against estimate and geometry. */
import { describe, expect, it } from 'vitest';
import { plenumVolume, sampleDesign } from '../../../src/design/index.ts';
import { estimatePrint, rasterPrint } from '../../../src/print/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { A_RING, aManifold, aSidePlate } from '../../support/side-plates.ts';

const { process } = aBrief();

describe('printing side exits', () => {
  it('needs no support under lying teardrops, and much under lying round bores', () => {
    const sound = rasterPrint(sampleDesign(aSidePlate(8), 64), process);
    expect(sound.supportVolume_mm3).toBe(0);
    expect(sound.newIslands).toBe(0);
    expect(sound.bridge_mm).toBeLessThan(1);
    const wide = aSidePlate(4, { section: { kind: 'round' }, bore_mm: [11] }, {}, { bend_mm: 8 });
    const round = rasterPrint(sampleDesign(wide, 64), process);
    expect(round.overhangArea_mm2).toBeGreaterThan(100);
    expect(round.bridge_mm).toBeGreaterThan(3);
  });

  it('takes the volume of lying tubes out of the layers', () => {
    // A lying tube is cut along its length: without a closed end its layers would stay solid.
    for (const design of [aSidePlate(8), aManifold(10, 5)]) {
      const samples = sampleDesign(design, 64);
      const raster = rasterPrint(samples, process);
      const estimate = estimatePrint(samples, process);
      expect(raster.solidVolume_mm3 / estimate.solidVolume_mm3).toBeCloseTo(1, 2);
      expect(Math.abs(raster.solidVolume_mm3 - estimate.solidVolume_mm3)).toBeLessThan(
        0.05 * (Math.PI * 1600 * samples.plate.thickness_mm - estimate.solidVolume_mm3),
      );
    }
  });

  it('clears the plenum, whose gable supports itself', () => {
    const samples = sampleDesign(aManifold(1, 1), 32);
    const peaked = { ...A_RING, top_mm: 13 };
    const sided = samples.sides ? { ...samples, sides: { ...samples.sides, plenum: peaked } } : samples; // prettier-ignore
    const empty = samples.sides ? { ...samples, sides: { ...samples.sides, plenum: null } } : samples; // prettier-ignore
    const report = rasterPrint(sided, process);
    expect(report.supportVolume_mm3).toBe(0);
    const air = rasterPrint(empty, process).solidVolume_mm3 - report.solidVolume_mm3;
    expect(air / plenumVolume(peaked)).toBeCloseTo(1, 2);
    const flat = rasterPrint(
      samples.sides
        ? { ...samples, sides: { ...samples.sides, plenum: { ...A_RING, top_mm: 7 } } }
        : samples,
      process,
    );
    expect(flat.bridge_mm).toBeGreaterThan(8);
    expect(flat.overhangArea_mm2).toBeGreaterThan(0.9 * Math.PI * (26 * 26 - 14 * 14));
  });

  it.each([0.2, 1, 2, 4])('estimates the bridge over a flat top %s mm wide', (flat_mm) => {
    const top_mm = A_RING.eaves_mm + 0.5 * (12 - flat_mm);
    const samples = sampleDesign({ ...aManifold(), plenum: { ...A_RING, top_mm } }, 32);
    const raster = rasterPrint(samples, process);
    const estimate = estimatePrint(samples, process);
    expect(Math.abs(estimate.bridge_mm - raster.bridge_mm)).toBeLessThan(
      Math.max(1.5, 0.05 * raster.bridge_mm),
    );
    expect(estimate.supportVolume_mm3 > 0).toBe(raster.supportVolume_mm3 > 0);
  });
});
