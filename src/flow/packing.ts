/** The populations of the air cells alone, without what lies between them: what a saved march keeps. */
import { SPAN_FIELDS } from './grid.ts';
import type { Grid } from './grid.ts';
import { DIRECTIONS } from './lattice.ts';

/** @returns populations in the order of the grid's spans [19 x cells]. */
export function packAir(f: Float32Array, grid: Grid): Float32Array {
  const out = new Float32Array(DIRECTIONS * grid.cells);
  eachSpan(grid, (at, from, length) => {
    out.set(f.subarray(from, from + length), at);
  });
  return out;
}

/** Puts packed populations back. */
export function unpackAir(packed: Float32Array, f: Float32Array, grid: Grid): void {
  eachSpan(grid, (at, from, length) => {
    f.set(packed.subarray(at, at + length), from);
  });
}

function eachSpan(
  { spans, size }: Grid,
  visit: (at: number, from: number, length: number) => void,
): void {
  let at = 0;
  for (let i = 0; i < DIRECTIONS; i++) {
    for (let s = 0; s < spans.length; s += SPAN_FIELDS) {
      visit(at, i * size + spans[s], spans[s + 1]);
      at += spans[s + 1];
    }
  }
}
