import { describe, expect, it } from 'vitest';
import { differingGenes } from '../../../src/web/solid/genes.ts';
import { areaOf, layerPixels } from '../../../src/web/solid/layer-pixels.ts';
import { roundLength } from '../../../src/web/solid/round-length.ts';

describe('differingGenes()', () => {
  const bore = { name: 'bore_mm', kind: 'real', min: 2, max: 6 } as const;
  const shape = {
    name: 'section',
    kind: 'choice',
    min: 0,
    max: 1,
    options: ['round', 'slot'],
  } as const;

  it('lists what differs, choices by name, and what is the same', () => {
    const { rows, same } = differingGenes([
      { genes: [bore, shape], values: [3, 0] },
      { genes: [bore, shape], values: [3, 1] },
    ]);
    expect(rows).toEqual([{ name: 'section', values: ['round', 'slot'], allowed: '2 kinds' }]);
    expect(same).toEqual(['bore_mm']);
  });

  it('matches fronts of other genes by name', () => {
    const { rows } = differingGenes([
      { genes: [bore], values: [3] },
      { genes: [shape, bore], values: [1, 3] },
    ]);
    expect(rows.map(({ name, values }) => [name, ...values])).toEqual([
      ['section', '\u2013', 'slot'],
    ]);
  });
});

describe('layerPixels()', () => {
  const picture = {
    layer: 0,
    layers: 1,
    height_mm: 0.1,
    pixel_mm: 0.5,
    columns: 4,
    rows: 2,
    solid: Int32Array.of(0, 0, 3),
    hanging: Int32Array.of(0, 2, 3),
  };

  it('puts the lowest row at the bottom, hanging over solid, clear elsewhere', () => {
    const pixels = layerPixels(picture, {
      solid: [1, 1, 1],
      hanging: [2, 2, 2],
      stripe: [3, 3, 3],
    });
    const red = Array.from({ length: 8 }, (_, k) => (pixels[4 * k + 3] === 0 ? 0 : pixels[4 * k]));
    expect(red).toEqual([0, 0, 0, 0, 1, 1, 3, 0]);
  });

  it('sums areas', () => {
    expect(areaOf(picture.solid, picture.pixel_mm)).toBeCloseTo(0.75, 12);
  });
});

describe('roundLength()', () => {
  it('takes the longest of 1, 2, 5 times a power of ten', () => {
    expect([37, 50, 19.9, 0.13].map((most) => Number(roundLength(most).toPrecision(3)))).toEqual([
      20, 50, 10, 0.1,
    ]);
  });
});
