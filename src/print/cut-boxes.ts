/** The void of channels as boxes across a comb of parallel cuts: one box per step of each shape. */
import type { PlateSamples } from '../design/index.ts';
import { sectionExtent, sectionMiddle, sectionWidth } from './section-width.ts';

/** A channel that rises less is sliced square to its axis. */
export const LEAST_RISE = 0.3;
/** Boxes per slice of void. */
const LEVELS = 2;

// From, to and area per plane of each box, shape after shape.
let boxes = new Float64Array(0);
let perShape = 0;

/** Half-widths of a slice's two boxes [mm], and their shares of its void. */
const half = new Float64Array(LEVELS);
const share = new Float64Array(LEVELS);

/**
 * Lays the boxes of every shape across cuts normal to a direction in the plate; what repeats over
 * the plate is laid once (one motif of 100 channels: weakest section 150 to 40 us with one box per
 * slice, experiments/bench/evaluate).
 *
 * A station's slice of void is laid as two boxes: over its whole extent across the cuts and over the
 * middle half of it; with one box, staggered rows that stand close would be seen side by side. Slots
 * are trapezoids, cut at a quarter and at three quarters of their chord. All are spread on over the
 * step they make across the cuts. Slices are level, so that they keep their form between the faces, but
 * for stretches that nearly lie: those are sliced square to the axis, with one box.
 *
 * @param nx normal of the cuts, unit; also `ny`.
 * @param stride stations per slice.
 */
export function layBoxes(samples: PlateSamples, nx: number, ny: number, stride: number): void {
  const { stations, point_mm, tangent, area_mm2 } = samples;
  const slices = Math.ceil((stations - (stride >> 1)) / stride);
  perShape = LEVELS * slices;
  const all = 3 * samples.shapeCount * perShape;
  if (boxes.length < all) boxes = new Float64Array(2 * all);
  let b = 0;
  for (let m = 0; m < samples.shapeCount; m++) {
    const step = samples.length_mm[m] / (stations - 1);
    for (let j = 0; j < slices; j++) {
      const k = (stride >> 1) + j * stride;
      const row = m * stations + k;
      const i = 3 * row;
      // An end stands for the steps on its one side.
      const long = k === 0 || k === stations - 1 ? 0.5 * stride * step : stride * step;
      const across = 0.5 * long * Math.abs(nx * tangent[i] + ny * tangent[i + 1]);
      if (Math.abs(tangent[i + 2]) >= LEAST_RISE) levelWidths(samples, m, row, nx, ny);
      else squareWidths(samples, m, row, nx, ny);
      const middle = nx * point_mm[i] + ny * point_mm[i + 1];
      const volume = area_mm2[row] * long;
      for (let level = 0; level < LEVELS; level++, b += 3) {
        const reach = half[level] + across;
        boxes[b] = middle - reach;
        boxes[b + 1] = middle + reach;
        boxes[b + 2] = (volume * share[level]) / (2 * reach);
      }
    }
  }
}

/** Of the section square to the axis, both levels alike. */
function squareWidths(
  { sections, tangent, first, second, bore_mm, area_mm2 }: PlateSamples,
  shape: number,
  row: number,
  nx: number,
  ny: number,
): void {
  const i = 3 * row;
  const c = nx * first[i] + ny * first[i + 1];
  const s = nx * second[i] + ny * second[i + 1];
  const t = nx * tangent[i] + ny * tangent[i + 1];
  const width = sectionWidth(sections[shape], bore_mm[row], area_mm2[row], c, s);
  half.fill(0.5 * width * (1 - t * t));
  share.fill(1 / LEVELS);
}

/**
 * Of the level section: the one square to the axis sheared along it into the plane. Its extent and
 * its area over its chord through the middle along the cuts give the trapezoid.
 */
function levelWidths(
  { sections, tangent, first, second, bore_mm, area_mm2 }: PlateSamples,
  shape: number,
  row: number,
  nx: number,
  ny: number,
): void {
  const i = 3 * row;
  const section = sections[shape];
  const lean = 1 / tangent[i + 2];
  const fx = first[i] - tangent[i] * first[i + 2] * lean;
  const fy = first[i + 1] - tangent[i + 1] * first[i + 2] * lean;
  const gx = second[i] - tangent[i] * second[i + 2] * lean;
  const gy = second[i + 1] - tangent[i + 1] * second[i + 2] * lean;
  const c = nx * fx + ny * fy;
  const s = nx * gx + ny * gy;
  const size = Math.sqrt(c * c + s * s);
  const extent = size * sectionExtent(section, bore_mm[row], c / size, s / size);
  if (section.kind !== 'slot') {
    // The outer half of the extent has its chord all along, the middle one what is left besides.
    const middle = sectionMiddle(section, c / size, s / size);
    half[0] = 0.5 * extent;
    half[1] = extent;
    share[0] = 2 * middle - 1;
    share[1] = 2 - 2 * middle;
    return;
  }
  // Along the cuts, (-ny, nx), lies the section's direction (-s, c) / size, longer in the plane by this.
  const stretch = Math.abs(c * (nx * gy - ny * gx) - s * (nx * fy - ny * fx)) / size;
  const width = sectionWidth(section, bore_mm[row], area_mm2[row], c, s);
  const both = (width * Math.abs(lean)) / stretch;
  // Flat over `both - extent` to either side, then straight down to nothing at `extent`.
  const flat = Math.max(0, both - extent);
  const slope = Math.min(extent, both) - flat;
  half[0] = flat + 0.25 * slope;
  half[1] = flat + 0.75 * slope;
  for (let level = 0; level < LEVELS; level++) share[level] = half[level] / (half[0] + half[1]);
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
