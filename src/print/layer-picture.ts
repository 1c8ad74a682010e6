/** One layer of a plate as it prints: what is solid, and what of it hangs. */
import type { Process } from '../brief/index.ts';
import type { PlateSamples } from '../design/index.ts';
import type { Grid } from './grid.ts';
import { drawLayers } from './raster.ts';
import { coveringDiscs, findUnsupported } from './unsupported.ts';

/** Stretches along the rows of a layer: row, from, to per stretch, in pixels, `to` not included [n x 3]. */
export type Stretches = Int32Array;

export interface LayerPicture {
  readonly layer: number;
  readonly layers: number;
  /** Height of the layer's middle above the bed. */
  readonly height_mm: number;
  readonly pixel_mm: number;
  readonly columns: number;
  readonly rows: number;
  readonly solid: Stretches;
  /** Stands out over the layer below by more than the overhang limit; bridges among it. */
  readonly hanging: Stretches;
}

/** All layers of one plate, kept as bitmaps, to leaf through. */
export interface LayerBook {
  readonly layers: number;
  /** Memory it holds. */
  readonly bytes: number;
  /** A layer, from the bed up; null: the one of which most hangs. */
  picture(wanted: number | null): LayerPicture;
}

/** Draws every layer of a plate once. */
export function createLayerBook(samples: PlateSamples, process: Process): LayerBook {
  const drawn = drawLayers(samples, process);
  const { grid } = drawn;
  // What is drawn lies in memory that the next plate takes.
  const solid = drawn.solid.slice(0, grid.layerWords * grid.layers);
  return {
    layers: grid.layers,
    bytes: solid.byteLength,
    picture: (wanted) => pictureOf(grid, solid, wanted),
  };
}

/**
 * @param wanted the layer, from the bed up; null: the one of which most hangs, or else the middle one.
 */
export function pictureLayer(
  samples: PlateSamples,
  process: Process,
  wanted: number | null,
): LayerPicture {
  const { grid, solid } = drawLayers(samples, process);
  return pictureOf(grid, solid, wanted);
}

function pictureOf(grid: Grid, solid: Int32Array, wanted: number | null): LayerPicture {
  const layer = Math.min(grid.layers - 1, Math.max(0, wanted ?? worstLayer(grid, solid)));
  const hanging = hangingBits(grid, solid, layer);
  return {
    layer,
    layers: grid.layers,
    height_mm: (layer + 0.5) * grid.layer_mm,
    pixel_mm: grid.pixel_mm,
    columns: grid.columns,
    rows: grid.rows,
    solid: stretchesOf(grid, solid, layer * grid.layerWords),
    hanging: stretchesOf(grid, hanging, 0),
  };
}

function hangingBits(grid: Grid, solid: Int32Array, layer: number): Int32Array {
  const out = new Int32Array(grid.layerWords);
  if (layer > 0) {
    const touched = { firstRow: 0, lastRow: -1 };
    findUnsupported(grid, solid, layer, coveringDiscs(grid.step_px), out, touched);
  }
  return out;
}

function worstLayer(grid: Grid, solid: Int32Array): number {
  let worst = grid.layers >> 1;
  let most = 0;
  for (let layer = 1; layer < grid.layers; layer++) {
    let count = 0;
    for (const word of hangingBits(grid, solid, layer)) count += bitCount(word);
    if (count > most) {
      most = count;
      worst = layer;
    }
  }
  return worst;
}

function bitCount(word: number): number {
  let rest = word >>> 0;
  let count = 0;
  while (rest !== 0) {
    rest = (rest & (rest - 1)) >>> 0;
    count++;
  }
  return count;
}

function stretchesOf(grid: Grid, bits: Int32Array, base: number): Stretches {
  const found: number[] = [];
  for (let row = 0; row < grid.rows; row++) {
    let from = -1;
    for (let column = 0; column <= grid.columns; column++) {
      const word = base + row * grid.words + (column >> 5);
      const isSet = column < grid.columns && ((bits[word] >>> (column & 31)) & 1) === 1;
      if (isSet && from < 0) from = column;
      if (!isSet && from >= 0) {
        found.push(row, from, column);
        from = -1;
      }
    }
  }
  return Int32Array.from(found);
}
