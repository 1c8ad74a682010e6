/**
 * What the raster draws on: the layers as bitmaps, and what is read from one layer at a time. The form
 * here is the plain one; `canvas-kernel.ts` holds the compiled one.
 */
import { createBridgeMemory, judgeLines } from './bridges.ts';
import type { BridgeMemory, SpanLimits } from './bridges.ts';
import { carveTube } from './carve.ts';
import { createCarveMemory } from './crossings.ts';
import { isRepeated } from './grid.ts';
import type { Grid } from './grid.ts';
import type { Rings } from './rings.ts';
import { spreadRuns } from './row-raster.ts';
import type { RowCuts, Strides } from './row-raster.ts';
import { createRuns, findRuns, joinRuns } from './runs.ts';
import type { Runs } from './runs.ts';
import { findUnsupported } from './unsupported.ts';
import type { Discs, Touched } from './unsupported.ts';

/** The layers of one plate; the next plate takes the same memory. */
export interface Canvas {
  readonly grid: Grid;
  /** Bitmaps of all layers, layer after layer; what is set is solid. */
  readonly solid: Int32Array;
  /** Bitmap of the unsupported pixels of the layer at hand. */
  readonly unsupported: Int32Array;
  /** Runs of the layer at hand. */
  readonly runs: Runs;
  /** Pixels of each piece of the layer at hand, at the index of its first run, after `addRuns`. */
  readonly pieceSize: Int32Array;
  /** Sums over all layers: pixels of each row, and of each column as differences to the one before. */
  readonly row: Float64Array;
  readonly column: Float64Array;
  /** Takes over a shape's wall, which the next `carve` calls place. */
  setWall(rings: Rings): void;
  /** Clears the shape, moved by x and y, from all layers. */
  carve(x_mm: number, y_mm: number): void;
  /** Finds the runs of a layer and joins them; true, and nothing done, when it repeats the one before. */
  readLayer(layer: number): boolean;
  /** Adds the layer's runs to `row`, `column` and `pieceSize`; returns its pixels. */
  addRuns(): number;
  /** See `findUnsupported`. */
  findUnsupported(layer: number, discs: Discs, touched: Touched): void;
  /** Memory for `judgeSpans`, and see `judgeLines`. */
  readonly bridging: BridgeMemory;
  judgeLines(layer: number, touched: Touched, limits: SpanLimits, direction: number): void;
  /** See `spreadRuns`; the runs of the layer at hand are lost. */
  spreadRuns(cuts: RowCuts, strides: Strides): void;
}

const carving = createCarveMemory();
const bridging = createBridgeMemory();
const runs = createRuns();
let solid = new Int32Array(0);
let unsupported = new Int32Array(0);
let pieceSize = new Int32Array(0);

/** The canvas in plain form. */
export function plainCanvas(grid: Grid): Canvas {
  const { rows, columns, words, layers, layerWords } = grid;
  if (solid.length < layerWords * layers) solid = new Int32Array(layerWords * layers);
  if (unsupported.length < layerWords) unsupported = new Int32Array(layerWords);
  let wall: Rings | null = null;
  return {
    grid,
    solid,
    unsupported,
    runs,
    get pieceSize() {
      return pieceSize;
    },
    row: new Float64Array(rows),
    column: new Float64Array(columns + 1),
    setWall(rings) {
      wall = rings;
    },
    carve(x_mm, y_mm) {
      if (wall !== null) carveTube(grid, wall, x_mm, y_mm, this.solid, carving);
    },
    readLayer(layer) {
      if (isRepeated(grid, this.solid, layer)) return true;
      findRuns(this.solid, layer * layerWords, rows, words, runs);
      joinRuns(runs, rows, 0);
      return false;
    },
    addRuns() {
      return sumRuns(rows, this.row, this.column);
    },
    findUnsupported(layer, discs, touched) {
      findUnsupported(grid, this.solid, layer, discs, this.unsupported, touched);
    },
    bridging,
    judgeLines(layer, touched, limits, direction) {
      const { solid: all, unsupported: loose } = this;
      judgeLines(grid, all, layer, loose, touched, limits, bridging, direction);
    },
    spreadRuns(cuts, strides) {
      spreadRuns(grid, this.solid, cuts, strides);
    },
  };
}

function sumRuns(rows: number, row: Float64Array, column: Float64Array): number {
  const { from, to, rowStart, piece, count } = runs;
  if (pieceSize.length < count) pieceSize = new Int32Array(2 * count);
  pieceSize.fill(0, 0, count);
  let area = 0;
  for (let r = 0; r < rows; r++) {
    let sum = 0;
    for (let i = rowStart[r]; i < rowStart[r + 1]; i++) {
      sum += to[i] - from[i];
      pieceSize[piece[i]] += to[i] - from[i];
      column[from[i]]++;
      column[to[i]]--;
    }
    row[r] += sum;
    area += sum;
  }
  return area;
}
