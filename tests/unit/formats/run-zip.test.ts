import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openRunZip, writeRunZip } from '../../../src/formats/index.ts';

const TEXTS = { 'run.json': '{}', 'front.json': '{"a":1}', 'history.jsonl': 'line\n' };

describe('writeRunZip()', () => {
  it('gives the same bytes again', () => {
    expect(writeRunZip('a', TEXTS)).toEqual(writeRunZip('a', { ...TEXTS }));
  });

  it('is opened by openRunZip()', () => {
    expect(openRunZip(writeRunZip('a', { ...TEXTS, 'pictures/x.svg': '<svg/>' }))).toEqual({
      ...TEXTS,
      'brief.json': null,
      'notes.json': null,
      'verify.json': null,
    });
  });
});

describe('openRunZip()', () => {
  it('finds a run at the top and in folders within folders', () => {
    const flat = zipSync({ 'front.json': strToU8('{}') });
    const deep = zipSync({ 'x/y/front.json': strToU8('{}'), 'x/run.json': strToU8('other') });
    expect(openRunZip(flat)['front.json']).toBe('{}');
    expect(openRunZip(deep)).toMatchObject({ 'front.json': '{}', 'run.json': null });
  });

  it('says what is wrong with a file', () => {
    const name = 'mail.zip';
    expect(() => openRunZip(Uint8Array.of(0x50, 0x4b, 3, 4, 9, 9), name)).toThrow(
      /mail\.zip.*zip is unreadable/s,
    );
    expect(() => openRunZip(zipSync({ 'a.txt': strToU8('a') }), name)).toThrow(
      /zip is no front\.json; it must hold one run with its front\.json\. Zip the folder/,
    );
    const two = zipSync({ 'a/front.json': strToU8('{}'), 'b/front.json': strToU8('{}') });
    expect(() => openRunZip(two, name)).toThrow(/zip is 2 files front\.json/);
  });

  it('unpacks no file that claims to be huge', () => {
    const zip = zipSync({ 'front.json': new Uint8Array(1000) });
    // The unpacked size in the central directory, 24 bytes after its signature PK 1 2.
    const view = new DataView(zip.buffer);
    let at = 0;
    while (view.getUint32(at, true) !== 0x02014b50) at++;
    view.setUint32(at + 24, 300_000_000, true);
    expect(() => openRunZip(zip)).toThrow(/front\.json of 300000000 bytes/);
  });

  it('gives no more bytes than the directory of the zip says', () => {
    const zip = zipSync({ 'front.json': new Uint8Array(100_000).fill(65) });
    const view = new DataView(zip.buffer);
    let at = 0;
    while (view.getUint32(at, true) !== 0x02014b50) at++;
    view.setUint32(at + 24, 10, true);
    expect(openRunZip(zip)['front.json']).toHaveLength(10);
  });
});
