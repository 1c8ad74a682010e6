/** What the page shows of a part: air body, finer triangles, inked edges, thickness, walls. */
import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import {
  airBody,
  createWallFinder,
  meshDesign,
  meshVolume,
  rayThickness,
  refineMesh,
  sharpEdges,
  withSolids,
} from '../../../src/solids/index.ts';
import type { Mesh } from '../../../src/solids/index.ts';
import { judge, soupOf } from '../../support/mesh-reader.ts';
import { COURSES, POCKET, aChannel, aDesign, stoodFour } from './plates.ts';

/** Box from the origin; twelve triangles, outwards. */
function box(x: number, y: number, z: number): Mesh {
  const vertices = Float32Array.from({ length: 24 }, (_, k) => {
    const corner = Math.floor(k / 3);
    return ((corner >> (k % 3)) & 1) * [x, y, z][k % 3];
  });
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  const triangles = quads.flatMap(([a, b, c, d]) => [a, b, c, a, c, d]);
  return { vertices, triangles: Uint32Array.from(triangles) };
}

function longestEdge({ vertices, triangles }: Mesh): number {
  let longest = 0;
  for (let t = 0; t < triangles.length; t++) {
    const p = 3 * triangles[t];
    const q = 3 * triangles[t % 3 === 2 ? t - 2 : t + 1];
    longest = Math.max(
      longest,
      Math.hypot(...[0, 1, 2].map((d) => vertices[p + d] - vertices[q + d])),
    );
  }
  return longest;
}

const BENT = aDesign([stoodFour(aChannel(15, { pockets: [POCKET], ...COURSES.sBend(15) }), 17)]);

describe('airBody()', () => {
  it('closes over four channels and holds what the part lacks', async () => {
    const { mesh, report } = await meshDesign(BENT);
    expect(report.faults).toEqual([]);
    const air = await airBody(sampleDesign(BENT, 2), mesh);
    if (air === null) throw new Error('no air');
    const facts = await withSolids({}, (solids) => solids.inspect(air));
    expect(facts).toMatchObject({ status: 'NoError', parts: 4 });
    // Each edge met once in either direction, by an own reader of triangle soups.
    expect(judge(soupOf(air)).volume_mm3).toBeCloseTo(meshVolume(air), 2);
    const solidPlate = await meshDesign(aDesign([]));
    expect(meshVolume(air)).toBeCloseTo(meshVolume(solidPlate.mesh) - meshVolume(mesh), 0);
  });
});

describe('refineMesh()', () => {
  it('splits to the length asked for, closed, with the same volume', async () => {
    const { mesh } = await meshDesign(BENT);
    const fine = refineMesh(mesh, 2);
    expect(longestEdge(fine)).toBeLessThanOrEqual(2);
    expect(fine.triangles.length).toBeGreaterThan(mesh.triangles.length);
    expect(meshVolume(fine) / meshVolume(mesh)).toBeCloseTo(1, 5);
    const facts = await withSolids({}, (solids) => solids.inspect(fine));
    expect(facts.status).toBe('NoError');
  });

  it('gives back a mesh that is fine enough', () => {
    const mesh = box(1, 1, 1);
    expect(refineMesh(mesh, 2)).toBe(mesh);
  });
});

describe('sharpEdges()', () => {
  it('finds the twelve edges of a box and no diagonal', () => {
    const edges = sharpEdges(box(4, 3, 2));
    expect(edges.length / 6).toBe(12);
    let sum = 0;
    for (let e = 0; e < edges.length; e += 6) {
      sum += Math.hypot(...[0, 1, 2].map((d) => edges[e + d] - edges[e + 3 + d]));
    }
    expect(sum).toBeCloseTo(4 * (4 + 3 + 2), 5);
  });
});

describe('rayThickness()', () => {
  it('reads the sides of a box', () => {
    const thickness = rayThickness(refineMesh(box(4, 3, 2), 0.7));
    const found = new Set(Array.from(thickness, (value) => Math.round(value * 1000) / 1000));
    expect([...found].toSorted((a, b) => a - b)).toEqual([2, 3, 4]);
  });

  it('reads the wall between a bore and a face near by', async () => {
    // Two bores of 4 mm whose middles stand 6 mm apart: 2 mm between their nearest points.
    const pair = aChannel(15, {
      placements: [-3, 3].map((x_mm) => ({ x_mm, y_mm: 0, turn_deg: 0, mirrored: false })),
    });
    const { mesh } = await meshDesign(aDesign([pair]));
    const thickness = rayThickness(refineMesh(mesh, 3));
    const thinnest = thickness.reduce((least, value) => (value < least ? value : least), Infinity);
    expect(thinnest).toBeGreaterThan(1.9);
    expect(thinnest).toBeLessThan(2.05);
  });
});

describe('createWallFinder()', () => {
  const samples = sampleDesign(BENT, 64);
  const finder = createWallFinder(samples);
  const place = { channel: -1, shape: 0, station: 0, pocket: -1 };

  it('names channel, station and pocket of points put on walls by the section frame', () => {
    const station = Math.round(POCKET.at * 63);
    for (let n = 0; n < samples.channelCount; n++) {
      const [pocket0] = samples.pockets[samples.shapeOf[n]];
      const side = (pocket0.side_deg * Math.PI) / 180;
      const i = 3 * (samples.shapeOf[n] * 64 + station);
      for (const [angle, radius, pocket] of [
        [side, 2 + POCKET.depth_mm, 0],
        [side + Math.PI, 2, -1],
      ]) {
        const [x, y, z] = [0, 1, 2].map(
          (d) =>
            samples.point_mm[i + d] +
            radius *
              (Math.cos(angle) * samples.first[i + d] + Math.sin(angle) * samples.second[i + d]),
        );
        finder.find(x + samples.offset_mm[2 * n], y + samples.offset_mm[2 * n + 1], z, place);
        expect(place).toMatchObject({ channel: n, pocket });
        expect(Math.abs(place.station - station)).toBeLessThanOrEqual(1);
      }
    }
  });

  it('leaves points of the rim and the middle of a channel alone', () => {
    for (const [x, y, z] of [
      [39.9, 0, 7],
      [
        samples.offset_mm[0] + samples.point_mm[96],
        samples.offset_mm[1] + samples.point_mm[97],
        7.5,
      ],
      [500, 0, 0],
    ]) {
      finder.find(x, y, z, place);
      expect(place.channel).toBe(-1);
    }
  });
});
