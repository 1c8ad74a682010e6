import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readStl, writeStl } from '../../../src/formats/stl.ts';
import { meshDesign } from '../../../src/solids/index.ts';
import { judge, readStlBytes, soupOf } from '../../support/mesh-reader.ts';
import { COURSES, HOLES, POCKET, aChannel, aDesign, stoodFour } from '../solids/plates.ts';

function move(x_mm: number, y_mm: number) {
  return [{ x_mm, y_mm, turn_deg: 0, mirrored: false }];
}

/** A plate that shows every kind of wall: bent, tilted, pocketed, teardrop, slot, holes. */
async function aMesh() {
  const teardrop = aChannel(15, { section: { kind: 'teardrop' }, ...COURSES.sBend(15) });
  const slot = aChannel(15, { section: { kind: 'slot', aspect: 2 }, bore_mm: [2.5] });
  const pocketed = aChannel(15, { pockets: [POCKET] });
  const design = aDesign(
    [
      stoodFour(teardrop, 9),
      { ...slot, placements: move(0, 25) },
      { ...pocketed, placements: move(25, 5) },
    ],
    { holes: HOLES },
  );
  const { mesh, report } = await meshDesign(design);
  expect(report.faults).toEqual([]);
  return { mesh, report };
}

describe('writeStl()', () => {
  it('gives bytes that a second reader finds closed, oriented and of the right genus', async () => {
    const { mesh, report } = await aMesh();
    const soup = readStlBytes(writeStl(mesh, 'trial plate'));
    const verdict = judge(soup);
    expect(verdict).toMatchObject({ badEdges: 0, degenerate: 0, pinched: 0, parts: 1, genus: 8 });
    expect(verdict.triangles).toBe(report.triangleCount);
    expect(verdict.vertices).toBe(report.vertexCount);
    expect(verdict.volume_mm3).toBeCloseTo(report.volume_mm3, 1);
  });

  it('states the unit in a header that does not begin with "solid"', async () => {
    const bytes = writeStl((await aMesh()).mesh, 'solid "plaque percée" \u0007');
    const { header } = readStlBytes(bytes);
    expect(header).toMatch(/^anfract binary STL, unit mm: solid "plaque perc\?e" \?/);
  });

  it('writes unit normals that agree with the winding', async () => {
    const bytes = writeStl((await aMesh()).mesh, 'x');
    const view = new DataView(bytes.buffer);
    const soup = readStlBytes(bytes);
    for (let t = 0; t < soup.corners.length / 9; t++) {
      const n = [0, 1, 2].map((k) => view.getFloat32(84 + 50 * t + 4 * k, true));
      const p = soup.corners.slice(9 * t, 9 * t + 9);
      const e = [0, 1, 2].map((k) => p[3 + k] - p[k]);
      const f = [0, 1, 2].map((k) => p[6 + k] - p[k]);
      const c = [e[1] * f[2] - e[2] * f[1], e[2] * f[0] - e[0] * f[2], e[0] * f[1] - e[1] * f[0]];
      const dot = (n[0] * c[0] + n[1] * c[1] + n[2] * c[2]) / Math.hypot(...c);
      expect(dot).toBeCloseTo(1, 5);
    }
  });

  const hasAdmesh = spawnSync('admesh', ['--version']).error === undefined;
  // Skipped, and shown as skipped, where the STL checker admesh is not installed.
  it.skipIf(!hasAdmesh)('passes the independent STL checker admesh untouched', async () => {
    const { mesh, report } = await aMesh();
    const folder = mkdtempSync(join(tmpdir(), 'anfract-stl-'));
    try {
      const file = join(folder, 'plate.stl');
      writeFileSync(file, writeStl(mesh, 'trial plate'));
      const run = spawnSync('admesh', [file], { encoding: 'utf8' });
      expect(run.status).toBe(0);
      const figure = (label: string) =>
        Number(new RegExp(`${label}\\s*:\\s*(-?[\\d.]+)`).exec(run.stdout)?.[1] ?? 'NaN');
      for (const label of [
        'Facets with 1 disconnected edge',
        'Facets with 2 disconnected edges',
        'Facets with 3 disconnected edges',
        'Degenerate facets',
        'Edges fixed',
        'Facets removed',
        'Facets added',
        'Facets reversed',
        'Backwards edges',
        'Normals fixed',
      ]) {
        expect([label, figure(label)]).toEqual([label, 0]);
      }
      expect(figure('Number of parts')).toBe(1);
      expect(figure('Number of facets')).toBe(report.triangleCount);
      expect(figure('Volume') / report.volume_mm3).toBeCloseTo(1, 4);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe('readStl()', () => {
  it('gives back the mesh that was written, up to the numbering of vertices', async () => {
    const { mesh } = await aMesh();
    const back = readStl(writeStl(mesh, 'x'));
    expect(soupOf(back)).toEqual(soupOf(mesh));
    expect(back.vertices.length).toBe(mesh.vertices.length);
  });

  it('refuses a file cut short, naming both lengths', async () => {
    const bytes = writeStl((await aMesh()).mesh, 'x');
    const cut = bytes.subarray(0, bytes.length - 7);
    expect(() => readStl(cut)).toThrow(
      new RegExp(`${cut.length} bytes but states \\d+ triangles, which take ${bytes.length}`),
    );
    expect(() => readStl(bytes.subarray(0, 50))).toThrow(/50 bytes.*at least 84/);
  });

  it('refuses coordinates that are not finite', async () => {
    const bytes = writeStl((await aMesh()).mesh, 'x');
    new DataView(bytes.buffer).setFloat32(84 + 12, Number.NaN, true);
    expect(() => readStl(bytes)).toThrow(/triangle 0 has a coordinate that is not finite/);
  });
});
