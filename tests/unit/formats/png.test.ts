import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { writeGreyPng } from '../../../src/formats/index.ts';

describe('writeGreyPng()', () => {
  const pixels = Uint8Array.from([0, 255, 50, 255, 100, 128, 150, 0, 200, 255, 250, 7]);
  const file = Buffer.from(writeGreyPng(pixels, 3, 2));

  it('begins and ends as the specification says', () => {
    // PNG specification (W3C), 5.2 and 11.2: signature; IHDR of 13 bytes; IEND is empty, and the check
    // sum of its name is AE 42 60 82.
    expect(file.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
    expect(file.subarray(8, 33).toString('hex').slice(0, 42)).toBe(
      '0000000d4948445200000003000000020804000000',
    );
    expect(file.subarray(-12).toString('hex')).toBe('0000000049454e44ae426082');
  });

  it('holds the rows, each after a filter byte of 0', () => {
    const length = file.readUInt32BE(33);
    expect(file.subarray(37, 41).toString()).toBe('IDAT');
    const lines = inflateSync(file.subarray(41, 41 + length));
    expect([...lines]).toEqual([0, ...pixels.subarray(0, 6), 0, ...pixels.subarray(6)]);
  });

  it('refuses pixels that do not fill the picture', () => {
    expect(() => writeGreyPng(pixels, 4, 2)).toThrow(/12 bytes for a picture of 4 x 2/);
  });
});
