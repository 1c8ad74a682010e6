import createKernel from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { countCrossings, cutMesh, stitchShell } from '../../../src/solids/index.ts';
import { aChannel, aDesign } from './plates.ts';
import type { Channel } from '../../../src/design/index.ts';
import type { Mesh } from '../../../src/solids/index.ts';

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

type Point = readonly [number, number, number];

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** Six times the volume of a tetrahedron: on which side of abc the point d lies. */
function side(a: Point, b: Point, c: Point, d: Point): number {
  const [u, v, w] = [minus(b, a), minus(c, a), minus(d, a)];
  return (
    w[0] * (u[1] * v[2] - u[2] * v[1]) +
    w[1] * (u[2] * v[0] - u[0] * v[2]) +
    w[2] * (u[0] * v[1] - u[1] * v[0])
  );
}

/**
 * Whether an edge of one triangle runs through the other: by volumes of tetrahedra, unlike the code
 * under test. Edges that end in a corner of the other triangle touch it only there, and triangles
 * with a common edge nowhere else.
 */
function piercesEither(mesh: Mesh, s: number, t: number): boolean {
  const corners = (k: number) => [...mesh.triangles.subarray(3 * k, 3 * k + 3)];
  const at = (v: number): Point => [
    mesh.vertices[3 * v],
    mesh.vertices[3 * v + 1],
    mesh.vertices[3 * v + 2],
  ];
  const pierces = (own: number[], other: number[]): boolean =>
    own.some((p, k) => {
      const q = own[(k + 1) % 3];
      if (other.includes(p) || other.includes(q)) return false;
      const [a, b, c] = other.map(at);
      if (side(a, b, c, at(p)) > 0 === side(a, b, c, at(q)) > 0) return false;
      const around = [side(at(p), at(q), a, b), side(at(p), at(q), b, c), side(at(p), at(q), c, a)];
      return around.every((x) => x > 0) || around.every((x) => x < 0);
    });
  const [own, other] = [corners(s), corners(t)];
  if (own.filter((v) => other.includes(v)).length > 1) return false;
  return pierces(own, other) || pierces(other, own);
}

/** Ball of triangles about (0, 0, z). */
function globe(radius: number, z_mm: number): Mesh {
  const [rings, sides] = [24, 24];
  const vertices: number[] = [0, 0, z_mm - radius, 0, 0, z_mm + radius];
  for (let k = 1; k < rings; k++) {
    const down = (Math.PI * k) / rings;
    for (let j = 0; j < sides; j++) {
      const around = (2 * Math.PI * j) / sides;
      vertices.push(
        radius * Math.sin(down) * Math.cos(around),
        radius * Math.sin(down) * Math.sin(around),
        z_mm - radius * Math.cos(down),
      );
    }
  }
  const triangles: number[] = [];
  const at = (k: number, j: number) => 2 + (k - 1) * sides + (j % sides);
  for (let j = 0; j < sides; j++) {
    triangles.push(0, at(1, j + 1), at(1, j), 1, at(rings - 1, j), at(rings - 1, j + 1));
    for (let k = 1; k + 1 < rings; k++) {
      triangles.push(at(k, j), at(k, j + 1), at(k + 1, j + 1));
      triangles.push(at(k, j), at(k + 1, j + 1), at(k + 1, j));
    }
  }
  return { vertices: Float32Array.from(vertices), triangles: Uint32Array.from(triangles) };
}

function joined(meshes: readonly Mesh[]): Mesh {
  const vertices: number[] = [];
  const triangles: number[] = [];
  for (const mesh of meshes) {
    const base = vertices.length / 3;
    for (const v of mesh.triangles) triangles.push(base + v);
    for (const x of mesh.vertices) vertices.push(x);
  }
  return { vertices: Float32Array.from(vertices), triangles: Uint32Array.from(triangles) };
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
    expect(countCrossings(shellOf([bent(2, -6), bent(-2, 6)]))).toBe(0);
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
      expect([n, countCrossings(mesh) > 0]).toEqual([n, covered > 1e-4]);
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
    expect(countCrossings(shellOf([tight]))).toBeGreaterThan(0);
  });

  it('finds a crossing lower than any layer', () => {
    // Caps of two spheres of 2 mm that overlap by 0.02 mm: the lens is 0.28 mm wide and 0.02 mm high.
    const mesh = joined([globe(2, 0), globe(2, 3.98)]);
    expect(countCrossings(mesh)).toBeGreaterThan(0);
    expect(countCrossings(joined([globe(2, 0), globe(2, 4.02)]))).toBe(0);
  });

  it('finds mirrored tubes that meet edge by edge where they cross', () => {
    const points = (way: number): Channel['points_mm'] => [
      [-5 * way, 0, 0],
      [0, 0, 7.5],
      [5 * way, 0, 15],
    ];
    const pair = [1, -1].map((way) => aChannel(15, { points_mm: points(way) }));
    // An odd number of rings puts one of each tube into the mirror plane.
    const shell = stitchShell(sampleDesign(aDesign(pair), 33), 24, 1);
    if (shell.kind === 'failure') throw new Error(shell.reason);
    expect(countCrossings(shell.mesh)).toBeGreaterThan(0);
  });

  it('agrees with a test of all pairs of triangles, piece by piece of each edge', () => {
    const random = createStream('pairs');
    const corner = () => Math.fround(4 * random.next());
    for (let n = 0; n < 20; n++) {
      const vertices = Float32Array.from({ length: 90 }, corner);
      const triangles = Uint32Array.from({ length: 90 }, () => Math.floor(30 * random.next()));
      const isProper = (t: number) => new Set(triangles.subarray(3 * t, 3 * t + 3)).size === 3;
      const kept = Array.from({ length: 30 }, (_, t) => t).filter(isProper);
      const mesh = {
        vertices,
        triangles: Uint32Array.from(kept.flatMap((t) => [...triangles.subarray(3 * t, 3 * t + 3)])),
      };
      let wanted = 0;
      for (let s = 0; s < kept.length; s++) {
        for (let t = s + 1; t < kept.length; t++) if (piercesEither(mesh, s, t)) wanted++;
      }
      expect([n, countCrossings(mesh)]).toEqual([n, wanted]);
    }
  });
});
