import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { createStream, sha256 } from '../../../src/numeric/index.ts';

describe('sha256()', () => {
  // Examples of FIPS 180-4, as NIST published them.
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
  ])('gives the published digest of %j', (text, digest) => {
    expect(sha256(new TextEncoder().encode(text))).toBe(digest);
  });

  it('agrees with the digest of Node for every length around the block', () => {
    const random = createStream('digest');
    for (let length = 0; length <= 200; length++) {
      const bytes = Uint8Array.from({ length }, () => Math.floor(256 * random.next()));
      expect(sha256(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
    }
  });
});
