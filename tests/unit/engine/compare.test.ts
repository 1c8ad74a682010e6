import { describe, expect, it } from 'vitest';
import { attainmentOf, compareFronts } from '../../../src/engine/index.ts';
import type { ComparedFront } from '../../../src/engine/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { aFront } from '../../support/fronts.ts';

/** A front of given readings: pressure drop and mass, less of both is better. */
function withReadings(
  name: string,
  readings: readonly (readonly [number, number | null])[],
  changes: Partial<ComparedFront> = {},
): ComparedFront {
  const designs = readings.map((row, i) => ({
    id: `d${String(i + 1).padStart(3, '0')}`,
    readings: row,
  }));
  return { ...aFront(), name, designs, ...changes };
}

// Drawn on squared paper: A and B cross once; (4, 4) of A is beaten by (4, 3) of B and (3, 4) of B.
const A = withReadings('a', [
  [1, 8],
  [4, 4],
  [8, 1],
]);
const B = withReadings('b', [
  [3, 4],
  [4, 3],
  [9, 1],
  [1, 8],
]);

describe('compareFronts()', () => {
  it('tells which designs survive among all, and counts the beaten ones', () => {
    const found = compareFronts([A, B]);
    expect(found.by.map(({ id }) => id)).toEqual(['pressureDrop_Pa', 'mass_g']);
    // Equal designs of two fronts do not beat each other: both stay.
    expect(found.fronts.map(({ joint }) => joint)).toEqual([
      ['d001', 'd003'],
      ['d001', 'd002', 'd004'],
    ]);
    expect(found.dominated).toEqual([
      [0, 1],
      [1, 0],
    ]);
    expect(found.remarks).toEqual([]);
  });

  it('measures the hypervolume in one box', () => {
    const { fronts, yardstick } = compareFronts([A, B]);
    expect(yardstick.best).toEqual([1, 1]);
    expect(yardstick.reference).toEqual([9 + 0.8, 8 + 0.7]);
    // Areas counted by hand on the unscaled paper, up to (9.8, 8.7), over the box of 8.8 x 7.7.
    const a = 0.7 * (9.8 - 1) + (8 - 4) * (9.8 - 4) + (4 - 1) * (9.8 - 8);
    const b = 0.7 * (9.8 - 1) + (8 - 4) * (9.8 - 3) + (4 - 3) * (9.8 - 4) + (3 - 1) * (9.8 - 9);
    expect(fronts[0].hypervolume).toBeCloseTo(a / (8.8 * 7.7), 12);
    expect(fronts[1].hypervolume).toBeCloseTo(b / (8.8 * 7.7), 12);
  });

  it('turns measures of which more is better', () => {
    const measures = A.measures.map((info) => ({ ...info, better: 'higher' as const }));
    const found = compareFronts([
      { ...A, measures },
      { ...B, measures },
    ]);
    expect(found.yardstick.best).toEqual([9, 8]);
    expect(found.dominated).toEqual([
      // (4, 4) beats (3, 4) and (4, 3); (9, 1) beats (8, 1).
      [0, 2],
      [1, 0],
    ]);
  });

  it('leaves out designs without a number, and says so', () => {
    const found = compareFronts([
      A,
      withReadings('c', [
        [1, null],
        [2, 2],
      ]),
    ]);
    expect(found.fronts[1]).toMatchObject({ designs: 2, compared: 1, joint: ['d002'] });
    expect(found.remarks).toEqual([
      '1 design of c without a number for every one of these left out.',
    ]);
  });

  it('says what fronts of different objectives do not share', () => {
    const other = withReadings('other', [[2, 2]], { objectives: ['mass_g'] });
    const found = compareFronts([A, other]);
    expect(found.by.map(({ id }) => id)).toEqual(['mass_g']);
    expect(found.remarks).toEqual([
      'a was evolved for pressure drop too, which does not count here.',
    ]);
    // Under one objective only, a front beats most of itself.
    expect(found.fronts[0].joint).toEqual(['d003']);
    const named = compareFronts([A, other], ['pressureDrop_Pa', 'mass_g']);
    expect(named.remarks).toEqual(['other was not evolved for pressure drop.']);
  });

  it('says which sections of the briefs differ', () => {
    const other = withReadings('other', [[2, 2]], { brief: aBrief({ 'plate.thickness_mm': 7 }) });
    expect(compareFronts([A, other]).remarks).toEqual([
      'other was made for another job than a: plate differs. Numbers are compared as they stand.',
    ]);
  });

  it('counts measures of another unit or sense as different', () => {
    const [first, second] = A.measures;
    const pounds = withReadings('pounds', [[1, 1]], {
      measures: [first, { ...second, unit: 'lb' }],
    });
    expect(compareFronts([A, pounds]).common.map(({ id }) => id)).toEqual(['pressureDrop_Pa']);
    expect(() => compareFronts([A, pounds], ['mass_g'])).toThrow(
      /by is mass_g; it must be one of pressureDrop_Pa/,
    );
  });

  it('refuses a single front, and fronts that share no objective', () => {
    expect(() => compareFronts([A])).toThrow(/fronts is 1 given; it must be two or more/);
    const left = { ...A, objectives: ['mass_g'] };
    const right = { ...B, objectives: ['pressureDrop_Pa'] };
    expect(() => compareFronts([left, right])).toThrow(/shared by all fronts/);
  });

  it('takes an empty front', () => {
    const found = compareFronts([A, withReadings('empty', [])]);
    expect(found.fronts[1]).toMatchObject({ compared: 0, joint: [], hypervolume: 0 });
  });
});

describe('attainmentOf()', () => {
  it('gives quarter, half and three quarters of the fronts, in the sense people read', () => {
    const surfaces = attainmentOf([A, B], 'pressureDrop_Pa', 'mass_g');
    expect(surfaces.map(({ share, times }) => [share, times])).toEqual([
      [0.25, 1],
      [0.5, 1],
      [0.75, 2],
    ]);
    expect([...surfaces[0].corners]).toEqual([1, 8, 3, 4, 4, 3, 8, 1]);
    expect([...surfaces[2].corners]).toEqual([1, 8, 4, 4, 8, 3, 9, 1]);
    const measures = A.measures.map((info) => ({ ...info, better: 'higher' as const }));
    const [best] = attainmentOf(
      [
        { ...A, measures },
        { ...B, measures },
      ],
      'pressureDrop_Pa',
      'mass_g',
    );
    expect([...best.corners]).toEqual([9, 1, 4, 4, 1, 8]);
  });
});
