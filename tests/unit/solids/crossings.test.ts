import createKernel from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { countCrossings, cutMesh, stitchShell } from '../../../src/solids/index.ts';
import { aChannel, aDesign } from './plates.ts';
import type { Channel } from '../../../src/design/index.ts';

const HEIGHTS = Float64Array.from({ length: 60 }, (_, k) => (k + 0.4637) / 4);

function bent(bend: number, x_mm: number): Channel {
  return aChannel(15, {
    points_mm: [
      [0, 0, 0],
      [bend, 0, 7.5],
      [0, 0, 15],
    ],
    placements: [{ x_mm, y_mm: 0, turn_deg: 0, mirrored: false }],
  });
}

function shellOf(channels: readonly Channel[]) {
  const shell = stitchShell(sampleDesign(aDesign(channels), 32), 24, 1);
  if (shell.kind === 'failure') throw new Error(shell.reason);
  return shell.mesh;
}

/** Area that the polygons of a cut enclose by orientation; overlaps of holes count twice. */
function signedArea(segments: Float64Array): number {
  let twice = 0;
  for (let e = 0; e < segments.length; e += 4) {
    twice += segments[e] * segments[e + 3] - segments[e + 2] * segments[e + 1];
  }
  return twice / 2;
}

describe('cutMesh()', () => {
  it('cuts a plate with one straight hole into its outline less the hole', () => {
    const mesh = shellOf([aChannel(15)]);
    const { segments } = cutMesh(mesh, new Float64Array([7]));
    // Circle of 80 mm with at most 0.01 mm of sagitta, and a hole of true area.
    const area = Math.PI * (40 * 40 - 2 * 2);
    expect(Math.abs(signedArea(segments) / area - 1)).toBeLessThan(5e-4);
  });

  it('gives edges that join end to end', () => {
    const mesh = shellOf([bent(2, 0)]);
    const { start, segments } = cutMesh(mesh, HEIGHTS);
    for (let k = 0; k < HEIGHTS.length; k++) {
      const own = segments.subarray(4 * start[k], 4 * start[k + 1]);
      const starts = [];
      const ends = [];
      for (let e = 0; e < own.length; e += 4) {
        starts.push(`${own[e]} ${own[e + 1]}`);
        ends.push(`${own[e + 2]} ${own[e + 3]}`);
      }
      expect(starts.toSorted()).toEqual(ends.toSorted());
    }
  });
});

describe('countCrossings()', () => {
  it('finds none in a sound plate', () => {
    expect(countCrossings(shellOf([bent(2, -6), bent(-2, 6)]), HEIGHTS)).toBe(0);
  });

  it('agrees with the kernel, which unites each cut, on 20 pairs of bent tubes', async () => {
    const kernel = await createKernel();
    kernel.setup();
    const random = createStream('crossings');
    let crossed = 0;
    for (let n = 0; n < 20; n++) {
      const mesh = shellOf([bent(4 * random.next() - 1, -3), bent(1 - 4 * random.next(), 3)]);
      const solid = kernel.Manifold.ofMesh(
        new kernel.Mesh({ numProp: 3, vertProperties: mesh.vertices, triVerts: mesh.triangles }),
      );
      const { start, segments } = cutMesh(mesh, HEIGHTS);
      let covered = 0;
      for (let k = 0; k < HEIGHTS.length; k++) {
        const slice = solid.slice(HEIGHTS[k]);
        const signed = signedArea(segments.subarray(4 * start[k], 4 * start[k + 1]));
        covered = Math.max(covered, Math.abs(slice.area() - signed));
        slice.delete();
      }
      solid.delete();
      // Areas agree to rounding unless tubes overlap: the union has each place once.
      expect([n, countCrossings(mesh, HEIGHTS) > 0]).toEqual([n, covered > 1e-4]);
      if (covered > 1e-4) crossed++;
    }
    expect(crossed).toBeGreaterThan(3);
    expect(crossed).toBeLessThan(17);
  });

  it('finds a tube bent tighter than its radius', () => {
    const tight = aChannel(15, {
      points_mm: [
        [0, 0, 0],
        [4, 0, 5],
        [-4, 0, 7],
        [0, 0, 15],
      ],
    });
    expect(countCrossings(shellOf([tight]), HEIGHTS)).toBeGreaterThan(0);
  });
});
