import { describe, expect, it } from 'vitest';
import { MeshError, meshDesign, meshVolume, withSolids } from '../../../src/solids/index.ts';
import type { Channel } from '../../../src/design/index.ts';
import { judge, soupOf } from '../../support/mesh-reader.ts';
import { COURSES, HOLES, POCKET, SECTIONS, aChannel, aDesign, stoodFour } from './plates.ts';

const EDGE_HOLE = { x_mm: 0, y_mm: 36, diameter_mm: 4.3 };

/** Channel placed at several x. */
function atX(channel: Channel, xs: readonly number[]): Channel {
  return {
    ...channel,
    placements: xs.map((x_mm) => ({ x_mm, y_mm: 0, turn_deg: 0, mirrored: false })),
  };
}

/** Straight slanted channel, to the right or to the left. */
function leaning(way: number): Channel {
  return aChannel(15, {
    points_mm: [
      [-way * 8, 0, 0],
      [way * 8, 0, 15],
    ],
    inletDirection: null,
    outletDirection: null,
  });
}

describe('meshDesign()', () => {
  for (const section of SECTIONS) {
    for (const [course, draw] of Object.entries(COURSES)) {
      for (const pockets of [[], [POCKET]]) {
        const kind = pockets.length === 0 ? 'plain' : 'pocketed';
        it(`meets volume, genus and parts for ${section.kind} ${course} ${kind}`, async () => {
          const channel = aChannel(15, { section, pockets, ...draw(15) });
          const design = aDesign([stoodFour(channel, 17)], { holes: [EDGE_HOLE] });
          const { mesh, report } = await meshDesign(design);
          expect(report.faults).toEqual([]);
          expect(report).toMatchObject({ method: 'stitched', genus: 5, parts: 1, isClosed: true });
          expect(judge(soupOf(mesh)).volume_mm3).toBeCloseTo(report.volume_mm3, 1);
        });
      }
    }
  }

  it('follows bends tighter than a step between its stations', async () => {
    // Two bends of about 3 mm on 59 mm of channel: 0.57 rad from station to station.
    const winding = aChannel(20, {
      points_mm: [
        [-10, -9, 0],
        [-8, -17, 6],
        [12, -5, 15],
        [10, 9, 20],
      ],
      bore_mm: [2, 3],
    });
    const { report } = await meshDesign(aDesign([winding], { thickness_mm: 20 }));
    expect(report.faults).toEqual([]);
    expect(Math.abs(report.volume_mm3 - report.expectedVolume_mm3)).toBeLessThan(0.8);
  });

  it('cuts the curved edge of a long slot that tapers through an oblique face', async () => {
    const slot = aChannel(14, {
      points_mm: [
        [-3, -7, 0],
        [3, 7, 14],
      ],
      inletDirection: null,
      outletDirection: null,
      section: { kind: 'slot', aspect: 6 },
      bore_mm: [5, 5.2, 3.4],
      roll_deg: -45,
    });
    const { report } = await meshDesign(aDesign([slot], { thickness_mm: 14 }));
    expect(report.faults).toEqual([]);
    const air = Math.PI * 40 * 40 * 14 - report.expectedVolume_mm3;
    expect(Math.abs(report.volume_mm3 - report.expectedVolume_mm3)).toBeLessThan(2e-3 * air);
  });

  it('finds two tubes that cross inside the plate and cuts them out as one', async () => {
    const { mesh, report } = await meshDesign(aDesign([leaning(1), leaning(-1)]));
    expect(report.method).toBe('boolean');
    expect(report.faults.map((fault) => fault.code)).toContain('merged');
    const verdict = judge(soupOf(mesh));
    // An X of two tubes: two through-openings and one more handle where they meet.
    expect(verdict).toMatchObject({ closed: true, parts: 1, genus: 3 });
  });

  it('finds a tube that crosses itself', async () => {
    const loop = aChannel(20, {
      points_mm: [
        [-12, 0, 0],
        [8, 0, 10],
        [0, 0, 16],
        [-8, 0, 10],
        [12, 0, 20],
      ],
      inletDirection: null,
      outletDirection: null,
      bore_mm: [3],
    });
    const { report } = await meshDesign(aDesign([loop], { thickness_mm: 20 }), { stations: 64 });
    expect(report.faults.map((fault) => fault.code)).toContain('merged');
  });

  it('cuts ports out by booleans where they overlap on a face, with the reason', async () => {
    const { mesh, report } = await meshDesign(aDesign([atX(aChannel(15), [0, 3])]));
    expect(report.method).toBe('boolean');
    expect(report.faults[0]?.message).toContain('inlet face');
    // Two overlapping round holes are one opening.
    expect(judge(soupOf(mesh))).toMatchObject({ closed: true, parts: 1, genus: 1 });
  });

  it('agrees between stitching and booleans on a plate that allows both', async () => {
    const channel = aChannel(15, { section: { kind: 'teardrop' }, ...COURSES.sBend(15) });
    const design = aDesign([atX(channel, [-15, 15])], { holes: HOLES });
    const stitched = await meshDesign(design);
    const touching = aDesign(
      [atX(channel, [-15, 15]), atX(aChannel(15, { bore_mm: [1] }), [0, 0.5])],
      {
        holes: HOLES,
      },
    );
    const cut = await meshDesign(touching);
    const pair = 2 * Math.PI * 0.25 - 2 * (0.25 * Math.acos(0.5) - 0.25 * 0.5 * Math.sqrt(0.75));
    const air = pair * 15;
    expect(stitched.report.volume_mm3 - cut.report.volume_mm3).toBeGreaterThan(0.98 * air);
    expect(stitched.report.volume_mm3 - cut.report.volume_mm3).toBeLessThan(1.02 * air);
  });

  it('reports a channel that leaves the plate at its edge', async () => {
    const { report } = await meshDesign(aDesign([atX(aChannel(15), [39.5])]));
    expect(report.faults.map((fault) => fault.code)).toEqual(
      expect.arrayContaining(['merged', 'genus']),
    );
  });

  it('refuses a channel whose end grazes the face', async () => {
    const grazing = aChannel(15, { inletDirection: [1, 0, 0] });
    await expect(meshDesign(aDesign([grazing]))).rejects.toThrow(MeshError);
  });

  it('names option, value and bound of options out of range', async () => {
    await expect(meshDesign(aDesign([]), { sides: 7 })).rejects.toThrow(/sides is 7.*at least 8/);
    await expect(meshDesign(aDesign([]), { stations: 2 })).rejects.toThrow(
      /stations is 2.*at least 4/,
    );
  });

  it('gives the same bytes twice', async () => {
    const channel = aChannel(15, { section: { kind: 'teardrop' }, ...COURSES.sBend(15) });
    const design = aDesign([stoodFour(channel, 15)]);
    const [a, b] = [await meshDesign(design), await meshDesign(design)];
    expect(a).toEqual(b);
  });

  it('frees its solids: a hundred plates do not grow the kernel', async () => {
    const design = aDesign([stoodFour(aChannel(15, COURSES.sBend(15)), 15)]);
    await meshDesign(design);
    const before = process.memoryUsage().arrayBuffers + process.memoryUsage().external;
    for (let k = 0; k < 100; k++) await meshDesign(design);
    const grown = process.memoryUsage().arrayBuffers + process.memoryUsage().external - before;
    // One such plate holds about 0.8 MB in the kernel; a hundred undeleted ones would be 80 MB.
    expect(grown).toBeLessThan(30e6);
  });
});

describe('withSolids()', () => {
  const cube = {
    vertices: Float32Array.from([
      0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 0, 1, 1, 0, 1, 1, 1, 1, 0, 1, 1,
    ]),
    triangles: Uint32Array.from(
      '021032 456467 015054 126165 237276 304347'.replaceAll(' ', ''),
      Number,
    ),
  };

  it('measures a unit cube', async () => {
    expect(meshVolume(cube)).toBe(1);
    const facts = await withSolids({}, (solids) => solids.inspect(cube));
    expect(facts).toMatchObject({
      status: 'NoError',
      parts: 1,
      genus: 0,
      volume_mm3: 1,
      area_mm2: 6,
    });
  });

  it('shows an inside-out mesh by its negative volume', async () => {
    const turned = { ...cube, triangles: cube.triangles.toReversed() };
    const facts = await withSolids({}, (solids) => solids.inspect(turned));
    expect(facts).toMatchObject({ status: 'NoError', volume_mm3: -1 });
  });

  it('names the fault of an open mesh', async () => {
    const open = { ...cube, triangles: cube.triangles.slice(3) };
    const facts = await withSolids({}, (solids) => solids.inspect(open));
    expect(facts.status).toBe('NotManifold');
  });
});
