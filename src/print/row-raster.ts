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
const sums = new Float64Array(ROW_CUT.planes + 1);

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
  let least = 1;
  for (let d = 0; d < count; d++) {
    least = Math.min(
      least,
      cutAlong(samples, grid, solid, directions[2 * d], directions[2 * d + 1]),
    );
  }
  return Math.max(0, least);
}

function cutAlong(
  samples: PlateSamples,
  grid: Grid,
  solid: Int32Array,
  x: number,
  y: number,
): number {
  const { planes, leastSection } = ROW_CUT;
  const chords = layChords(samples.plate.outline, x, y);
  const perStep = 1 / chords.step_mm;
  const { edge, rows, layers, words, pixel_mm } = grid;
  const layerStride = edge ? 1 : Math.max(1, Math.floor(layers / SLICES));
  const rowStride = edge ? Math.max(1, Math.floor(rows / SLICES)) : 1;
  sums.fill(0);
  let slices = 0;
  for (let layer = layerStride >> 1; layer < layers; layer += layerStride) {
    if (!edge) slices++;
    for (let r = rowStride >> 1; r < rows; r += rowStride) {
      findRuns(solid, layer * grid.layerWords + r * words, 1, words, runs);
      const across_mm = edge ? grid.a0_mm + layer * grid.layer_mm : grid.v0_mm + r * pixel_mm;
      const deep_mm = edge ? grid.layer_mm : pixel_mm;
      // A run of length l sweeps l |y| of the planes, and its own depth |x| more.
      const beyond = 0.5 * Math.abs(x) * deep_mm;
      const middle = x * across_mm - chords.from_mm;
      for (let i = 0; i < runs.count; i++) {
        const a = middle - y * (grid.u0_mm + (runs.from[i] - 0.5) * pixel_mm);
        const b = middle - y * (grid.u0_mm + (runs.to[i] - 0.5) * pixel_mm);
        const low = Math.min(a, b) - beyond;
        const high = Math.max(a, b) + beyond;
        const first = Math.max(0, Math.ceil(low * perStep));
        const last = Math.min(planes - 1, Math.floor(high * perStep));
        if (last < first) continue;
        const share = ((runs.to[i] - runs.from[i]) * pixel_mm * deep_mm) / (high - low);
        sums[first] += share;
        sums[last + 1] -= share;
      }
    }
  }
  if (edge) for (let r = rowStride >> 1; r < rows; r += rowStride) slices++;
  let most = 0;
  for (let i = 0; i < planes; i++) most = Math.max(most, chords.chord_mm[i]);
  let least = 1;
  let sum = 0;
  for (let i = 0; i < planes; i++) {
    sum += sums[i];
    if (chords.chord_mm[i] <= leastSection * most) continue;
    least = Math.min(least, sum / (chords.chord_mm[i] * slices));
  }
  return least;
}
