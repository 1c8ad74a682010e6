import { describe, expect, it } from 'vitest';
import { SHADE_KINDS } from '../../../src/web/solid/shades.ts';
import {
  PLAIN_VIEW,
  SHADES_IN_LINKS,
  readView,
  writeView,
} from '../../../src/web/state/link-text.ts';
import type { View } from '../../../src/web/state/link-text.ts';

const VIEW: View = {
  ...PLAIN_VIEW,
  front: '0123456789abcdef',
  x: 'pressureDrop_Pa',
  y: 'mass_g',
  size: 'none',
  ranges: { mass_g: [1e-7, 40], dustCapture: [-0.5, 1] },
  designs: ['d001', 'd1000'],
  thirdAs: 'shade',
  window: { x: [0.125, 90], y: [-3, 1e-9] },
  axes: ['dustCapture', 'mass_g'],
  matrix: ['openArea_mm2'],
  compared: { x: 'mass_g', y: 'partCost', by: 'axes' },
  solid: {
    eye: { turn_deg: -70.25, raise_deg: 12.5, zoom: 3.5, panX: 0.25, panY: -0.5 },
    shown: 'both',
    shade: 'thickness',
    cut: { axis: 1, share: 0.375, other: true },
    isLit: false,
    layer: 17,
  },
};

describe('links', () => {
  it('come back as they were written', () => {
    expect(readView(writeView(VIEW))).toEqual(VIEW);
  });

  it('say nothing of what is not chosen', () => {
    const bare = { ...PLAIN_VIEW, front: VIEW.front };
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
      ...PLAIN_VIEW,
      front: VIEW.front,
      ranges: { cost: [2, 9] },
      designs: ['d001', 'd003'],
    });
  });

  it.each([
    'eye=1*2*3',
    'eye=a*0*1*0*0',
    'eye=Infinity*0*1*0*0',
    'cut=w*0.5',
    'cut=x*',
    'cut=x*NaN',
    'window=1*2*3',
    'window=1*1*2*3',
    'shade=__proto__',
    'show=everything',
    'layer=-1',
    'layer=1e3',
    'axes=<b>.1x',
    'as=colour',
    'by=cost',
  ])('take nothing of %s', (text) => {
    expect(readView(`front=${VIEW.front}&${text}`)).toEqual({ ...PLAIN_VIEW, front: VIEW.front });
  });

  it('keep camera and cut within what hands can reach', () => {
    const read = readView(`front=${VIEW.front}&eye=725*400*1e9*-9*9&cut=z*7`);
    expect(read?.solid.eye).toEqual({
      turn_deg: 5,
      raise_deg: 90,
      zoom: 40,
      panX: -1.5,
      panY: 1.5,
    });
    expect(read?.solid.cut).toEqual({ axis: 2, share: 1, other: false });
  });

  it('know every shade of the view of parts', () => {
    expect(SHADES_IN_LINKS).toEqual(SHADE_KINDS);
  });

  it('cannot reach the prototype of the ranges', () => {
    const read = readView(`front=${VIEW.front}&range=__proto__*1*2`);
    expect(Object.keys(read?.ranges ?? {})).toEqual([]);
    expect(Object.getPrototypeOf(read?.ranges)).toBe(Object.prototype);
  });
});
