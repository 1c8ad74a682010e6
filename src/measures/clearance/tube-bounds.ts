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
  const { stations, blocks, blockSize } = t;
  const base = shape * stations;
  const isChannel = shape < t.channelShapes;
  emptyBox(t.box, shape * BOX);
  for (let b = 0; b < blocks; b++) {
    const from = base + b * blockSize;
    const end = Math.min(base + stations - 1, from + blockSize);
    const at = (shape * blocks + b) * BOX;
    if (isChannel) packChannelBlock(t, from, end, t.length_mm[shape] / (stations - 1), at);
    else packPostBlock(t, from, end, at);
    growBox(t.box, shape * BOX, t.block, at);
  }
}

/**
 * One block of a channel. What the end of one segment shares with the start of the next is carried
 * over in locals, and sizes of rows are read once: both save more here than the sums cost.
 */
function packChannelBlock(t: Tubes, from: number, end: number, step: number, at: number): void {
  const { row, segment, bend, block, curvature } = t;
  const stride = ROW;
  const half = 0.5 * step;
  const step2 = step * step;
  let o = from * stride;
  let s = from * SEGMENT;
  let i = 3 * from;
  let x = row[o];
  let y = row[o + 1];
  let z = row[o + 2];
  let reach = row[o + 5];
  let c = bend[from];
  let cx = curvature[i];
  let cy = curvature[i + 1];
  let cz = curvature[i + 2];
  let x0 = x;
  let x1 = x;
  let y0 = y;
  let y1 = y;
  let z0 = z;
  let z1 = z;
  let most = 0;
  for (let k = from + 1; k <= end; k++) {
    const n = o + stride;
    i += 3;
    const px = row[n];
    const py = row[n + 1];
    const pz = row[n + 2];
    const nextReach = row[n + 5];
    const nextBend = bend[k];
    const nx = curvature[i];
    const ny = curvature[i + 1];
    const nz = curvature[i + 2];
    const dx = px - x;
    const dy = py - y;
    const dz = pz - z;
    const chord2 = dx * dx + dy * dy + dz * dz;
    const sharper = c > nextBend ? c : nextBend;
    const wider = reach > nextReach ? reach : nextReach;
    let scale = 0.0625 * chord2;
    // An arc that turns further than this within one step is the bend rule's business.
    if (sharper * step > 2) scale *= 2 / (sharper * step);
    const hidden = hiddenBulge(step2, chord2, sharper);
    row[o + 6] = (cx + nx) * scale;
    row[o + 7] = (cy + ny) * scale;
    row[o + 8] = (cz + nz) * scale;
    row[o + 9] = hidden;
    const swell = wider + (2 * sharper * scale * (1 + sharper * wider) + hidden);
    segment[s] = 0.5 * (x + px);
    segment[s + 1] = 0.5 * (y + py);
    segment[s + 2] = 0.5 * (z + pz);
    segment[s + 3] = half + swell;
    segment[s + 4] = 0.5 * dx;
    segment[s + 5] = 0.5 * dy;
    segment[s + 6] = 0.5 * dz;
    segment[s + 7] = swell;
    if (px < x0) x0 = px;
    else if (px > x1) x1 = px;
    if (py < y0) y0 = py;
    else if (py > y1) y1 = py;
    if (pz < z0) z0 = pz;
    else if (pz > z1) z1 = pz;
    if (swell > most) most = swell;
    x = px;
    y = py;
    z = pz;
    reach = nextReach;
    c = nextBend;
    cx = nx;
    cy = ny;
    cz = nz;
    o = n;
    s += SEGMENT;
  }
  block[at] = x0;
  block[at + 1] = y0;
  block[at + 2] = z0;
  block[at + 3] = x1;
  block[at + 4] = y1;
  block[at + 5] = z1;
  block[at + 6] = most;
}

/** One block of a straight post: all its segments are alike. */
function packPostBlock(t: Tubes, from: number, end: number, at: number): void {
  const { row, segment, block } = t;
  const o = from * ROW;
  const radius = row[o + 5];
  for (let k = from; k < end; k++) {
    const z = row[k * ROW + 2];
    const next = row[(k + 1) * ROW + 2];
    const s = k * SEGMENT;
    segment[s] = row[o];
    segment[s + 1] = row[o + 1];
    segment[s + 2] = 0.5 * (z + next);
    segment[s + 3] = 0.5 * (next - z) + radius;
    segment[s + 4] = segment[s + 5] = 0;
    segment[s + 6] = 0.5 * (next - z);
    segment[s + 7] = radius;
  }
  block[at] = block[at + 3] = row[o];
  block[at + 1] = block[at + 4] = row[o + 1];
  block[at + 2] = row[o + 2];
  block[at + 5] = row[end * ROW + 2];
  block[at + 6] = radius;
}

/** Deviation beyond 1.3 times the arc of the sharper end and beyond rounding of the arc length. */
function hiddenBulge(step2: number, chord2: number, bend: number): number {
  const slack2 = 0.25 * (step2 - chord2);
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
