import { describe, expect, it } from 'vitest';
import {
  END,
  designFaults,
  endOverrun,
  endRise,
  outwards,
  plenumDistance,
  plenumSection,
  plenumVolume,
  sampleDesign,
} from '../../../src/design/index.ts';
import { readDesign, writeDesignFile } from '../../../src/formats/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { aDesign, aPlacement, samplesOf } from '../../support/plates.ts';
import { A_RING, aManifold, aSideBend, aSidePlate } from '../../support/side-plates.ts';

const messages = (design: Parameters<typeof designFaults>[0]): string =>
  designFaults(design)
    .map((fault) => fault.message)
    .join('\n');

describe('side exits', () => {
  it('are sound where the centreline ends on the outline, at every placement', () => {
    expect(designFaults(aSidePlate(7))).toEqual([]);
    expect(designFaults(aManifold())).toEqual([]);
  });

  it('are refused where it ends short of the rim, above the plate, or along the rim', () => {
    const short = aSideBend();
    const points = [...short.points_mm.slice(0, -1), [39, 0, 10]] as const;
    expect(messages(aDesign({ channels: [{ ...short, points_mm: points }] }))).toMatch(
      /points_mm\[12\] is 1 mm inside the outline.*within 0\.01/,
    );
    const shifted = aSideBend({ placements: [aPlacement(), aPlacement({ x_mm: 2 })] });
    expect(messages(aDesign({ channels: [shifted] }))).toMatch(/2 mm outside .*at placement 1/);
    const upwards = aSideBend({ outletDirection: [0, 0, 1] });
    expect(messages(aDesign({ channels: [upwards] }))).toMatch(/lead through the rim/);
  });

  it('open into the plenum only where there is one, on its surface', () => {
    const { plenum: _, ...without } = aManifold();
    expect(messages(without)).toMatch(/plenum is missing/);
    const blind = { ...aManifold(), channels: [aManifold().channels[0]] };
    expect(messages(blind)).toMatch(/no channel leaves/);
    const lower = { ...aManifold(), plenum: { ...A_RING, floor_mm: 1.5 } };
    expect(messages(lower)).toMatch(/0\.5 mm inside the plenum at placement 0/);
    const tall = { ...aManifold(), plenum: { ...A_RING, top_mm: 14 } };
    expect(messages(tall)).toMatch(/plenum\.top_mm is 14.*between 7 and 13/);
  });

  it('leave samples of channels from face to face without side ends', () => {
    expect(samplesOf(aDesign()).sides).toBeNull();
  });

  it('have an axis across their surface, along the air', () => {
    const samples = sampleDesign(aSidePlate(4), 32);
    expect(samples.shapeCount).toBe(4);
    const { kind, axis } = samples.sides ?? { kind: [], axis: [] };
    expect([kind[0], kind[1]]).toEqual([END.face, END.rim]);
    expect(axis[2]).toBe(1);
    // Second placement: turned to +y.
    expect(axis[6 + 3]).toBeCloseTo(0, 12);
    expect(axis[6 + 4]).toBeCloseTo(1, 12);
    for (let m = 0; m < 4; m++) expect(endRise(samples, m, 1)).toBeCloseTo(1, 9);
    // Square to the surface only the margin is left.
    expect(endOverrun(samples, 0, 1, 0.5)).toBeCloseTo(0.5, 6);
    const ring = sampleDesign(aManifold(1, 1), 8);
    // Up through the floor; outwards through the outer wall.
    expect(Array.from(ring.sides?.axis.subarray(3, 9) ?? [], (v) => v + 0)).toEqual([
      0, 0, 1, 1, 0, 0,
    ]);
    expect(endRise(ring, 1, 0)).toBeCloseTo(1, 12);
  });

  it('come back from a design file to the last bit', () => {
    const design = aManifold();
    const brief = aBrief({ 'plate.thickness_mm': 15 });
    const text = writeDesignFile({ name: 'manifold', brief, design, genes: null });
    const read = readDesign(JSON.parse(text));
    expect(read.ok ? read.file.design : read.faults).toEqual(design);
  });
});

describe('plenum', () => {
  it('has the volume of its frustums', () => {
    // Frustum of a cone h/3 pi (R^2 + R r + r^2): outer less inner, for the two storeys (geometry).
    const wall = Math.PI * (26 * 26 - 14 * 14) * 5;
    const frustum = (a: number, b: number): number => ((Math.PI * 5) / 3) * (a * a + a * b + b * b);
    const roof = frustum(26, 21) - frustum(14, 19);
    expect(plenumVolume(A_RING)).toBeCloseTo(wall + roof, 8);
  });

  it('measures distances to floor, wall, flank and rim of the roof', () => {
    const section = plenumSection(A_RING);
    const way = new Float64Array(3);
    expect(plenumDistance(section, 0, 20, 0.5, way)).toBeCloseTo(1.5, 12);
    expect(way[2]).toBe(-1);
    expect(plenumDistance(section, 0, -30, 4, way)).toBeCloseTo(4, 12);
    expect([way[0], way[1]]).toEqual([0, -1]);
    // Square to the flank of 45 degrees.
    expect(plenumDistance(section, 25 + 1, 0, 8 + 1, way)).toBeCloseTo(Math.SQRT2, 12);
    expect(way[0]).toBeCloseTo(Math.SQRT1_2, 12);
    expect(plenumDistance(section, 20, 0, 5, way)).toBeCloseTo(-3, 12);
    // Past the corner of floor and wall.
    expect(plenumDistance(section, 29, 0, -2, way)).toBeCloseTo(5, 12);
    expect(way[0]).toBeCloseTo(0.6, 12);
  });

  it('of a disc has no inner wall', () => {
    const section = plenumSection({ ...A_RING, innerRadius_mm: 0, eaves_mm: 10, top_mm: 12 });
    const way = new Float64Array(3);
    expect(plenumDistance(section, 0, 0, 7, way)).toBeCloseTo(-5, 12);
  });
});

describe('outwards()', () => {
  it('is square to every kind of edge', () => {
    const out = new Float64Array(2);
    outwards({ kind: 'round', diameter_mm: 80 }, 24, 32, out);
    expect([out[0], out[1]].map((v) => Math.round(1e9 * v) / 1e9)).toEqual([0.6, 0.8]);
    outwards({ kind: 'rectangle', width_mm: 40, height_mm: 20, cornerRadius_mm: 2 }, 3, 9, out);
    expect([...out]).toEqual([0, 1]);
    const triangle = [[-20, -10], [20, -10], [0, 30]] as [number, number][]; // prettier-ignore
    outwards({ kind: 'polygon', points_mm: triangle }, 2, -9, out);
    expect(Math.abs(out[0])).toBeLessThan(1e-12);
    expect(out[1]).toBeCloseTo(-1, 12);
  });
});
