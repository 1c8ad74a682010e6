import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { readThreeMf, writeThreeMf } from '../../../src/formats/three-mf.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { meshDesign } from '../../../src/solids/index.ts';
import { judge, readModelXml, readZipBytes } from '../../support/mesh-reader.ts';
import { COURSES, HOLES, aChannel, aDesign, stoodFour } from '../solids/plates.ts';

async function aMesh() {
  const channel = aChannel(15, { section: { kind: 'teardrop' }, ...COURSES.sBend(15) });
  return (await meshDesign(aDesign([stoodFour(channel, 9)], { holes: HOLES }))).mesh;
}

const TEXT = { name: 'plate <1> & "two"', description: 'a trial, invented' };

function modelOf(bytes: Uint8Array): string {
  return readZipBytes(bytes).get('3D/3dmodel.model')?.data.toString('utf8') ?? '';
}

describe('writeThreeMf()', () => {
  it('gives bytes that a second reader finds closed, in millimetres, of the right genus', async () => {
    const mesh = await aMesh();
    const soup = readModelXml(modelOf(writeThreeMf(mesh, TEXT)));
    expect(soup.unit).toBe('millimeter');
    const verdict = judge(soup);
    expect(verdict).toMatchObject({ badEdges: 0, degenerate: 0, pinched: 0, parts: 1, genus: 6 });
  });

  it('keeps all 24 bits of each coordinate', async () => {
    const mesh = await aMesh();
    const soup = readModelXml(modelOf(writeThreeMf(mesh, TEXT)));
    const corner = Array.from(mesh.triangles, (v) =>
      Array.from(mesh.vertices.subarray(3 * v, 3 * v + 3)),
    );
    expect(soup.corners.map(Math.fround)).toEqual(corner.flat());
  });

  it('holds the parts that the container format asks for, all of one fixed date', async () => {
    const files = readZipBytes(writeThreeMf(await aMesh(), TEXT));
    expect([...files.keys()]).toEqual(['[Content_Types].xml', '_rels/.rels', '3D/3dmodel.model']);
    // MS-DOS time of 1 January 2000, 0:00: ((2000 - 1980) << 9 | 1 << 5 | 1) << 16.
    for (const { date } of files.values()) expect(date).toBe(0x28210000);
    const relations = files.get('_rels/.rels')?.data.toString() ?? '';
    expect(relations).toContain('Target="/3D/3dmodel.model"');
  });

  it('gives the same bytes twice and in any time zone', async () => {
    const mesh = await aMesh();
    const zone = process.env['TZ'];
    const here = writeThreeMf(mesh, TEXT);
    try {
      process.env['TZ'] = 'Pacific/Kiritimati';
      expect(writeThreeMf(mesh, TEXT)).toEqual(here);
    } finally {
      if (zone === undefined) delete process.env['TZ'];
      else process.env['TZ'] = zone;
    }
  });

  it('carries a thumbnail with its content type and relationship', async () => {
    const thumbnail = Uint8Array.from([0x89, 0x50, 0x4e, 0x47]);
    const files = readZipBytes(writeThreeMf(await aMesh(), { ...TEXT, thumbnail }));
    expect([...(files.get('Metadata/thumbnail.png')?.data ?? [])]).toEqual([...thumbnail]);
    expect(files.get('[Content_Types].xml')?.data.toString()).toContain('image/png');
    expect(files.get('_rels/.rels')?.data.toString()).toContain('/Metadata/thumbnail.png');
  });

  const hasXmllint = spawnSync('xmllint', ['--version']).error === undefined;
  // Skipped, and shown as skipped, where xmllint is not installed.
  it.skipIf(!hasXmllint)('writes well-formed XML', async () => {
    const run = spawnSync('xmllint', ['--noout', '-'], {
      input: modelOf(writeThreeMf(await aMesh(), TEXT)),
      encoding: 'utf8',
    });
    expect(run.stderr).toBe('');
  });
});

function model(body: string, unit = 'millimeter'): Uint8Array {
  return zipSync({
    '3D/3dmodel.model': strToU8(`<?xml version="1.0"?><model unit="${unit}">${body}</model>`),
  });
}

describe('readThreeMf()', () => {
  const object =
    '<object id="7" type="model" name="corner"><mesh><vertices>' +
    '<vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="2" z="0"/>' +
    '</vertices><triangles><triangle v1="0" v2="1" v3="2"/></triangles></mesh></object>';

  it('gives back the mesh and the name that were written', async () => {
    const mesh = await aMesh();
    const back = readThreeMf(writeThreeMf(mesh, TEXT));
    expect(back.mesh).toEqual(mesh);
    expect(back.name).toBe(TEXT.name);
  });

  it('converts other units and applies the transform of a build item', () => {
    const item = '<build><item objectid="7" transform="0 1 0 -1 0 0 0 0 1 10 0 5"/></build>';
    const { mesh } = readThreeMf(model(`<resources>${object}</resources>${item}`, 'centimeter'));
    // Row vectors: x' = -y + 10, y' = x, z' = z + 5; then centimetres to mm.
    expect([...mesh.vertices]).toEqual([100, 0, 50, 100, 10, 50, 80, 0, 50]);
  });

  it('says what is wrong with other files', () => {
    const item = '<build><item objectid="7"/></build>';
    expect(() => readThreeMf(strToU8('not a zip'))).toThrow(/not a readable zip/);
    expect(() => readThreeMf(zipSync({ 'a.txt': strToU8('a') }))).toThrow(/no \.model part/);
    expect(() => readThreeMf(model(object + item, 'furlong'))).toThrow(/unit is "furlong"/);
    expect(() => readThreeMf(model(item))).toThrow(/no object with a mesh/);
    expect(() => readThreeMf(model(object.replace('v3="2"', 'v3="3"') + item))).toThrow(
      /names no vertex/,
    );
  });
});

describe('coordinates of a 3MF', () => {
  it('come back bit for bit over all magnitudes, with no needless digits', () => {
    const random = createStream('3mf');
    const values = [
      0.1, 0.5, 100, -0, 1e-7, 3.0000002, -61.25, 123456.7, 1e6, 16777216, 3e30,
    ].concat(
      Array.from({ length: 3000 }, () => {
        // 1e-9 .. 1e9 of either sign.
        const size = 10 ** (18 * random.next() - 9);
        return random.next() < 0.5 ? size : -size;
      }),
    );
    while (values.length % 9 !== 0) values.push(1);
    const vertices = Float32Array.from(values);
    const triangles = Uint32Array.from({ length: vertices.length / 3 }, (_, k) => k);
    const bytes = writeThreeMf({ vertices, triangles }, { name: 'n', description: 'd' });
    const back = readThreeMf(bytes).mesh;
    expect([...back.vertices].map((x) => x + 0)).toEqual([...vertices].map((x) => x + 0));
    expect(back.triangles).toEqual(triangles);
    const xml = strFromU8(unzipSync(bytes)['3D/3dmodel.model']);
    expect(xml).toContain('<vertex x="0.1" y="0.5" z="100"/>');
    expect(xml).toContain('z="3.0000002"');
    expect(xml).toContain('x="-61.25"');
  });
});
