import { describe, expect, it } from 'vitest';
import { partsOnBed, planBatch } from '../../../src/print/index.ts';
import type { PrintReport } from '../../../src/print/index.ts';
import { aBrief, aPlate } from '../../support/plates.ts';

/** A part of 10 g and 2 h of which one hour is laying; the rest waits for layers to cool. */
const report: PrintReport = {
  form: 'raster',
  layers: 100,
  overhangArea_mm2: 0,
  bridge_mm: 0,
  newIslands: 0,
  contoursPerLayer: 1,
  supportArea_mm2: 0,
  supportFooting_mm2: 0,
  supportVolume_mm3: 0,
  finestFeature_mm: 3,
  smallestIsland_mm2: null,
  weakestSection: 0.5,
  solidVolume_mm3: 3600 * 4.8,
  mass_g: 10,
  travel_mm: 0,
  retractions: 0,
  printTime_h: 2,
  cost: 0,
  bedArea_mm2: 100,
  bedLength_mm: 20,
};
const BATCH = { bedX_mm: 200, bedY_mm: 200, gap_mm: 5, scrapShare: 0, setup_h: 0.5, handling_h: 0 };
const { process, batch } = aBrief({ batch: BATCH });

describe('partsOnBed()', () => {
  it('counts rectangles with their gaps', () => {
    // 80 + 5 + 80 = 165 of 200 mm: two along each side.
    expect(partsOnBed(aPlate(), batch)).toBe(4);
  });

  it('turns the part where more fit that way', () => {
    const outline = {
      kind: 'rectangle',
      width_mm: 60,
      height_mm: 100,
      cornerRadius_mm: 0,
    } as const;
    const bed = { ...batch, bedX_mm: 200, bedY_mm: 130 };
    expect(partsOnBed(aPlate({ outline }), bed)).toBe(3);
  });

  it('stands plates built on edge side by side by their thickness', () => {
    // 20 mm thick: 200 = 8 x 20 + 7 x 5 along one side, two of 80 mm along the other.
    expect(partsOnBed(aPlate({ build: 'edge' }), batch)).toBe(16);
  });

  it('is 0 for a plate beyond the bed or the height', () => {
    expect(partsOnBed(aPlate(), { ...batch, bedX_mm: 79 })).toBe(0);
    expect(partsOnBed(aPlate({ build: 'edge' }), { ...batch, bedZ_mm: 79 })).toBe(0);
  });
});

describe('planBatch()', () => {
  it('charges a single part for its own time and one setting up', () => {
    const plan = planBatch(report, aPlate(), process, batch, 1);
    // 10 g at 25 per kg, 2 h at 3 per h, half an hour at 30 per h: the defaults of the brief.
    expect(plan.costPerPart).toBeCloseTo(0.25 + 6 + 15, 9);
    expect([plan.jobs, plan.machine_h]).toEqual([1, 2]);
  });

  it('shares setting up and cooling among the parts of a job', () => {
    const plan = planBatch(report, aPlate(), process, batch, 100);
    expect([plan.partsPerJob, plan.jobs]).toEqual([4, 25]);
    // Four parts of one hour of laying each and 100 layer changes of 2 s.
    expect(plan.machine_h).toBeCloseTo(25 * (4 + 200 / 3600), 9);
    expect(plan.costPerPart).toBeLessThan(
      planBatch(report, aPlate(), process, batch, 1).costPerPart,
    );
  });

  it('prints the scrap as well and lets machines share the work', () => {
    const worse = { ...batch, scrapShare: 0.2, machines: 5 };
    const plan = planBatch(report, aPlate(), process, worse, 100);
    expect(plan.jobs).toBe(Math.ceil(125 / 4));
    expect(plan.elapsed_h).toBeLessThan(plan.machine_h / 4);
  });

  it('gives no figures for a part that does not fit', () => {
    const plan = planBatch(report, aPlate(), process, { ...batch, bedX_mm: 50 }, 10);
    expect([plan.partsPerJob, plan.costPerPart]).toEqual([0, Number.NaN]);
  });
});
