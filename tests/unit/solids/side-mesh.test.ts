/** Meshes of plates with exits in the rim, judged from their bytes by a second reader. */
import { describe, expect, it } from 'vitest';
import { drawDesign } from '../../../src/formats/index.ts';
import { meshDesign, plateViews } from '../../../src/solids/index.ts';
import { judge, soupOf } from '../../support/mesh-reader.ts';
import { A_RING, aManifold, aSidePlate } from '../../support/side-plates.ts';

const HOLE = { x_mm: 33, y_mm: 14, diameter_mm: 3 };

describe('meshDesign() of side exits', () => {
  it.each([['round'], ['teardrop'], ['polygon']] as const)(
    'cuts one handle for each %s channel, with the volume of their air',
    async (kind) => {
      const section = kind === 'polygon' ? { kind, sides: 6 } : { kind };
      const design = aSidePlate(8, { section }, { holes: [HOLE] });
      const { mesh, report } = await meshDesign(design);
      expect(report.faults).toEqual([]);
      expect(report).toMatchObject({ method: 'boolean', genus: 9, parts: 1, isClosed: true });
      const judged = judge(soupOf(mesh));
      expect(judged.volume_mm3).toBeCloseTo(report.volume_mm3, 1);
    },
  );

  it('leaves the front face whole', async () => {
    const { mesh } = await meshDesign(aSidePlate(8));
    // Area of all triangles that lie in the plane of the outlet face.
    let area = 0;
    const { vertices: v, triangles } = mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
      if (v[a + 2] < 17.999 || v[b + 2] < 17.999 || v[c + 2] < 17.999) continue;
      area += ((v[b] - v[a]) * (v[c + 1] - v[a + 1]) - (v[c] - v[a]) * (v[b + 1] - v[a + 1])) / 2;
    }
    expect(area).toBeGreaterThan(0.999 * Math.PI * 1600);
  });

  it('adds k handles for a ring manifold of k channels, k - 1 for a disc', async () => {
    const ring = await meshDesign(aManifold(12, 6));
    expect(ring.report.faults).toEqual([]);
    expect(ring.report).toMatchObject({ genus: 18, parts: 1, isClosed: true });
    const disc = { ...A_RING, innerRadius_mm: 0, eaves_mm: 7, top_mm: 12 };
    const { report } = await meshDesign({ ...aManifold(12, 6), plenum: disc });
    expect(report.faults).toEqual([]);
    expect(report).toMatchObject({ genus: 17, parts: 1 });
  });

  it('takes the air in at the rim as well', async () => {
    const outward = aSidePlate(6);
    const [bend] = outward.channels;
    const design = {
      ...outward,
      channels: [
        {
          ...bend,
          points_mm: bend.points_mm.toReversed().map(([x, y, z]) => [x, y, 18 - z] as const),
          inletDirection: [-1, 0, 0] as const,
          outletDirection: [0, 0, 1] as const,
          inlet: 'rim' as const,
          outlet: 'face' as const,
        },
      ],
    };
    const { report } = await meshDesign(design);
    expect(report.faults).toEqual([]);
    expect(report.genus).toBe(6);
  });

  it('works at the corner and the side of a rectangle, obliquely', async () => {
    const turn = (x: number, y: number, turn_deg: number) => ({
      x_mm: x,
      y_mm: y,
      turn_deg,
      mirrored: false,
    });
    const [bend] = aSidePlate(1).channels;
    // Half a side of 40 mm from the middle; 30 degrees aside it meets the same side at a slant.
    const slanted = 40 / Math.cos(Math.PI / 6);
    const points = [...bend.points_mm.slice(0, -1), [slanted, 0, 10]] as const;
    const design = {
      ...aSidePlate(1),
      plate: {
        ...aSidePlate(1).plate,
        outline: { kind: 'rectangle', width_mm: 80, height_mm: 80, cornerRadius_mm: 4 } as const,
      },
      channels: [
        { ...bend, placements: [turn(0, 0, 0), turn(0, 0, 90)] },
        { ...bend, points_mm: points, placements: [turn(0, 0, 30), turn(0, 0, 210)] },
      ],
    };
    const { report } = await meshDesign(design);
    expect(report.faults).toEqual([]);
    expect(report.genus).toBe(4);
  });

  it('tells when two side channels run into each other', async () => {
    const crossed = aSidePlate(28, { bore_mm: [6] });
    const { report } = await meshDesign(crossed);
    const codes = report.faults.map((fault) => fault.code);
    expect(codes).toContain('crossing');
    expect(codes).toContain('volume');
  });
});

describe('plateViews() of side exits', () => {
  it('cuts through the exits, and draws them in the plan', async () => {
    const design = aManifold(12, 6);
    const { mesh } = await meshDesign(design);
    const views = plateViews(design, mesh);
    expect(views.insideZ_mm).toBe(4.5);
    // Six sectors of solid between the exits, and the core inside the ring.
    expect(views.inside.length).toBe(7);
    expect(views.sectionY_mm).toBe(0);
    const svg = drawDesign(design, views, { title: 'manifold', notes: [] });
    expect(svg).toContain('dotted: cut at z = 4.5');
    expect(svg).toContain('plenum \u2300 28 \u2013 52, z 2 \u2013 12');
    const plain = { ...design, channels: [design.channels[0]] };
    expect(plateViews(plain, mesh).inside).toEqual([]);
  });
});
