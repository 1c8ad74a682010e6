/** Cuts along the rows of ports, summed over the pixels of a drawn plate. */
import type { PlateSamples } from '../design/index.ts';
import type { Grid } from './grid.ts';
import { ROW_CUT, layChords, rowDirections } from './row-cuts.ts';
import { createRuns, findRuns } from './runs.ts';

/** Directions looked at: a hexagonal pattern has three, its slots one more. */
const MOST = 4;
/** Slices of the plate, parallel to its faces, that stand for its thickness. */
const SLICES = 24;

const runs = createRuns();
const directions = new Float64Array(2 * MOST);
// Of each direction: the comb's sums, the length of outline on each plane, and where it lies.
const sums = Array.from({ length: MOST }, () => new Float64Array(ROW_CUT.planes + 1));
const chords = Array.from({ length: MOST }, () => new Float64Array(ROW_CUT.planes));
const from_mm = new Float64Array(MOST);
const perStep = new Float64Array(MOST);

/**
 * Least share of solid over cuts normal to the plate along its rows [0..1], by pixels; 1 when all
 * rows run along x or y.
 *
 * Every run of solid pixels is spread evenly over the planes it crosses, in every layer of a plate
 * on edge and in 24 layers of a flat one: within a pixel per port of the true share.
 *
 * @param solid pixels of all layers, see `carveTube`.
 */
export function rasterRowCuts(samples: PlateSamples, grid: Grid, solid: Int32Array): number {
  const count = rowDirections(samples, MOST, directions);
  if (count === 0) return 1;
  for (let d = 0; d < count; d++) {
    const laid = layChords(samples.plate.outline, directions[2 * d], directions[2 * d + 1]);
    chords[d].set(laid.chord_mm);
    from_mm[d] = laid.from_mm;
    perStep[d] = 1 / laid.step_mm;
    sums[d].fill(0);
  }
  const slices = spreadRuns(grid, solid, count);
  let least = 1;
  for (let d = 0; d < count; d++) least = Math.min(least, leastShare(sums[d], chords[d], slices));
  return Math.max(0, least);
}

/** Spreads the solid of every direction over its comb; returns the slices of the plate looked at. */
function spreadRuns(grid: Grid, solid: Int32Array, count: number): number {
  const { edge, rows, layers, words, layerWords, pixel_mm, layer_mm } = grid;
  const layerStride = edge ? 1 : Math.max(1, Math.floor(layers / SLICES));
  const rowStride = edge ? Math.max(1, Math.floor(rows / SLICES)) : 1;
  const deep_mm = edge ? layer_mm : pixel_mm;
  let slices = 0;
  for (let layer = layerStride >> 1; layer < layers; layer += layerStride) {
    if (!edge) slices++;
    for (let r = rowStride >> 1; r < rows; r += rowStride) {
      // The runs are found once for all directions.
      findRuns(solid, layer * layerWords + r * words, 1, words, runs);
      const across_mm = edge ? grid.a0_mm + layer * layer_mm : grid.v0_mm + r * pixel_mm;
      for (let d = 0; d < count; d++) spreadRow(grid, d, across_mm, deep_mm);
    }
  }
  if (edge) for (let r = rowStride >> 1; r < rows; r += rowStride) slices++;
  return slices;
}

/** Adds the runs of one row of pixels to the comb of a direction, as differences. */
function spreadRow(grid: Grid, d: number, across_mm: number, deep_mm: number): void {
  const { pixel_mm, u0_mm } = grid;
  const { from, to, count } = runs;
  const { planes } = ROW_CUT;
  const x = directions[2 * d];
  const y = directions[2 * d + 1];
  const comb = sums[d];
  const scale = perStep[d];
  // A run of length l sweeps l |y| of the planes, and its own depth |x| more.
  const beyond = 0.5 * Math.abs(x) * deep_mm;
  const middle = x * across_mm - from_mm[d];
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
