/**
 * Which cells hold air and where their populations lie in memory.
 *
 * Cells are kept in rows along z. A row (x, y) takes one run of addresses, from the first to the last
 * cell that it or a neighbouring row needs, so solid space beside the channel costs nothing, and all
 * neighbours of a span of air cells lie at fixed distances from it: no index table, no branch.
 */
import { DIRECTIONS } from './lattice.ts';
import type { Scene } from './scene.ts';

/** Numbers per span: address, length, z, and the distances to the eight rows around. */
export const SPAN_FIELDS = 11;

export interface Grid {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** Addresses in use, for one direction. */
  readonly size: number;
  /** Air cells. */
  readonly cells: number;
  /** Runs of air cells, see `SPAN_FIELDS`. */
  readonly spans: Int32Array;
  isFluid(x: number, y: number, z: number): boolean;
  /** Address of a cell; its z, and x and y, may lie one cell outside the grid. */
  address(x: number, y: number, z: number): number;
}

/** Memory of a solve with so many addresses and wall links [bytes]. */
export function solveBytes(size: number, links: number): number {
  return 2 * 4 * DIRECTIONS * size + 28 * links;
}

export function createGrid(scene: Scene): Grid {
  const { nx, ny, nz } = scene;
  const fluid = new Uint8Array(nx * ny * nz);
  // Rows with one more on each side, for what lies beyond the edge.
  const wide = ny + 2;
  const rows = (nx + 2) * wide;
  const from = new Int32Array(rows).fill(nz + 2);
  const to = new Int32Array(rows).fill(-2);
  let cells = 0;
  for (let x = 0; x < nx; x++) {
    for (let y = 0; y < ny; y++) {
      let first = -1;
      let last = -1;
      for (let z = 0; z < nz; z++) {
        const box = scene.box(z);
        if (box && (x < box.x0 || x > box.x1 || y < box.y0 || y > box.y1)) continue;
        if (!scene.inside(x, y, z)) continue;
        fluid[(x * ny + y) * nz + z] = 1;
        cells++;
        if (first < 0) first = z;
        last = z;
      }
      if (first < 0) continue;
      for (let dx = 0; dx < 3; dx++) {
        for (let dy = 0; dy < 3; dy++) {
          const row = (x + dx) * wide + y + dy;
          from[row] = Math.min(from[row], first - 1);
          to[row] = Math.max(to[row], last + 1);
        }
      }
    }
  }
  const base = new Int32Array(rows);
  let size = 0;
  for (let row = 0; row < rows; row++) {
    if (to[row] < from[row]) continue;
    base[row] = size - from[row];
    size += to[row] - from[row] + 1;
  }
  const isFluid = (x: number, y: number, z: number): boolean =>
    x >= 0 && y >= 0 && z >= 0 && x < nx && y < ny && z < nz && fluid[(x * ny + y) * nz + z] === 1;
  const address = (x: number, y: number, z: number): number => base[(x + 1) * wide + y + 1] + z;
  const spans: number[] = [];
  for (let x = 0; x < nx; x++) {
    for (let y = 0; y < ny; y++) {
      const row = (x + 1) * wide + y + 1;
      for (let z = 0; z < nz; z++) {
        if (!isFluid(x, y, z)) continue;
        const start = z;
        while (isFluid(x, y, z + 1)) z++;
        spans.push(base[row] + start, z - start + 1, start);
        for (const other of [
          row - wide,
          row + wide,
          row - 1,
          row + 1,
          row - wide - 1,
          row + wide + 1,
          row - wide + 1,
          row + wide - 1,
        ]) {
          spans.push(base[other] - base[row]);
        }
      }
    }
  }
  return { nx, ny, nz, size, cells, spans: Int32Array.from(spans), isFluid, address };
}
