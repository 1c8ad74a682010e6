import { describe, expect, it } from 'vitest';

import { createLayerTable, estimatePrint, rasterPrint } from '../../../src/print/index.ts';
import { PROCESS, aChannelOf, aPlateFor, lattice, samplesOf } from '../../support/printed-plate.ts';

const THICK = 20;
const STRAIGHT: [number, number, number][] = [
  [0, 0, 0],
  [0, 0, THICK],
];
const radians = (angle_deg: number): number => (angle_deg * Math.PI) / 180;

/** A slot 2 x 24 mm, its long side along y, leaning by an angle along x. */
function leaningSlot(angle_deg: number) {
  const dx = (THICK * Math.tan(radians(angle_deg))) / 2;
  const lean: [number, number, number] = [
    Math.sin(radians(angle_deg)),
    0,
    Math.cos(radians(angle_deg)),
  ];
  return samplesOf(
    aPlateFor({ outline: { kind: 'rectangle', width_mm: 80, height_mm: 40, cornerRadius_mm: 0 } }),
    [
      aChannelOf(
        [
          [-dx, 0, 0],
          [dx, 0, THICK],
        ],
        2,
        {
          section: { kind: 'slot', aspect: 12 },
          roll_deg: 90,
          inletDirection: lean,
          outletDirection: lean,
        },
      ),
    ],
  );
}

describe('rasterPrint() of a flat plate', () => {
  it('cuts plumb holes once as it cuts the same holes layer by layer', () => {
    const plumb = aChannelOf(STRAIGHT, 5.1, { placements: lattice(3, 10.3) });
    const samples = samplesOf(aPlateFor(), [plumb]);
    const leaning = samplesOf(aPlateFor(), [plumb]);
    // Ripples of a picometre or two move no pixel but keep the wall from counting as plumb.
    for (let i = 0; i < leaning.stations; i++) leaning.point_mm[3 * i] += 1e-9 * (i % 3);
    const tables = [samples, leaning].map((each) => {
      const table = createLayerTable(each, PROCESS);
      const { overhangArea_mm2: _, ...report } = rasterPrint(each, PROCESS, table);
      return { table, report };
    });
    expect(tables[0]).toEqual(tables[1]);
    // Nine holes in each layer: pixels of 0.2 mm count a disc of 5.1 mm within 2 %.
    const full_mm2 = rasterPrint(samplesOf(aPlateFor(), []), PROCESS).bedArea_mm2;
    const void_mm2 = (9 * Math.PI * 5.1 * 5.1) / 4;
    for (const area_mm2 of tables[0].table.area_mm2) {
      expect(Math.abs((full_mm2 - area_mm2) / void_mm2 - 1)).toBeLessThan(0.02);
    }
  });

  it('finds nothing hanging over in straight upright holes', () => {
    const report = rasterPrint(
      samplesOf(aPlateFor(), [aChannelOf(STRAIGHT, 5, { placements: lattice(3, 10.3) })]),
      PROCESS,
    );
    expect(report.overhangArea_mm2).toBe(0);
    expect(report.bridge_mm).toBe(0);
    expect(report.supportVolume_mm3).toBe(0);
    expect(report.newIslands).toBe(0);
    // One outer contour and nine holes.
    expect(report.contoursPerLayer).toBe(10);
    // Plane geometry: block less nine cylinders. Pixel counts of nine discs of 491 px scatter by
    // about 0.5 % of the discs (Gauss circle problem), 0.06 % of the block.
    const exact = 40 * 40 * THICK - 9 * Math.PI * 2.5 * 2.5 * THICK;
    expect(Math.abs(report.solidVolume_mm3 / exact - 1)).toBeLessThan(0.002);
    // Density 1.24 g/cm3.
    expect(report.mass_g).toBeCloseTo(report.solidVolume_mm3 * 1.24e-3, 9);
  });

  it('has the volume of Pappus for a bent tube', () => {
    // Quarter ring leading down and back up would leave the plate; a gentle S keeps the centroid on
    // the centreline, so void = area * arc length (Pappus-Guldin), cut at the faces at right angles.
    const samples = samplesOf(
      aPlateFor(),
      [
        aChannelOf(
          [
            [0, 0, 0],
            [3, 1, 6],
            [-3, -1, 14],
            [0, 0, THICK],
          ],
          5,
        ),
      ],
      64,
    );
    const report = rasterPrint(samples, PROCESS);
    const tube = Math.PI * 2.5 * 2.5 * samples.length_mm[0];
    const gone = 40 * 40 * THICK - report.solidVolume_mm3;
    expect(Math.abs(gone / tube - 1)).toBeLessThan(0.01);
  });

  it.each([30, 40, 45])('lets a wall leaning %s degrees print', (angle_deg) => {
    const report = rasterPrint(leaningSlot(angle_deg), PROCESS);
    expect(report.overhangArea_mm2).toBe(0);
    expect(report.supportArea_mm2).toBe(0);
    expect(report.bridge_mm).toBe(0);
  });

  it('wants support for a long slot leaning 60 degrees', () => {
    const report = rasterPrint(leaningSlot(60), PROCESS);
    // The slot's flat upper wall: 22 mm wide, 20 / cos 60 long; its round ends add up to 2 mm.
    expect(report.overhangArea_mm2).toBeGreaterThan(22 * 40);
    expect(report.overhangArea_mm2).toBeLessThan(24 * 40);
    // Under that wall, 34.6 mm long in plan, the slot is 2 / sin 60 = 2.31 mm high.
    const under = 22 * 34.64 * 2.31;
    expect(report.supportVolume_mm3).toBeGreaterThan(0.6 * under);
    expect(report.supportVolume_mm3).toBeLessThan(1.05 * under);
    // Over two layers the wall steps 0.693 mm and may step 0.4: 22 mm by 0.293 mm in each layer.
    expect(report.supportArea_mm2).toBeGreaterThan(0.7 * 22 * 0.293 * 100);
    expect(report.supportArea_mm2).toBeLessThan(1.3 * 22 * 0.293 * 100);
    // Each column ends on the slot's floor below, but those in front of the port stand on the bed.
    const bed = (2 / Math.cos(Math.PI / 3) / 34.64) * report.supportArea_mm2;
    expect(report.supportFooting_mm2).toBeLessThanOrEqual(report.supportArea_mm2);
    expect(report.supportFooting_mm2).toBeGreaterThan(report.supportArea_mm2 - 1.2 * bed);
    expect(report.supportFooting_mm2).toBeLessThan(report.supportArea_mm2 - 0.8 * bed);
  });

  it('keeps the void where two channels overlap', () => {
    const plate = aPlateFor();
    const one = rasterPrint(samplesOf(plate, [aChannelOf(STRAIGHT, 6)]), PROCESS);
    const twice = rasterPrint(
      samplesOf(plate, [aChannelOf(STRAIGHT, 6), aChannelOf(STRAIGHT, 6)]),
      PROCESS,
    );
    expect(twice.solidVolume_mm3).toBe(one.solidVolume_mm3);
    const apart = rasterPrint(
      samplesOf(plate, [
        aChannelOf(STRAIGHT, 6, {
          placements: [
            { x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false },
            { x_mm: 3, y_mm: 0, turn_deg: 0, mirrored: false },
          ],
        }),
      ]),
      PROCESS,
    );
    // Two circles of radius R, middles R apart: union 2 pi R^2 - R^2 (2 pi / 3 - sqrt 3 / 2).
    const union = 9 * (2 * Math.PI - (2 * Math.PI) / 3 + Math.sqrt(3) / 2) * THICK;
    const gone = 40 * 40 * THICK - apart.solidVolume_mm3;
    expect(Math.abs(gone / union - 1)).toBeLessThan(0.01);
  });

  it('counts the same when the plate is turned by 90 degrees', () => {
    const points: [number, number, number][] = [
      [0, 0, 0],
      [5, 1, 7],
      [-4, 0, 13],
      [0, 2, THICK],
    ];
    const report = [0, 90].map((turn_deg) =>
      rasterPrint(
        samplesOf(aPlateFor(), [
          aChannelOf(points, 4, { placements: [{ x_mm: 0, y_mm: 0, turn_deg, mirrored: false }] }),
        ]),
        PROCESS,
      ),
    );
    expect(report[1].contoursPerLayer).toBeCloseTo(report[0].contoursPerLayer, 12);
    expect(report[1].newIslands).toBe(report[0].newIslands);
    expect(report[1].overhangArea_mm2).toBeCloseTo(report[0].overhangArea_mm2, 6);
    expect(Math.abs(report[1].bridge_mm - report[0].bridge_mm)).toBeLessThan(0.41);
    expect(report[1].solidVolume_mm3).toBeCloseTo(report[0].solidVolume_mm3, -1);
  });

  it('sees the weakest plane of a row of holes', () => {
    // Four bores of 6 mm in a row 40 mm long leave 16 of 40 mm in the plane through their middles.
    const placements = [-15, -5, 5, 15].map((x_mm) => ({
      x_mm,
      y_mm: 0.1,
      turn_deg: 0,
      mirrored: false,
    }));
    const samples = samplesOf(aPlateFor(), [aChannelOf(STRAIGHT, 6, { placements })]);
    expect(rasterPrint(samples, PROCESS).weakestSection).toBeCloseTo(16 / 40, 1);
    expect(estimatePrint(samples, PROCESS).weakestSection).toBeCloseTo(16 / 40, 1);
  });

  it('finds an island that begins in the air', () => {
    // Four arches of slots, one on each side, leave a block hanging inside: a floor of crossing
    // lying channels cuts its underside, four upright slots its sides.
    const slots = [0, 90].flatMap((turn_deg) =>
      [-6, 6].map((d) => ({
        x_mm: turn_deg === 0 ? d : 0,
        y_mm: turn_deg === 0 ? 0 : d,
        turn_deg,
        mirrored: false,
      })),
    );
    const sides = aChannelOf(
      [
        [0, 0, 0],
        [0, 0, THICK],
      ],
      2,
      { section: { kind: 'slot', aspect: 7 }, roll_deg: 90, placements: slots },
    );
    const floor = aChannelOf(
      [
        [-8, 0, 0],
        [-7, 0, 5],
        [0, 0, 5],
        [7, 0, 5],
        [8, 0, THICK],
      ],
      3,
      { section: { kind: 'slot', aspect: 5 }, roll_deg: 90 },
    );
    const table = createLayerTable(samplesOf(aPlateFor(), [sides, floor]), PROCESS);
    const report = rasterPrint(samplesOf(aPlateFor(), [sides, floor]), PROCESS, table);
    expect(report.newIslands).toBeGreaterThanOrEqual(1);
    const layer = table.newIslands.findIndex((n) => n > 0);
    expect(table.islands[layer]).toBeGreaterThanOrEqual(2);
    // It begins above the lying slot, whose roof is at 5 + 1.5 mm.
    expect(table.height_mm[layer]).toBeGreaterThan(4);
    expect(table.height_mm[layer]).toBeLessThan(9);
    expect(report.smallestIsland_mm2).toBeLessThan(120);
    expect(report.supportVolume_mm3).toBeGreaterThan(0);
  });
});

describe('rasterPrint() of a plate on edge', () => {
  const onEdge = (channel: ReturnType<typeof aChannelOf>) =>
    rasterPrint(samplesOf(aPlateFor({ build: 'edge' }), [channel]), PROCESS);

  it('prints round bores of 6 mm and teardrops unsupported, not round bores of 10 mm', () => {
    // Common practice, no source: lying round bores print to some 6-8 mm.
    const six = onEdge(aChannelOf(STRAIGHT, 6));
    expect(six.supportVolume_mm3).toBe(0);
    // The roof beyond 46 degrees (one degree of slack): R * 2 * 44 degrees of arc.
    expect(Math.abs(six.overhangArea_mm2 / (2 * 3 * radians(45) * THICK) - 1)).toBeLessThan(0.04);
    const ten = onEdge(aChannelOf(STRAIGHT, 10));
    expect(ten.supportVolume_mm3).toBeGreaterThan(0);
    const drop = onEdge(aChannelOf(STRAIGHT, 10, { section: { kind: 'teardrop' } }));
    expect(drop.overhangArea_mm2).toBe(0);
    expect(drop.supportVolume_mm3).toBe(0);
    expect(drop.bridge_mm).toBeLessThanOrEqual(0.4);
  });

  it('bridges a flat roof of 8 mm and not one of 30 mm', () => {
    const square = { kind: 'polygon', sides: 4 } as const;
    const short = onEdge(aChannelOf(STRAIGHT, 8, { section: square }));
    // The step each side may overhang by 0.2 mm; one pixel at each end.
    expect(short.bridge_mm).toBeGreaterThan(8 - 0.4 - 0.41);
    expect(short.bridge_mm).toBeLessThanOrEqual(8);
    expect(short.supportVolume_mm3).toBe(0);
    expect(short.overhangArea_mm2).toBeCloseTo(8 * THICK, 6);
    const long = onEdge(aChannelOf(STRAIGHT, 2, { section: { kind: 'slot', aspect: 15 } }));
    expect(long.bridge_mm).toBeGreaterThan(28 - 1);
    expect(long.bridge_mm).toBeLessThan(30);
    // From the roof, at least its flat 28 mm, down to the floor 2 mm below.
    expect(long.supportVolume_mm3).toBeGreaterThan(0.95 * 28 * 2 * THICK);
    expect(long.supportVolume_mm3).toBeLessThan(30 * 2.2 * THICK);
  });

  it('stands a round plate on a line', () => {
    const report = rasterPrint(
      samplesOf(aPlateFor({ build: 'edge', outline: { kind: 'round', diameter_mm: 80 } }), []),
      PROCESS,
    );
    // Chord of the first layer's middle, 0.1 mm above the lowest point: 2 sqrt(2 R h).
    expect(Math.abs(report.bedLength_mm - 2 * Math.sqrt(2 * 40 * 0.1))).toBeLessThan(0.41);
    expect(report.supportVolume_mm3).toBeGreaterThan(0);
    // Arc between 45 degrees (46 with slack) either side of the bottom, the first layer's apart.
    const arc = 2 * 40 * radians(44) - 2 * Math.sqrt(2 * 40 * 0.2);
    expect(Math.abs(report.overhangArea_mm2 / (arc * THICK) - 1)).toBeLessThan(0.03);
  });

  it('counts a piece more in layers that a through channel divides', () => {
    const report = onEdge(aChannelOf(STRAIGHT, 8, { section: { kind: 'polygon', sides: 4 } }));
    // 8 of 40 mm of height are cut in two.
    expect(report.contoursPerLayer).toBeCloseTo(1 + 8 / 40, 2);
  });
});
