/** Cuts along the rows of ports, summed over the pixels of a drawn plate. */
import type { PlateSamples } from '../design/index.ts';
import type { Grid } from './grid.ts';
import { ROW_CUT, layChords, rowDirections } from './row-cuts.ts';
import { createRuns, findRuns } from './runs.ts';

/** Cuts along the rows of a plate: their directions and what the planes of each hold. */
export interface RowCuts {
  count: number;
  /** Unit vector along each direction [count x 2]. */
  readonly directions: Float64Array;
  /** Where each comb begins [mm], and its planes per mm. */
  readonly from_mm: Float64Array;
  readonly perStep: Float64Array;
  /** Solid of each plane, as differences to the one before. */
  readonly sums: readonly Float64Array[];
}

/** Layers and rows from one that is looked at to the next. */
export interface Strides {
  readonly layer: number;
  readonly row: number;
}

/** Directions looked at: a hexagonal pattern has three, its slots one more. */
export const MOST_CUTS = 4;
/** Slices of the plate, parallel to its faces, that stand for its thickness. */
const SLICES = 24;

const runs = createRuns();
const cuts: RowCuts = {
  count: 0,
  directions: new Float64Array(2 * MOST_CUTS),
  from_mm: new Float64Array(MOST_CUTS),
  perStep: new Float64Array(MOST_CUTS),
  sums: Array.from({ length: MOST_CUTS }, () => new Float64Array(ROW_CUT.planes + 1)),
};
// Length of outline on each plane.
const chords = Array.from({ length: MOST_CUTS }, () => new Float64Array(ROW_CUT.planes));

/**
 * Least share of solid over cuts normal to the plate along its rows [0..1], by pixels; 1 when all
 * rows run along x or y.
 *
 * Every run of solid pixels is spread evenly over the planes it crosses, in every layer of a plate
 * on edge and in 24 layers of a flat one: within a pixel per port of the true share.
 *
 * @param spread sums up the drawn plate, see `spreadRuns`.
 */
export function rasterRowCuts(
  samples: PlateSamples,
  grid: Grid,
  spread: (wanted: RowCuts, strides: Strides) => void,
): number {
  cuts.count = rowDirections(samples, MOST_CUTS, cuts.directions);
  if (cuts.count === 0) return 1;
  for (let d = 0; d < cuts.count; d++) {
    const { directions } = cuts;
    const laid = layChords(samples.plate.outline, directions[2 * d], directions[2 * d + 1]);
    chords[d].set(laid.chord_mm);
    cuts.from_mm[d] = laid.from_mm;
    cuts.perStep[d] = 1 / laid.step_mm;
    cuts.sums[d].fill(0);
  }
  const { edge, rows, layers } = grid;
  const strides = {
    layer: edge ? 1 : Math.max(1, Math.floor(layers / SLICES)),
    row: edge ? Math.max(1, Math.floor(rows / SLICES)) : 1,
  };
  spread(cuts, strides);
  const slices = edge ? slicesOf(rows, strides.row) : slicesOf(layers, strides.layer);
  let least = 1;
  for (let d = 0; d < cuts.count; d++) {
    least = Math.min(least, leastShare(cuts.sums[d], chords[d], slices));
  }
  return Math.max(0, least);
}

/** Slices looked at of so many. */
function slicesOf(count: number, stride: number): number {
  let slices = 0;
  for (let i = stride >> 1; i < count; i += stride) slices++;
  return slices;
}

/**
 * Spreads the solid of every direction over its comb.
 *
 * @param solid pixels of all layers, see `carveTube`.
 */
export function spreadRuns(grid: Grid, solid: Int32Array, wanted: RowCuts, strides: Strides): void {
  const { edge, rows, layers, words, layerWords, pixel_mm, layer_mm } = grid;
  const deep_mm = edge ? layer_mm : pixel_mm;
  for (let layer = strides.layer >> 1; layer < layers; layer += strides.layer) {
    for (let r = strides.row >> 1; r < rows; r += strides.row) {
      // The runs are found once for all directions.
      findRuns(solid, layer * layerWords + r * words, 1, words, runs);
      const across_mm = edge ? grid.a0_mm + layer * layer_mm : grid.v0_mm + r * pixel_mm;
      for (let d = 0; d < wanted.count; d++) spreadRow(grid, wanted, d, across_mm, deep_mm);
    }
  }
}

/** Adds the runs of one row of pixels to the comb of a direction, as differences. */
function spreadRow(
  grid: Grid,
  wanted: RowCuts,
  d: number,
  across_mm: number,
  deep_mm: number,
): void {
  const { pixel_mm, u0_mm } = grid;
  const { from, to, count } = runs;
  const { planes } = ROW_CUT;
  const x = wanted.directions[2 * d];
  const y = wanted.directions[2 * d + 1];
  const comb = wanted.sums[d];
  const scale = wanted.perStep[d];
  // A run of length l sweeps l |y| of the planes, and its own depth |x| more.
  const beyond = 0.5 * Math.abs(x) * deep_mm;
  const middle = x * across_mm - wanted.from_mm[d];
  for (let i = 0; i < count; i++) {
    const a = middle - y * (u0_mm + (from[i] - 0.5) * pixel_mm);
    const b = middle - y * (u0_mm + (to[i] - 0.5) * pixel_mm);
    const low = (a < b ? a : b) - beyond;
    const high = (a < b ? b : a) + beyond;
    const first = Math.max(0, Math.ceil(low * scale));
    const last = Math.min(planes - 1, Math.floor(high * scale));
    if (last < first) continue;
    const share = ((to[i] - from[i]) * pixel_mm * deep_mm) / (high - low);
    comb[first] += share;
    comb[last + 1] -= share;
  }
}

/** Least share of solid over the planes of one direction. */
function leastShare(comb: Float64Array, chord_mm: Float64Array, slices: number): number {
  const { planes, leastSection } = ROW_CUT;
  let most = 0;
  for (let i = 0; i < planes; i++) most = Math.max(most, chord_mm[i]);
  let least = 1;
  let sum = 0;
  for (let i = 0; i < planes; i++) {
    sum += comb[i];
    if (chord_mm[i] <= leastSection * most) continue;
    least = Math.min(least, sum / (chord_mm[i] * slices));
  }
  return least;
}
