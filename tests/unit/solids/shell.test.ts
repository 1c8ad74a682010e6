import { describe, expect, it } from 'vitest';
import { sampleDesign, sectionArea } from '../../../src/design/index.ts';
import type { Channel, Design, PlateSamples } from '../../../src/design/index.ts';
import { stitchShell } from '../../../src/solids/index.ts';
import type { Mesh } from '../../../src/solids/index.ts';
import { judge, soupOf } from '../../support/mesh-reader.ts';
import type { Verdict } from '../../support/mesh-reader.ts';
import {
  COURSES,
  HOLES,
  OUTLINES,
  POCKET,
  SECTIONS,
  aChannel,
  aDesign,
  slanted,
  stoodFour,
} from './plates.ts';

function shellOf(design: Design, stations = 32, stride = 1, sides = 24): Mesh {
  const shell = stitchShell(sampleDesign(design, (stations - 1) * stride + 1), sides, stride);
  if (shell.kind === 'failure') throw new Error(shell.reason);
  return shell.mesh;
}

function expectSound(verdict: Verdict, genus: number): void {
  expect(verdict).toMatchObject({ badEdges: 0, degenerate: 0, pinched: 0, parts: 1, genus });
  expect(verdict.closed).toBe(true);
  expect(verdict.volume_mm3).toBeGreaterThan(0);
}

describe('stitchShell()', () => {
  for (const section of SECTIONS) {
    for (const [course, draw] of Object.entries(COURSES)) {
      for (const pockets of [[], [POCKET]]) {
        const name = `${section.kind} ${course} ${pockets.length === 0 ? 'plain' : 'pocketed'}`;
        it(`closes a plate of ${name} channels with genus channels + holes`, () => {
          const channel = aChannel(15, { section, pockets, ...draw(15) });
          const design = aDesign([stoodFour(channel, 17)], { holes: [EDGE_HOLE] });
          const stride = pockets.length === 0 ? 1 : 4;
          expectSound(judge(soupOf(shellOf(design, 24, stride))), 5);
        });
      }
    }
  }

  for (const outline of OUTLINES) {
    for (const build of ['flat', 'edge'] as const) {
      it(`closes ${outline.kind} plates built ${build} and hits the faces exactly`, () => {
        const channel = aChannel(7.3, {
          section: { kind: 'teardrop' },
          bore_mm: [3, 4, 2.5],
          ...COURSES.sBend(7.3),
        });
        const design = aDesign([channel], { outline, build, holes: HOLES, thickness_mm: 7.3 });
        const verdict = judge(soupOf(shellOf(design)));
        expectSound(verdict, 3);
        expect(verdict.low[2]).toBe(0);
        expect(verdict.high[2]).toBe(Math.fround(7.3));
      });
    }
  }

  it('closes a plate without openings', () => {
    expectSound(judge(soupOf(shellOf(aDesign([])))), 0);
  });

  it('cuts a wide bore through a thin plate at 60 degrees without folding', () => {
    const tilt = slanted(60);
    const run = 2 * Math.tan(Math.PI / 3);
    const channel = aChannel(2, {
      points_mm: [
        [-run / 2, 0, 0],
        [run / 2, 0, 2],
      ],
      inletDirection: tilt,
      outletDirection: tilt,
      bore_mm: [8],
    });
    const verdict = judge(soupOf(shellOf(aDesign([channel], { thickness_mm: 2 }))));
    expectSound(verdict, 1);
    // A slanted cylinder between parallel planes holds (section area / cos) x thickness.
    const plate = judge(soupOf(shellOf(aDesign([], { thickness_mm: 2 })))).volume_mm3;
    const bore = ((Math.PI * 16) / Math.cos(Math.PI / 3)) * 2;
    expect((plate - verdict.volume_mm3) / bore).toBeCloseTo(1, 4);
  });

  it('gives a straight hole the area of its section, not of an inscribed polygon', () => {
    for (const section of SECTIONS) {
      const plain = judge(soupOf(shellOf(aDesign([]))));
      const holed = judge(soupOf(shellOf(aDesign([aChannel(15, { section })]))));
      const area = (plain.volume_mm3 - holed.volume_mm3) / 15;
      expect(area / sectionArea(section, 4, 0)).toBeCloseTo(1, 5);
    }
  });

  it('keeps the volume of a bent tube within 0.2 % of Pappus', () => {
    // Quarter bends of radius 10: air = section area x length of the centroid's path (Pappus).
    const design = aDesign([quarterBends()], { thickness_mm: 20 });
    const samples = sampleDesign(design, 32);
    const plain = judge(soupOf(shellOf(aDesign([], { thickness_mm: 20 })))).volume_mm3;
    const air = plain - judge(soupOf(shellOf(design))).volume_mm3;
    const pappus = Math.PI * 4 * samples.length_mm[0];
    expect(Math.abs(air / pappus - 1)).toBeLessThan(0.002);
  });

  it('points teardrop roofs up in build direction at every station', () => {
    const channel = aChannel(20, { ...quarterBends(), section: { kind: 'teardrop' } });
    for (const [build, axis] of [
      ['flat', 2],
      ['edge', 1],
    ] as const) {
      const design = aDesign([channel], { thickness_mm: 20, build });
      const samples = sampleDesign(design, 32);
      expect(flatRoofs(samples, shellOf(design), axis)).toEqual([]);
    }
  });

  it('says why when ports overlap on a face', () => {
    const close = aChannel(15, {
      placements: [0, 3].map((x_mm) => ({ x_mm, y_mm: 0, turn_deg: 0, mirrored: false })),
    });
    const shell = stitchShell(sampleDesign(aDesign([close]), 32), 24, 1);
    expect(shell).toMatchObject({
      kind: 'failure',
      reason: expect.stringMatching(/^inlet face: /),
    });
  });

  it('says why when one port lies inside another or outside the plate', () => {
    const inner = aChannel(15, { bore_mm: [2] });
    const nested = stitchShell(sampleDesign(aDesign([aChannel(15), inner]), 32), 24, 1);
    expect(nested).toMatchObject({ kind: 'failure', reason: expect.stringContaining('overlap') });
    const away = aChannel(15, {
      placements: [{ x_mm: 90, y_mm: 0, turn_deg: 0, mirrored: false }],
    });
    const outside = stitchShell(sampleDesign(aDesign([away]), 32), 24, 1);
    expect(outside.kind).toBe('failure');
  });

  it('says why when a channel breaks through a face', () => {
    const diving = aChannel(8, {
      points_mm: [
        [-10, 0, 0],
        [-5, 0, 7],
        [0, 0, 0.5],
        [5, 0, 7],
        [10, 0, 8],
      ],
    });
    const shell = stitchShell(sampleDesign(aDesign([diving], { thickness_mm: 8 }), 64), 24, 1);
    expect(shell).toMatchObject({ kind: 'failure', reason: expect.stringContaining('face') });
  });
});

const EDGE_HOLE = { x_mm: 0, y_mm: 36, diameter_mm: 4.3 };

/** Point of a quarter bend of radius 10 that starts upright. */
function arc(a: number): [number, number, number] {
  return [10 - 10 * Math.cos(a), 0, 10 * Math.sin(a)];
}

function quarterBends(): Channel {
  const points: [number, number, number][] = [];
  for (let k = 0; k <= 8; k++) points.push(arc((k * Math.PI) / 16));
  for (let k = 7; k >= 0; k--) {
    const [x, , z] = arc((k * Math.PI) / 16);
    points.push([20 - x, 0, 20 - z]);
  }
  return aChannel(20, { points_mm: points });
}

/** Down-facing wall triangles that overhang by more than 47 degrees near fully roofed stations. */
function flatRoofs(samples: PlateSamples, mesh: Mesh, up: number): string[] {
  const found: string[] = [];
  const { vertices: v, triangles } = mesh;
  const thickness = samples.plate.thickness_mm;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) =>
      v.subarray(3 * triangles[t + k], 3 * triangles[t + k] + 3),
    );
    const z = (a[2] + b[2] + c[2]) / 3;
    // Faces and the plate's own edge are no roofs.
    if (z < 0.5 || z > thickness - 0.5 || Math.abs(a[1]) > 10) continue;
    const e = [0, 1, 2].map((k) => b[k] - a[k]);
    const f = [0, 1, 2].map((k) => c[k] - a[k]);
    const n = [e[1] * f[2] - e[2] * f[1], e[2] * f[0] - e[0] * f[2], e[0] * f[1] - e[1] * f[0]];
    const down = -n[up] / Math.hypot(...n);
    // Built flat, only the lying part of the bend has its full roof.
    const isLying = up === 1 || Math.abs(z - 10) < 0.6;
    if (isLying && down > Math.sin((47 * Math.PI) / 180)) found.push(`${z} ${down}`);
  }
  return found;
}
