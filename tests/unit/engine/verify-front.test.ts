import { describe, expect, it } from 'vitest';
import { differentDesigns } from '../../../src/engine/index.ts';
import type { Front } from '../../../src/engine/index.ts';
import { aFront } from '../../support/fronts.ts';

/** A front of two objectives, `points` in the order of their ids. */
function frontOf(points: readonly (readonly [number, number])[]): Front {
  const front = aFront();
  const [first] = front.designs;
  const designs = points.map((readings, i) => ({
    ...first,
    id: `d${String(i + 1).padStart(3, '0')}`,
    readings,
  }));
  return { ...front, designs };
}

describe('differentDesigns()', () => {
  it('takes the ends first, then the widest gap, each objective by its own span', () => {
    // On a line from (0, 1000) to (10, 0): the middle of the widest gap left.
    const front = frontOf([
      [0, 1000],
      [1, 900],
      [4, 600],
      [6, 400],
      [10, 0],
    ]);
    expect(differentDesigns(front, 2)).toEqual(['d001', 'd005']);
    expect(differentDesigns(front, 3)).toEqual(['d001', 'd005', 'd003']);
    expect(differentDesigns(front, 9)).toHaveLength(5);
  });

  it('takes the smaller id of equals, never a copy, and the knee alone', () => {
    const square = frontOf([
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
      [1, 1],
    ]);
    expect(differentDesigns(square, 9)).toEqual(['d001', 'd004', 'd002', 'd003']);
    expect(differentDesigns(square, 1)).toHaveLength(1);
    expect(differentDesigns({ ...square, designs: [] }, 3)).toEqual([]);
  });
});
