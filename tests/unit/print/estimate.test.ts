import { describe, expect, it } from 'vitest';

import { depositRate, estimatePrint, pocketVolume, rasterPrint } from '../../../src/print/index.ts';
import { quickAcos } from '../../../src/print/section-roof.ts';
import type { Channel } from '../../../src/design/index.ts';
import { PROCESS, aChannelOf, aPlateFor, lattice, samplesOf } from '../../support/printed-plate.ts';

const THICK = 20;
const STRAIGHT: [number, number, number][] = [
  [0, 0, 0],
  [0, 0, THICK],
];
const radians = (angle_deg: number): number => (angle_deg * Math.PI) / 180;

describe('estimatePrint()', () => {
  it('has the exact volume and contours of straight upright holes', () => {
    const report = estimatePrint(
      samplesOf(aPlateFor(), [aChannelOf(STRAIGHT, 5, { placements: lattice(3, 10) })]),
      PROCESS,
    );
    const solid = 40 * 40 * THICK - 9 * Math.PI * 2.5 * 2.5 * THICK;
    expect(report.solidVolume_mm3).toBeCloseTo(solid, 6);
    expect(report.contoursPerLayer).toBeCloseTo(10, 9);
    expect(report.overhangArea_mm2).toBe(0);
    expect(report.bridge_mm).toBe(0);
    expect(report.supportVolume_mm3).toBe(0);
    expect(report.layers).toBe(100);
    expect(report.finestFeature_mm).toBeCloseTo(4.8, 9);
    // Layer time by hand: 1423.3 mm2 * 0.2 mm at 4.8 mm3/s, nine hops with a travel of
    // 0.7124 sqrt(9 * 1600 mm2) at 150 mm/s and 0.3 s each, 2 s of layer change.
    const layer_s = ((solid / THICK) * 0.2) / 4.8 + (0.7124 * 120) / 150 + 9 * 0.3 + 2;
    expect(report.printTime_h).toBeCloseTo((100 * layer_s) / 3600, 9);
    expect(report.cost).toBeCloseTo(
      ((solid * 1.24e-3) / 1000) * 25 + ((100 * layer_s) / 3600) * 3,
      9,
    );
  });

  it('takes the least layer time where a layer is quicker', () => {
    const report = estimatePrint(
      samplesOf(
        aPlateFor({
          outline: { kind: 'rectangle', width_mm: 10, height_mm: 10, cornerRadius_mm: 0 },
        }),
        [],
      ),
      PROCESS,
    );
    // 20 mm3 per layer take 4.2 s, so 6 s rule; 2 s of layer change besides.
    expect(report.printTime_h).toBeCloseTo((100 * 8) / 3600, 9);
  });

  it('finds the roof of a lying round bore and none in a teardrop', () => {
    const plate = aPlateFor({ build: 'edge' });
    const round = estimatePrint(samplesOf(plate, [aChannelOf(STRAIGHT, 6)]), PROCESS);
    // Arc beyond 46 degrees from the vertical: 2 R (90 - 46) degrees.
    expect(round.overhangArea_mm2).toBeCloseTo(2 * 3 * radians(44) * THICK, 1);
    const drop = aChannelOf(STRAIGHT, 6, { section: { kind: 'teardrop' } });
    expect(estimatePrint(samplesOf(plate, [drop]), PROCESS).overhangArea_mm2).toBe(0);
  });

  it('bridges a flat roof of 8 mm and supports one of 30 mm', () => {
    const plate = aPlateFor({ build: 'edge' });
    const square = aChannelOf(STRAIGHT, 8, { section: { kind: 'polygon', sides: 4 } });
    const short = estimatePrint(samplesOf(plate, [square]), PROCESS);
    expect(short.bridge_mm).toBeCloseTo(8, 6);
    expect(short.overhangArea_mm2).toBeCloseTo(8 * THICK, 6);
    expect(short.supportVolume_mm3).toBe(0);
    const slot = aChannelOf(STRAIGHT, 2, { section: { kind: 'slot', aspect: 15 } });
    const long = estimatePrint(samplesOf(plate, [slot]), PROCESS);
    expect(long.bridge_mm).toBeGreaterThan(28);
    expect(long.supportVolume_mm3).toBeGreaterThan(0.8 * 28 * 2 * THICK);
    expect(long.supportVolume_mm3).toBeLessThan(1.2 * 30 * 2 * THICK);
  });

  it('counts a bore that narrows upwards as leaning in', () => {
    // From 14 to 2 mm over 4 mm: the wall leans 56 degrees from the vertical.
    const cone = (bore_mm: number[]): Channel =>
      aChannelOf(
        [
          [0, 0, 0],
          [0, 0, 4],
        ],
        1,
        { bore_mm },
      );
    const plate = aPlateFor({ thickness_mm: 4 });
    const closing = estimatePrint(samplesOf(plate, [cone([14, 2])]), PROCESS);
    const opening = estimatePrint(samplesOf(plate, [cone([2, 14])]), PROCESS);
    expect(closing.overhangArea_mm2).toBeGreaterThan(0);
    expect(opening.overhangArea_mm2).toBe(0);
    expect(
      rasterPrint(samplesOf(plate, [cone([14, 2])]), PROCESS).overhangArea_mm2,
    ).toBeGreaterThan(0);
    expect(rasterPrint(samplesOf(plate, [cone([2, 14])]), PROCESS).overhangArea_mm2).toBe(0);
  });

  it('adds what a pocket carves, as the raster does', () => {
    const pocket = { at: 0.5, length_mm: 8, depth_mm: 2.5, width_deg: 120, side_deg: 0 };
    const plain = aChannelOf(STRAIGHT, 5);
    const pocketed = aChannelOf(STRAIGHT, 5, { pockets: [pocket] });
    const carved = (form: typeof estimatePrint): number =>
      form(samplesOf(aPlateFor(), [plain], 96), PROCESS).solidVolume_mm3 -
      form(samplesOf(aPlateFor(), [pocketed], 96), PROCESS).solidVolume_mm3;
    expect(carved(estimatePrint)).toBeCloseTo(pocketVolume(pocket, 2.5), 6);
    // Integrated by brute force: r dr over the bulge, at 1e-3 of the mouth.
    let sum = 0;
    for (let i = 0; i < 1000; i++) {
      const along = Math.min(2.5, 4 - Math.abs((i + 0.5) / 125 - 4));
      for (let j = 0; j < 100; j++) {
        const share = Math.cos(Math.PI * ((j + 0.5) / 100 - 0.5));
        const depth = along * share * share;
        sum += (2.5 * depth + (depth * depth) / 2) * (8 / 1000) * (radians(120) / 100);
      }
    }
    expect(pocketVolume(pocket, 2.5)).toBeCloseTo(sum, 2);
    expect(Math.abs(carved(rasterPrint) / sum - 1)).toBeLessThan(0.05);
    // Its ramps rise at 45 degrees: an upright channel's pocket prints.
    const upright = samplesOf(aPlateFor(), [pocketed], 96);
    expect(estimatePrint(upright, PROCESS).overhangArea_mm2).toBe(0);
    expect(rasterPrint(upright, PROCESS).supportVolume_mm3).toBe(0);
  });

  it('sees a second foot of a plate on edge as an island', () => {
    const plate = aPlateFor({
      build: 'edge',
      outline: {
        kind: 'polygon',
        points_mm: [
          [-20, -20],
          [-5, -20],
          [0, 0],
          [5, -15],
          [20, -15],
          [20, 20],
          [-20, 20],
        ],
      },
    });
    const samples = samplesOf(plate, []);
    expect(rasterPrint(samples, PROCESS).newIslands).toBe(1);
    expect(estimatePrint(samples, PROCESS).newIslands).toBe(1);
  });

  it('agrees with the raster on mass, time and contours of bent channels', () => {
    const bent = aChannelOf(
      [
        [0, 0, 0],
        [2, 1, 6],
        [-2, -1, 13],
        [0.5, 0, THICK],
      ],
      4,
      { placements: lattice(4, 9) },
    );
    const samples = samplesOf(aPlateFor(), [bent]);
    const fast = estimatePrint(samples, PROCESS);
    const exact = rasterPrint(samples, PROCESS);
    expect(Math.abs(fast.mass_g / exact.mass_g - 1)).toBeLessThan(0.01);
    expect(Math.abs(fast.printTime_h / exact.printTime_h - 1)).toBeLessThan(0.01);
    expect(Math.abs(fast.contoursPerLayer - exact.contoursPerLayer)).toBeLessThan(0.5);
    expect(Math.abs(fast.weakestSection - exact.weakestSection)).toBeLessThan(0.05);
  });
});

describe('quickAcos()', () => {
  it('stays within 7e-5 of acos', () => {
    for (let x = 0; x <= 1; x += 1 / 512) {
      expect(Math.abs(quickAcos(x) - Math.acos(x))).toBeLessThan(7e-5);
    }
  });
});

describe('depositRate()', () => {
  it('is capped by what the nozzle melts', () => {
    expect(depositRate(PROCESS)).toBeCloseTo(0.4 * 0.2 * 60, 12);
    expect(depositRate({ ...PROCESS, printSpeed_mm_per_s: 500 })).toBe(12);
  });
});
