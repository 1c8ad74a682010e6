import { describe, expect, it } from 'vitest';
import { readView, writeView } from '../../../src/web/state/link-text.ts';

const VIEW = {
  front: '0123456789abcdef',
  x: 'pressureDrop_Pa',
  y: 'mass_g',
  size: 'none',
  ranges: { mass_g: [1e-7, 40], dustCapture: [-0.5, 1] },
  designs: ['d001', 'd1000'],
} as const;

describe('links', () => {
  it('come back as they were written', () => {
    expect(readView(writeView(VIEW))).toEqual(VIEW);
  });

  it('say nothing of what is not chosen', () => {
    const bare = { front: VIEW.front, x: '', y: '', size: '', ranges: {}, designs: [] };
    expect(writeView(bare)).toBe(`front=${VIEW.front}`);
    expect(readView(`front=${VIEW.front}`)).toEqual(bare);
  });

  it('take no more of the digest than they need', () => {
    expect(writeView({ ...VIEW, front: VIEW.front.repeat(4) })).toBe(writeView(VIEW));
  });

  it.each(['', 'x=mass_g', 'front=', 'front=zz', `front=${VIEW.front}0`])(
    'are none without a sound digest: %j',
    (text) => {
      expect(readView(text)).toBeNull();
    },
  );

  it('leave out what cannot be read', () => {
    const text =
      `front=${VIEW.front}&x=<b>&range=mass_g*1&range=mass_g*a*b&range=a b*1*2&range=cost*9*2` +
      '&designs=d001.../../d002.d003.x';
    expect(readView(text)).toEqual({
      front: VIEW.front,
      x: '',
      y: '',
      size: '',
      ranges: { cost: [2, 9] },
      designs: ['d001', 'd003'],
    });
  });

  it('cannot reach the prototype of the ranges', () => {
    const read = readView(`front=${VIEW.front}&range=__proto__*1*2`);
    expect(Object.keys(read?.ranges ?? {})).toEqual([]);
    expect(Object.getPrototypeOf(read?.ranges)).toBe(Object.prototype);
  });
});
