/** `spreadRuns` of `src/print/row-raster.ts`: solid spread over the planes along the rows of ports. */
import { COMB, CUTS, FROM, SOLID, TO, a0_mm, edge, f, layerWords, layer_mm, layers, n, pixel_mm, rows, setF, u0_mm, v0_mm, words } from './state';
import { findRow } from './layers';

/**
 * @param count directions; each stands in `CUTS` as x, y, first plane [mm], planes per mm.
 * @param planes planes per direction; its comb has one more number.
 */
export function spreadRuns(count: i32, planes: i32, layerStride: i32, rowStride: i32): void {
  const deep_mm = edge ? layer_mm : pixel_mm;
  for (let layer = layerStride >> 1; layer < layers; layer += layerStride) {
    for (let row = rowStride >> 1; row < rows; row += rowStride) {
      // The runs are found once for all directions.
      const runs = findRow(SOLID + (<usize>(layer * layerWords + row * words) << 2));
      const across_mm = edge ? a0_mm + <f64>layer * layer_mm : v0_mm + <f64>row * pixel_mm;
      for (let d = 0; d < count; d++) spreadRow(d, planes, runs, across_mm, deep_mm);
    }
  }
}

function spreadRow(d: i32, planes: i32, runs: i32, across_mm: f64, deep_mm: f64): void {
  const x = f(CUTS, 4 * d);
  const y = f(CUTS, 4 * d + 1);
  const scale = f(CUTS, 4 * d + 3);
  const comb = COMB + (<usize>(d * (planes + 1)) << 3);
  // A run of length l sweeps l |y| of the planes, and its own depth |x| more.
  const beyond = 0.5 * Math.abs(x) * deep_mm;
  const middle = x * across_mm - f(CUTS, 4 * d + 2);
  for (let i = 0; i < runs; i++) {
    const from = <f64>n(FROM, i);
    const to = <f64>n(TO, i);
    const a = middle - y * (u0_mm + (from - 0.5) * pixel_mm);
    const b = middle - y * (u0_mm + (to - 0.5) * pixel_mm);
    const low = (a < b ? a : b) - beyond;
    const high = (a < b ? b : a) + beyond;
    const first = max(0, <i32>Math.ceil(low * scale));
    const last = min(planes - 1, <i32>Math.floor(high * scale));
    if (last < first) continue;
    const share = ((to - from) * pixel_mm * deep_mm) / (high - low);
    setF(comb, first, f(comb, first) + share);
    setF(comb, last + 1, f(comb, last + 1) - share);
  }
}
