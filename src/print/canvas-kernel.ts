/** The canvas in compiled form (`kernels/raster.ts`): same pixels, same figures, less time. */
import { loadKernel } from '../numeric/index.ts';
import type { WasmKernel } from '../numeric/index.ts';
import { DIRECTIONS, createBridgeMemory, judgeLines } from './bridges.ts';
import { plainCanvas } from './canvas.ts';
import type { Canvas } from './canvas.ts';
import { carveTube } from './carve.ts';
import { createCarveMemory } from './crossings.ts';
import type { Grid } from './grid.ts';
import { RASTER_WASM } from './raster-wasm.ts';
import type { Rings } from './rings.ts';
import { ROW_CUT } from './row-cuts.ts';
import { MOST_CUTS } from './row-raster.ts';
import type { Runs } from './runs.ts';

/** Of `kernels/raster.ts`; addresses in bytes. */
interface Exports {
  lay(
    edge: number,
    columns: number,
    rows: number,
    layers: number,
    vertices: number,
    rings: number,
    discs: number,
    loose: number,
    combs: number,
  ): number;
  begin(pixel_mm: number, layer_mm: number, u0_mm: number, v0_mm: number, a0_mm: number): void;
  carveTube(rings: number, points: number, x_mm: number, y_mm: number): number;
  readLayer(layer: number): number;
  addRuns(): number;
  findUnsupported(layer: number, one: number, two: number): void;
  judgeLines(
    layer: number,
    direction: number,
    firstRow: number,
    lastRow: number,
    bridge_px: number,
    closing_px: number,
  ): void;
  spreadRuns(count: number, planes: number, layerStride: number, rowStride: number): void;
  runs(): number;
  touches(): number;
  pieces(): number;
  firstRow(): number;
  lastRow(): number;
  wall(): number;
  runFrom(): number;
  runTo(): number;
  runPiece(): number;
  runSize(): number;
  rowStart(): number;
  rowSum(): number;
  columnSum(): number;
  discOne(): number;
  discTwo(): number;
  unsupported(): number;
  cuts(): number;
  comb(): number;
  looseFrom(): number;
  looseTo(): number;
  loosePiece(): number;
  looseStart(): number;
  failed(): number;
  freeEnded(): number;
  deepest(): number;
  longest(): number;
  failing(): number;
  solid(): number;
}

/** Points of a ring that there is room for; a wall with more is carved in plain form. */
const MOST_POINTS = 64;
/** Rows of a covering disc that there is room for; with more all is plain. */
const MOST_DISC = 129;
/** Runs of unsupported pixels in a layer that there is room for; lines of more are judged plainly. */
const MOST_LOOSE = 65_536;
const PLANES = ROW_CUT.planes;
const COMB = PLANES + 1;

/** Loaded for the first plate; null where the engine cannot. */
let kernel: WasmKernel<Exports> | null | undefined;
const carving = createCarveMemory();
const bridging = createBridgeMemory();
const choice = new Int8Array(MOST_LOOSE);

/** Puts the memory of `judgeSpans` into the kernel's. */
function layBridging(run: Exports, buffer: ArrayBuffer, grid: Grid, most: number): void {
  const { runs } = bridging;
  runs.from = new Int32Array(buffer, run.looseFrom(), most);
  runs.to = new Int32Array(buffer, run.looseTo(), most);
  runs.piece = new Int32Array(buffer, run.loosePiece(), most);
  runs.rowStart = new Int32Array(buffer, run.looseStart(), grid.rows + 1);
  bridging.failed = new Int32Array(buffer, run.failed(), DIRECTIONS * most);
  bridging.free = new Int32Array(buffer, run.freeEnded(), DIRECTIONS * most);
  bridging.deepest = new Float64Array(buffer, run.deepest(), DIRECTIONS * most);
  bridging.longest = new Float64Array(buffer, run.longest(), DIRECTIONS * most);
  bridging.choice = choice;
  const bytes = 4 * grid.layerWords;
  bridging.failing = Array.from(
    { length: DIRECTIONS },
    (_, d) => new Int32Array(buffer, run.failing() + d * bytes, grid.layerWords),
  );
}

/**
 * @param stations of a shape.
 * @param discRows rows of the larger covering disc.
 */
export function openCanvas(grid: Grid, stations: number, discRows: number): Canvas {
  if (kernel === undefined) kernel = loadKernel<Exports>(RASTER_WASM);
  if (kernel === null || discRows > MOST_DISC) return plainCanvas(grid);
  const { exports: run } = kernel;
  const { rows, columns, layers, words, layerWords } = grid;
  // Rings stand beyond both ends of the stations, at most two at each (`rings.ts`).
  const rings = stations + 4;
  const vertices = MOST_POINTS * rings;
  const mostRuns = rows * (16 * words + 1);
  const loose = Math.min(MOST_LOOSE, mostRuns);
  const bytes = run.lay(
    grid.edge ? 1 : 0,
    columns,
    rows,
    layers,
    vertices,
    rings,
    MOST_DISC,
    loose,
    MOST_CUTS * COMB,
  );
  const buffer = kernel.memory(bytes);
  run.begin(grid.pixel_mm, grid.layer_mm, grid.u0_mm, grid.v0_mm, grid.a0_mm);
  layBridging(run, buffer, grid, loose);
  const wall = new Float64Array(buffer, run.wall(), 3 * vertices);
  const one = new Int32Array(buffer, run.discOne(), MOST_DISC);
  const two = new Int32Array(buffer, run.discTwo(), MOST_DISC);
  const cuts = new Float64Array(buffer, run.cuts(), 4 * MOST_CUTS);
  const comb = new Float64Array(buffer, run.comb(), MOST_CUTS * COMB);
  const solid = new Int32Array(buffer, run.solid(), layerWords * layers);
  const runs: Runs = {
    count: 0,
    from: new Int32Array(buffer, run.runFrom(), mostRuns),
    to: new Int32Array(buffer, run.runTo(), mostRuns),
    rowStart: new Int32Array(buffer, run.rowStart(), rows + 1),
    piece: new Int32Array(buffer, run.runPiece(), mostRuns),
    touches: 0,
    pieces: 0,
  };
  let placed: Rings | null = null;
  return {
    grid,
    solid,
    unsupported: new Int32Array(buffer, run.unsupported(), layerWords),
    runs,
    pieceSize: new Int32Array(buffer, run.runSize(), mostRuns),
    row: new Float64Array(buffer, run.rowSum(), rows),
    column: new Float64Array(buffer, run.columnSum(), columns + 1),
    setWall(shape) {
      placed = shape;
      const length = 3 * shape.rings * shape.points;
      if (length <= wall.length) wall.set(shape.wall_mm.subarray(0, length));
    },
    carve(x_mm, y_mm) {
      if (placed === null) return;
      if (run.carveTube(placed.rings, placed.points, x_mm, y_mm) === 1) return;
      // No room in the kernel: what it cleared already is cleared again.
      carveTube(grid, placed, x_mm, y_mm, solid, carving);
    },
    readLayer(layer) {
      if (run.readLayer(layer) === 1) return true;
      runs.count = run.runs();
      runs.touches = run.touches();
      runs.pieces = run.pieces();
      return false;
    },
    addRuns: () => run.addRuns(),
    findUnsupported(layer, discs, touched) {
      one.set(discs.one);
      two.set(discs.two);
      run.findUnsupported(layer, discs.one.length, discs.two.length);
      touched.firstRow = run.firstRow();
      touched.lastRow = run.lastRow();
    },
    bridging,
    judgeLines(layer, touched, limits, direction) {
      // Memory that had to grow lies outside.
      if (bridging.failed.buffer !== buffer || bridging.runs.from.buffer !== buffer) {
        const { unsupported } = this;
        judgeLines(grid, solid, layer, unsupported, touched, limits, bridging, direction);
        return;
      }
      const { firstRow, lastRow } = touched;
      run.judgeLines(layer, direction, firstRow, lastRow, limits.bridge_px, limits.closing_px);
    },
    spreadRuns(wanted, strides) {
      for (let d = 0; d < wanted.count; d++) {
        cuts[4 * d] = wanted.directions[2 * d];
        cuts[4 * d + 1] = wanted.directions[2 * d + 1];
        cuts[4 * d + 2] = wanted.from_mm[d];
        cuts[4 * d + 3] = wanted.perStep[d];
        comb.set(wanted.sums[d], d * COMB);
      }
      run.spreadRuns(wanted.count, PLANES, strides.layer, strides.row);
      for (let d = 0; d < wanted.count; d++) {
        wanted.sums[d].set(comb.subarray(d * COMB, (d + 1) * COMB));
      }
    },
  };
}
