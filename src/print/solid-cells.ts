/**
 * The solid of a plate in coarse cells: how full each is, and how much solid joins it to its
 * neighbours. For fields in the solid (heat), not for printing: layers run with the air.
 */
import { outlineBounds } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { carveTube } from './carve.ts';
import { createCarveMemory } from './crossings.ts';
import { drawPlate } from './grid.ts';
import type { Grid } from './grid.ts';
import { carvePlenum } from './plenum.ts';
import { createRings, writeRings } from './rings.ts';

/** Pixels along a cell's side and layers in its height, in which it is drawn. */
const SIDE = 4;
const DEEP = 2;

/**
 * Cells in rows along x, rows along y, layers from the inlet face up: cell (i, j, k) is entry
 * (k ny + j) nx + i. All entries are shares from 0 to 1.
 */
export interface SolidCells {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** Side in the plate and height across it [mm]. */
  readonly side_mm: number;
  readonly height_mm: number;
  /** Corner of cell (0, 0, 0) [mm]; z starts at the inlet face. */
  readonly x0_mm: number;
  readonly y0_mm: number;
  /** Solid of the cell. */
  readonly full: Float32Array;
  /** Solid on both sides of the face to the next cell along x, y, z. */
  readonly joinX: Float32Array;
  readonly joinY: Float32Array;
  readonly joinZ: Float32Array;
  /** Solid in the inlet and the outlet face [ny x nx]. */
  readonly inlet: Float32Array;
  readonly outlet: Float32Array;
}

const carving = createCarveMemory();
const rings = createRings();
let solid = new Int32Array(0);

/**
 * Draws a plate into coarse cells.
 *
 * Each cell is drawn in 4 x 4 pixels and 2 layers, cut exactly as the layer raster is; no cell needs
 * to be as fine as the walls, since shares, not yes or no, are kept.
 *
 * @param side_mm wished side of a cell; rounded so that whole cells span the outline.
 * @param nz cells through the thickness.
 */
export function solidCells(samples: PlateSamples, side_mm: number, nz: number): SolidCells {
  const { plate } = samples;
  const { minX_mm: x0, minY_mm: y0, maxX_mm: x1, maxY_mm: y1 } = outlineBounds(plate.outline);
  const nx = Math.max(1, Math.ceil((x1 - x0) / side_mm - 1e-9));
  const side = (x1 - x0) / nx;
  const ny = Math.max(1, Math.ceil((y1 - y0) / side - 1e-9));
  const corner = (y0 + y1 - ny * side) / 2;
  const pixel_mm = side / SIDE;
  const layer_mm = plate.thickness_mm / (nz * DEEP);
  const words = (nx * SIDE + 31) >> 5;
  const grid: Grid = {
    edge: false,
    pixel_mm,
    layer_mm,
    columns: nx * SIDE,
    rows: ny * SIDE,
    layers: nz * DEEP,
    words,
    layerWords: words * ny * SIDE,
    u0_mm: x0 + pixel_mm / 2,
    v0_mm: corner + pixel_mm / 2,
    a0_mm: layer_mm / 2,
    step_px: 0,
  };
  const all = grid.layerWords * grid.layers;
  if (solid.length < all) solid = new Int32Array(all);
  drawPlate(plate, grid, solid);
  for (let shape = 0; shape < samples.shapeCount; shape++) {
    writeRings(samples, shape, rings);
    for (let c = 0; c < samples.channelCount; c++) {
      if (samples.shapeOf[c] !== shape) continue;
      const { offset_mm: offset } = samples;
      carveTube(grid, rings, offset[2 * c], offset[2 * c + 1], solid, carving);
    }
  }
  const plenum = samples.sides?.plenum;
  if (plenum) carvePlenum(grid, plenum, solid);
  const count = nx * ny * nz;
  const cells: SolidCells = {
    nx,
    ny,
    nz,
    side_mm: side,
    height_mm: plate.thickness_mm / nz,
    x0_mm: x0,
    y0_mm: corner,
    full: new Float32Array(count),
    joinX: new Float32Array(count),
    joinY: new Float32Array(count),
    joinZ: new Float32Array(count),
    inlet: new Float32Array(nx * ny),
    outlet: new Float32Array(nx * ny),
  };
  for (let layer = 0; layer < grid.layers; layer++) {
    for (let row = 0; row < grid.rows; row++) countRow(cells, grid, layer, row);
  }
  return cells;
}

/** Number of ones in the lowest 4 bits. */
const ONES = Uint8Array.of(0, 1, 1, 2, 1, 2, 2, 3, 1, 2, 2, 3, 2, 3, 3, 4);
const VOLUME = 1 / (SIDE * SIDE * DEEP);
const FLAT = 1 / (SIDE * SIDE);
const UPRIGHT = 1 / (SIDE * DEEP);

/** Adds one row of pixels to the shares of its cells. */
function countRow(cells: SolidCells, grid: Grid, layer: number, row: number): void {
  const { nx, ny, nz, full, joinX, joinY, joinZ, inlet, outlet } = cells;
  const j = Math.trunc(row / SIDE);
  const k = Math.trunc(layer / DEEP);
  const at = layer * grid.layerWords + row * grid.words;
  const isTop = layer % DEEP === DEEP - 1;
  const above = isTop && k + 1 < nz ? at + grid.layerWords : -1;
  const behind = row % SIDE === SIDE - 1 && j + 1 < ny ? at + grid.words : -1;
  const out = (k * ny + j) * nx;
  for (let i = 0; i < nx; i++) {
    const place = at + (i >> 3);
    const shift = (i & 7) << 2;
    const own = (solid[place] >>> shift) & 15;
    if (own === 0) continue;
    full[out + i] += ONES[own] * VOLUME;
    if (above >= 0) {
      joinZ[out + i] += ONES[own & (solid[above + (i >> 3)] >>> shift)] * FLAT;
    }
    if (behind >= 0) {
      joinY[out + i] += ONES[own & (solid[behind + (i >> 3)] >>> shift)] * UPRIGHT;
    }
    if (own > 7 && i + 1 < nx) {
      const next = shift === 28 ? solid[place + 1] : solid[place] >>> (shift + 4);
      joinX[out + i] += (next & 1) * UPRIGHT;
    }
    if (layer === 0) inlet[j * nx + i] += ONES[own] * FLAT;
    if (layer === grid.layers - 1) outlet[j * nx + i] += ONES[own] * FLAT;
  }
}
