/**
 * The raster grid: layers in build direction, each a bitmap whose rows run along x.
 *
 * A layer of a flat plate is cut at height z, its rows step along y; a layer of a plate on edge is
 * cut at height y, its rows step along z. In grid coordinates pixel (i, j) of layer k has its
 * middle at u = i, v = j, a = k.
 */
import type { Process } from '../brief/index.ts';
import { outlineBounds } from '../design/index.ts';
import type { Plate } from '../design/index.ts';
import { tan } from '../numeric/index.ts';
import { outlineSpans } from './outline-spans.ts';

export interface Grid {
  readonly edge: boolean;
  readonly pixel_mm: number;
  readonly layer_mm: number;
  /** Pixels per row, rows per layer, layers. */
  readonly columns: number;
  readonly rows: number;
  readonly layers: number;
  /** 32-bit words per row and per layer. */
  readonly words: number;
  readonly layerWords: number;
  /** Plate coordinates of the middle of pixel (0, 0) of layer 0: along x, across the rows, up. */
  readonly u0_mm: number;
  readonly v0_mm: number;
  readonly a0_mm: number;
  /** How far a layer may overhang the one below, in pixels. */
  readonly step_px: number;
}

// 125 MB of pixels; beyond it the pixel grows (a 600 mm plate 60 mm thick at 0.2 mm needs 337 MB).
const MOST_PIXELS = 1e9;

/**
 * Lays the grid over a plate.
 *
 * The pixel is at most half a line width, and, where that is not below a quarter of a line width,
 * a whole fraction of the step a layer may overhang, so that a surface at the limit steps by whole
 * pixels. It is coarser only for plates of more than 10^9 pixels.
 */
export function layGrid(plate: Plate, process: Process): Grid {
  const { minX_mm: x0, minY_mm: y0, maxX_mm: x1, maxY_mm: y1 } = outlineBounds(plate.outline);
  const edge = plate.build === 'edge';
  const width = x1 - x0;
  const depth = edge ? plate.thickness_mm : y1 - y0;
  const height = edge ? y1 - y0 : plate.thickness_mm;
  const layer_mm = process.layerHeight_mm;
  const step_mm = layer_mm * tan((process.overhangLimit_deg * Math.PI) / 180);
  const widest = process.lineWidth_mm / 2;
  let pixel_mm = widest;
  if (step_mm >= widest / 2) {
    pixel_mm = step_mm / Math.ceil(step_mm / widest - 1e-9);
  }
  // A printed layer is one whose middle lies within the part.
  const layers = Math.max(1, Math.round(height / layer_mm - 1e-9));
  const pixels = (width / pixel_mm) * (depth / pixel_mm) * layers;
  if (pixels > MOST_PIXELS) pixel_mm *= Math.sqrt(pixels / MOST_PIXELS);
  const columns = Math.max(1, Math.ceil(width / pixel_mm - 1e-9));
  const rows = Math.max(1, Math.ceil(depth / pixel_mm - 1e-9));
  const words = (columns + 31) >> 5;
  const middle = edge ? plate.thickness_mm / 2 : (y0 + y1) / 2;
  return {
    edge,
    pixel_mm,
    layer_mm,
    columns,
    rows,
    layers,
    words,
    layerWords: words * rows,
    u0_mm: (x0 + x1) / 2 - ((columns - 1) / 2) * pixel_mm,
    v0_mm: middle - ((rows - 1) / 2) * pixel_mm,
    a0_mm: (edge ? y0 : 0) + layer_mm / 2,
    step_px: step_mm / pixel_mm,
  };
}

/** Sets the bits [from, to) of the row that starts at word `at`. */
export function setBits(bits: Int32Array, at: number, from: number, to: number): void {
  if (from >= to) return;
  const first = from >> 5;
  const last = (to - 1) >> 5;
  const head = -1 << (from & 31);
  const tail = -1 >>> (31 - ((to - 1) & 31));
  if (first === last) {
    bits[at + first] |= head & tail;
    return;
  }
  bits[at + first] |= head;
  for (let w = first + 1; w < last; w++) bits[at + w] = -1;
  bits[at + last] |= tail;
}

/** Clears the bits [from, to) of the row that starts at word `at`. */
export function clearBits(bits: Int32Array, at: number, from: number, to: number): void {
  if (from >= to) return;
  const first = from >> 5;
  const last = (to - 1) >> 5;
  const head = -1 << (from & 31);
  const tail = -1 >>> (31 - ((to - 1) & 31));
  if (first === last) {
    bits[at + first] &= ~(head & tail);
    return;
  }
  bits[at + first] &= ~head;
  for (let w = first + 1; w < last; w++) bits[at + w] = 0;
  bits[at + last] &= ~tail;
}

/** Whether a layer's pixels are those of the layer before it. */
export function isRepeated(grid: Grid, solid: Int32Array, layer: number): boolean {
  const { layerWords } = grid;
  const end = (layer + 1) * layerWords;
  if (layer === 0) return false;
  for (let w = end - layerWords; w < end; w++) {
    if (solid[w] !== solid[w - layerWords]) return false;
  }
  return true;
}

/** Number of ones in a 32-bit word. */
export function countOnes(word: number): number {
  let x = word - ((word >>> 1) & 0x55555555);
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333);
  x = (x + (x >>> 4)) & 0x0f0f0f0f;
  return Math.imul(x, 0x01010101) >>> 24;
}

/** Counts of full cross-sections: what each plane would hold without channels and holes. */
export interface FullSections {
  /** Pixels per column, per row and per layer. */
  readonly column: Float64Array;
  readonly row: Float64Array;
  readonly layer: Float64Array;
}

const spans: number[] = [];

/**
 * Draws the plate with its mounting holes and without channels into all layers.
 *
 * @returns pixel counts of the cross-sections before the holes are taken out.
 */
export function drawPlate(plate: Plate, grid: Grid, solid: Int32Array): FullSections {
  const { edge, columns, rows, layers, words, layerWords, pixel_mm, u0_mm } = grid;
  const full = {
    // One more than is kept: differences are summed up at the end.
    column: new Float64Array(columns + 1),
    row: new Float64Array(rows),
    layer: new Float64Array(layers),
  };
  // On edge every row of a layer is alike; flat, every layer is: draw one, copy the rest.
  const lines = edge ? layers : rows;
  const copies = edge ? rows : layers;
  for (let line = 0; line < lines; line++) {
    const y = edge ? grid.a0_mm + line * grid.layer_mm : grid.v0_mm + line * pixel_mm;
    const at = edge ? line * layerWords : line * words;
    solid.fill(0, at, at + words);
    const count = outlineSpans(plate.outline, y, spans);
    for (let s = 0; s < count; s++) {
      const from = Math.max(0, Math.ceil((spans[2 * s] - u0_mm) / pixel_mm));
      const to = Math.min(columns, Math.floor((spans[2 * s + 1] - u0_mm) / pixel_mm) + 1);
      setBits(solid, at, from, to);
      if (from < to) {
        full.column[from] += copies;
        full.column[to] -= copies;
      }
      if (edge) full.layer[line] += copies * Math.max(0, to - from);
      else full.row[line] += copies * Math.max(0, to - from);
    }
    for (const hole of plate.holes) {
      const r = hole.diameter_mm / 2;
      const square = r * r - (y - hole.y_mm) * (y - hole.y_mm);
      if (square <= 0) continue;
      const half = Math.sqrt(square);
      const from = Math.max(0, Math.ceil((hole.x_mm - half - u0_mm) / pixel_mm));
      const to = Math.min(columns, Math.ceil((hole.x_mm + half - u0_mm) / pixel_mm));
      clearBits(solid, at, from, to);
    }
    if (edge) {
      for (let j = 1; j < rows; j++) solid.copyWithin(at + j * words, at, at + words);
    }
  }
  for (let i = 1; i < columns; i++) full.column[i] += full.column[i - 1];
  if (edge) full.row.fill(sum(full.layer) / rows);
  else {
    full.layer.fill(sum(full.row) / layers);
    for (let k = 1; k < layers; k++) solid.copyWithin(k * layerWords, 0, layerWords);
  }
  return { ...full, column: full.column.subarray(0, columns) };
}

function sum(values: Float64Array): number {
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i];
  return total;
}
