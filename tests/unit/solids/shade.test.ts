import { describe, expect, it } from 'vitest';
import { shadeMesh } from '../../../src/solids/index.ts';
import { boxes } from './boxes.ts';

const SIZE = 64;

function at(pixels: Uint8Array, column: number, row: number): [grey: number, alpha: number] {
  const k = 2 * (row * SIZE + column);
  return [pixels[k], pixels[k + 1]];
}

describe('shadeMesh()', () => {
  const cube = shadeMesh(boxes([0, 0, 0, 10, 10, 10]), SIZE);

  it('leaves what is beside the solid open and fills the middle', () => {
    for (const corner of [0, SIZE - 1]) {
      expect(at(cube, corner, 0)[1]).toBe(0);
      expect(at(cube, corner, SIZE - 1)[1]).toBe(0);
    }
    expect(at(cube, SIZE / 2, SIZE / 2)[1]).toBe(255);
  });

  it('shows three faces of a cube in three tones, the top lightest', () => {
    const top = at(cube, 32, 16);
    const left = at(cube, 20, 42);
    const right = at(cube, 44, 42);
    expect([top[1], left[1], right[1]]).toEqual([255, 255, 255]);
    expect(top[0]).toBeGreaterThan(left[0]);
    expect(left[0]).toBeGreaterThan(right[0]);
  });

  it('covers the hexagon that a cube is in isometric projection (ISO 5456-3)', () => {
    let covered = 0;
    for (let k = 1; k < cube.length; k += 2) covered += cube[k] / 255;
    // Edges foreshortened by sqrt(2/3): a hexagon of that side s, 2 s high, of area 3/2 sqrt(3) s^2.
    const side = Math.floor(SIZE * 0.92) / 2;
    expect(covered / (1.5 * Math.sqrt(3) * side * side)).toBeCloseTo(1, 1);
  });

  it('hides what lies behind', () => {
    const hidden = shadeMesh(boxes([0, 0, 0, 10, 10, 10], [1, 5, 1, 2, 6, 2]), SIZE);
    expect(hidden).toEqual(cube);
  });
});
