import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import {
  frontDigest,
  readFrontFile,
  readNotesFile,
  writeFrontFile,
  writeNotesFile,
} from '../../../src/formats/index.ts';
import { aFront } from '../../support/fronts.ts';

const FRONT = 'a'.repeat(64);

describe('frontDigest()', () => {
  it('is the SHA-256 of the front file, also of one laid out differently', () => {
    const text = writeFrontFile(aFront());
    const digest = createHash('sha256').update(text).digest('hex');
    expect(frontDigest(aFront())).toBe(digest);
    expect(frontDigest(readFrontFile(JSON.stringify(JSON.parse(text))))).toBe(digest);
  });
});

describe('notes file', () => {
  it('reads back what was written, in order, without empty notes', () => {
    const text = writeNotesFile({
      front: FRONT,
      designs: [
        { id: 'd1000', star: true, note: '' },
        { id: 'd002', star: false, note: 'print <b>two</b>\nfor the bench' },
        { id: 'd001', star: false, note: '' },
      ],
    });
    expect(readNotesFile(text)).toEqual({
      front: FRONT,
      designs: [
        { id: 'd002', star: false, note: 'print <b>two</b>\nfor the bench' },
        { id: 'd1000', star: true, note: '' },
      ],
    });
  });

  it.each([
    [{ version: 2 }, /version/],
    [{ format: 'anfract-front' }, /format/],
    [{ front: 'A' }, /front is/],
    [{ designs: [{ id: '../d001', star: true, note: '' }] }, /designs\[0\]\.id/],
    [{ designs: [{ id: 'd001', star: true, note: 'x'.repeat(4001) }] }, /designs\[0\]\.note/],
    [{ designs: [{ id: 'd001', star: true, note: '', more: 1 }] }, /more/],
    [
      {
        designs: [
          { id: 'd001', star: true, note: '' },
          { id: 'd001', star: false, note: 'b' },
        ],
      },
      /designs\[1\]\.id is 'd001' again/,
    ],
  ])('refuses %j', (changes, words) => {
    const file = { format: 'anfract-notes', version: 1, front: FRONT, designs: [], ...changes };
    expect(() => readNotesFile(JSON.stringify(file), 'n.json')).toThrow(words);
  });
});
