/** Bounds of packed channels: how far an arc leaves its chord, balls, boxes. */
import { BOX, ROW, SEGMENT } from './tubes.ts';
import type { Tubes } from './tubes.ts';

/**
 * Bulges, balls around segments, boxes around blocks and around the whole shape.
 *
 * An arc of curvature k over a chord L leaves it by k L^2 / 8, its outer wall at h by (1 + k h)
 * times that. What a longer arc can hide, deviation <= sqrt(arc^2 - L^2) / 2 (the ellipse on both ends as
 * foci), is added in all directions where it exceeds the arc of the stations' curvature: a loop
 * between two stations cannot hide.
 */
export function packBounds(t: Tubes, shape: number): void {
  const { stations, row, segment, samples, bend, block, blockSize } = t;
  const base = shape * stations;
  const step = shape < t.channelShapes ? samples.length_mm[shape] / (stations - 1) : 0;
  const half = step > 0 ? 0.5 * step : 0.5 * rise(row, base * ROW);
  const curvature = samples.curvature_per_mm;
  const box = shape * BOX;
  emptyBox(t.box, box);
  for (let b = 0; b < t.blocks; b++) {
    const end = base + Math.min(stations - 1, (b + 1) * blockSize);
    let o = (base + b * blockSize) * ROW;
    let x0 = row[o];
    let x1 = x0;
    let y0 = row[o + 1];
    let y1 = y0;
    let z0 = row[o + 2];
    let z1 = z0;
    let most = 0;
    for (let k = base + b * blockSize; k < end; k++, o += ROW) {
      const n = o + ROW;
      const px = row[n];
      const py = row[n + 1];
      const pz = row[n + 2];
      const reach = row[o + 5] > row[n + 5] ? row[o + 5] : row[n + 5];
      let swell = reach;
      if (step > 0) {
        const x = px - row[o];
        const y = py - row[o + 1];
        const z = pz - row[o + 2];
        const chord2 = x * x + y * y + z * z;
        const c = bend[k] > bend[k + 1] ? bend[k] : bend[k + 1];
        let scale = 0.0625 * chord2;
        // An arc that turns further than this within one step is the bend rule's business.
        if (c * step > 2) scale *= 2 / (c * step);
        const i = 3 * k;
        row[o + 6] = (curvature[i] + curvature[i + 3]) * scale;
        row[o + 7] = (curvature[i + 1] + curvature[i + 4]) * scale;
        row[o + 8] = (curvature[i + 2] + curvature[i + 5]) * scale;
        row[o + 9] = hiddenBulge(step, chord2, c);
        swell += 2 * c * scale * (1 + c * reach) + row[o + 9];
      }
      const at = k * SEGMENT;
      segment[at] = 0.5 * (row[o] + px);
      segment[at + 1] = 0.5 * (row[o + 1] + py);
      segment[at + 2] = 0.5 * (row[o + 2] + pz);
      segment[at + 3] = half + swell;
      if (px < x0) x0 = px;
      else if (px > x1) x1 = px;
      if (py < y0) y0 = py;
      else if (py > y1) y1 = py;
      if (pz < z0) z0 = pz;
      else if (pz > z1) z1 = pz;
      if (swell > most) most = swell;
    }
    const at = (shape * t.blocks + b) * BOX;
    block[at] = x0;
    block[at + 1] = y0;
    block[at + 2] = z0;
    block[at + 3] = x1;
    block[at + 4] = y1;
    block[at + 5] = z1;
    block[at + 6] = most;
    growBox(t.box, box, block, at);
  }
}

/** Step of a post. */
function rise(row: Float64Array, o: number): number {
  return row[o + ROW + 2] - row[o + 2];
}

/** Deviation beyond 1.3 times the arc of the sharper end and beyond rounding of the arc length. */
function hiddenBulge(step: number, chord2: number, bend: number): number {
  const slack2 = 0.25 * (step * step - chord2);
  const arc = 0.1625 * bend * chord2;
  return slack2 > arc * arc + 2e-5 * chord2 ? Math.sqrt(slack2) - arc : 0;
}

function emptyBox(box: Float64Array, at: number): void {
  for (let d = 0; d < 3; d++) {
    box[at + d] = Infinity;
    box[at + 3 + d] = -Infinity;
  }
  box[at + 6] = 0;
}

function growBox(box: Float64Array, at: number, other: Float64Array, from: number): void {
  for (let d = 0; d < 3; d++) {
    box[at + d] = Math.min(box[at + d], other[from + d]);
    box[at + 3 + d] = Math.max(box[at + 3 + d], other[from + 3 + d]);
  }
  box[at + 6] = Math.max(box[at + 6], other[from + 6]);
}
