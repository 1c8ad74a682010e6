/** The void of channels as boxes across a comb of parallel cuts: one box per step of each shape. */
import type { PlateSamples } from '../design/index.ts';
import { sectionWidth } from './section-width.ts';

// From, to and area per plane of each box, shape after shape.
let boxes = new Float64Array(0);
let perShape = 0;

/**
 * Lays the boxes of every shape across cuts normal to a direction in the plate; what repeats over
 * the plate is laid once (one motif of 100 channels: weakest section 150 to 40 us,
 * experiments/bench/evaluate).
 *
 * A station's slice of void is spread evenly over its width across the axis plus its step along it.
 *
 * @param nx normal of the cuts, unit; also `ny`.
 * @param stride stations per box.
 */
export function layBoxes(samples: PlateSamples, nx: number, ny: number, stride: number): void {
  const { stations, point_mm, tangent, first, second, bore_mm, area_mm2 } = samples;
  perShape = Math.ceil((stations - (stride >> 1)) / stride);
  const all = 3 * samples.shapeCount * perShape;
  if (boxes.length < all) boxes = new Float64Array(2 * all);
  let b = 0;
  for (let m = 0; m < samples.shapeCount; m++) {
    const step = samples.length_mm[m] / (stations - 1);
    const section = samples.sections[m];
    for (let j = 0; j < perShape; j++, b += 3) {
      const k = (stride >> 1) + j * stride;
      const row = m * stations + k;
      const i = 3 * row;
      // An end stands for the steps on its one side.
      const long = k === 0 || k === stations - 1 ? 0.5 * stride * step : stride * step;
      const c = nx * first[i] + ny * first[i + 1];
      const s = nx * second[i] + ny * second[i + 1];
      const t = Math.abs(nx * tangent[i] + ny * tangent[i + 1]);
      const width = sectionWidth(section, bore_mm[row], area_mm2[row], c, s);
      const half = 0.5 * (width * (1 - t * t) + long * t);
      const middle = nx * point_mm[i] + ny * point_mm[i + 1];
      boxes[b] = middle - half;
      boxes[b + 1] = middle + half;
      boxes[b + 2] = (area_mm2[row] * long) / (2 * half);
    }
  }
}

/**
 * Adds the laid boxes of all placed channels to a comb, as differences from plane to plane.
 *
 * @param from first plane [mm]. @param perStep planes per mm.
 * @param out one longer than the comb.
 */
export function addBoxes(
  samples: PlateSamples,
  nx: number,
  ny: number,
  from: number,
  perStep: number,
  planes: number,
  out: Float64Array,
): void {
  const { channelCount, shapeOf, offset_mm } = samples;
  const table = boxes;
  for (let c = 0; c < channelCount; c++) {
    const shift = (nx * offset_mm[2 * c] + ny * offset_mm[2 * c + 1] - from) * perStep;
    const begin = 3 * shapeOf[c] * perShape;
    for (let b = begin; b < begin + 3 * perShape; b += 3) {
      let first = Math.ceil(table[b] * perStep + shift);
      let last = Math.floor(table[b + 1] * perStep + shift);
      if (last < first) continue;
      if (first < 0) first = 0;
      if (last >= planes) last = planes - 1;
      if (last < first) continue;
      out[first] += table[b + 2];
      out[last + 1] -= table[b + 2];
    }
  }
}
