import { describe, expect, it } from 'vitest';

import { addSegment, clearBetween, createCarveMemory } from '../../../src/print/crossings.ts';
import { reserveCarving, startLayer } from '../../../src/print/crossings.ts';
import type { Grid } from '../../../src/print/grid.ts';

const GRID: Grid = {
  edge: false,
  pixel_mm: 1,
  layer_mm: 1,
  columns: 1000,
  rows: 2,
  layers: 1,
  words: 32,
  layerWords: 64,
  u0_mm: 0,
  v0_mm: 0,
  a0_mm: 0,
  step_px: 1,
};

function clearedBy(draw: (segment: (u: number, rising: boolean) => void) => void): number[] {
  const memory = createCarveMemory();
  reserveCarving(memory, GRID, 8, 1);
  const solid = new Int32Array(GRID.layerWords).fill(-1);
  startLayer(GRID);
  draw((u, rising) => {
    addSegment(GRID, u, rising ? -0.5 : 1.5, u, rising ? 1.5 : -0.5, memory);
  });
  clearBetween(GRID, 0, solid, memory);
  const cleared: number[] = [];
  for (let i = 0; i < GRID.columns; i++) {
    for (const row of [0, 1]) {
      expect((solid[row * 32 + (i >> 5)] >>> (i & 31)) & 1).toBe((solid[i >> 5] >>> (i & 31)) & 1);
    }
    if (((solid[i >> 5] >>> (i & 31)) & 1) === 0) cleared.push(i);
  }
  return cleared;
}

describe('clearBetween()', () => {
  it('clears by winding number: a tube over itself stays void, what lies between two does not', () => {
    // Two loops, 10..30 and 20..40, and a third 50..52, drawn out of order.
    const cleared = clearedBy((segment) => {
      segment(39.5, false);
      segment(9.5, true);
      segment(29.5, false);
      segment(19.5, true);
      segment(49.5, true);
      segment(51.5, false);
    });
    const expected = Array.from({ length: 30 }, (_, i) => 10 + i);
    expect(cleared).toEqual([...expected, 50, 51]);
  });

  it('makes room for as many crossings as a rippled ceiling brings', () => {
    const cleared = clearedBy((segment) => {
      for (let i = 0; i < 200; i++) {
        segment(4 * i + 0.5, true);
        segment(4 * i + 2.5, false);
      }
    });
    expect(cleared).toEqual(Array.from({ length: 200 }, (_, i) => [4 * i + 1, 4 * i + 2]).flat());
  });
});
