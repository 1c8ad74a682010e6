/** Bounds of packed channels: how far an arc leaves its chord, how much it turns, boxes. */
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { arcSlack, hiddenBend, sumTurns } from './bend-walls.ts';

/**
 * Curvatures, bulges, turns, boxes around blocks and around the whole shape of a channel.
 *
 * An arc of curvature k over a chord L leaves it by k L^2 / 8, its outer wall at h by (1 + k h)
 * times that. What a longer arc can hide, deviation <= sqrt(arc^2 - L^2) / 2 (the ellipse on both ends as
 * foci), is added in all directions where it exceeds the arc of the stations' curvature: a loop
 * between two stations cannot hide.
 *
 * @returns a sum that is finite only when all numbers of the shape are.
 */
export function packBounds(t: Tubes, shape: number): number {
  const { stations, blocks, blockSize } = t;
  const base = shape * stations;
  const step = t.length_mm[shape] / (stations - 1);
  t.half[shape] = 0.5 * step;
  emptyBox(t.box, shape * BOX);
  let sum = t.reach[base] + t.bore[base];
  for (let b = 0; b < blocks; b++) {
    const from = base + b * blockSize;
    const end = Math.min(base + stations - 1, from + blockSize);
    const at = (shape * blocks + b) * BOX;
    sum += packBlock(t, from, end, step, at);
    growBox(t.box, shape * BOX, t.block, at);
  }
  sumTurns(t, shape, step);
  return sum;
}

/**
 * One block of a channel. Each number is read once: what the end of one piece shares with the start
 * of the next is carried over in locals, for an access costs more here than a sum.
 */
function packBlock(t: Tubes, from: number, end: number, step: number, at: number): number {
  const { point, reach, bend, bulge, spare, swell, turn, curvature, tangent, bore, block } = t;
  const step2 = step * step;
  let i = 3 * from;
  let x = point[i];
  let y = point[i + 1];
  let z = point[i + 2];
  let cx = curvature[i];
  let cy = curvature[i + 1];
  let cz = curvature[i + 2];
  let tx = tangent[i];
  let ty = tangent[i + 1];
  let tz = tangent[i + 2];
  let h = reach[from];
  let c = Math.sqrt(cx * cx + cy * cy + cz * cz);
  bend[from] = c;
  // The compiler checks what an array is where it is first used; once before the loop is enough.
  bulge[from] = spare[from] = swell[from] = turn[from + 1] = 0;
  let sum = bore[from];
  let x0 = x;
  let x1 = x;
  let y0 = y;
  let y1 = y;
  let z0 = z;
  let z1 = z;
  let most = 0;
  for (let k = from; k < end; k++) {
    i += 3;
    const px = point[i];
    const py = point[i + 1];
    const pz = point[i + 2];
    const dx = px - x;
    const dy = py - y;
    const dz = pz - z;
    const chord2 = dx * dx + dy * dy + dz * dz;
    x = px;
    y = py;
    z = pz;
    if (x < x0) x0 = x;
    else if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    else if (y > y1) y1 = y;
    if (z < z0) z0 = z;
    else if (z > z1) z1 = z;
    cx = curvature[i];
    cy = curvature[i + 1];
    cz = curvature[i + 2];
    const next = Math.sqrt(cx * cx + cy * cy + cz * cz);
    bend[k + 1] = next;
    const sharper = c > next ? c : next;
    c = next;
    const qx = tangent[i];
    const qy = tangent[i + 1];
    const qz = tangent[i + 2];
    const ax = qx - tx;
    const ay = qy - ty;
    const az = qz - tz;
    tx = qx;
    ty = qy;
    tz = qz;
    // What turns within one step without showing at its stations: marked by its sign.
    const turned2 = ax * ax + ay * ay + az * az;
    const angle2 = sharper * sharper * step2;
    const short2 = arcSlack(chord2, step2);
    turn[k + 1] =
      turned2 > 2 * angle2 || short2 > 1.5 * angle2
        ? -hiddenBend(turned2, short2, angle2, step)
        : sharper;
    const g = reach[k + 1];
    const wider = h > g ? h : g;
    h = g;
    let scale = 0.0625 * chord2;
    // An arc that turns further than this within one step is the bend rule's business.
    if (sharper * step > 2) scale *= 2 / (sharper * step);
    bulge[k] = scale;
    const slack2 = 0.25 * (step2 - chord2);
    const arc = 0.1625 * sharper * chord2;
    // Beyond 1.3 times the arc of the sharper end and beyond rounding of the arc length.
    const hidden = slack2 > arc * arc + 2e-5 * chord2 ? Math.sqrt(slack2) - arc : 0;
    spare[k] = hidden;
    const leaves = wider + (2 * sharper * scale * (1 + sharper * wider) + hidden);
    swell[k] = leaves;
    if (leaves > most) most = leaves;
    sum += chord2 + next + g + bore[k + 1];
  }
  block[at] = x0;
  block[at + 1] = y0;
  block[at + 2] = z0;
  block[at + 3] = x1;
  block[at + 4] = y1;
  block[at + 5] = z1;
  block[at + 6] = most;
  return sum;
}

/** The same for a straight post: all its pieces are alike. */
export function packPostBounds(t: Tubes, shape: number): void {
  const { stations, blocks, blockSize, point, block } = t;
  const base = shape * stations;
  const radius = t.reach[base];
  t.half[shape] = 0.5 * (point[3 * base + 5] - point[3 * base + 2]);
  t.bulge.fill(0, base, base + stations);
  t.spare.fill(0, base, base + stations);
  t.swell.fill(radius, base, base + stations);
  emptyBox(t.box, shape * BOX);
  for (let b = 0; b < blocks; b++) {
    const from = 3 * (base + b * blockSize);
    const end = 3 * (base + Math.min(stations - 1, (b + 1) * blockSize));
    const at = (shape * blocks + b) * BOX;
    block[at] = block[at + 3] = point[from];
    block[at + 1] = block[at + 4] = point[from + 1];
    block[at + 2] = point[from + 2];
    block[at + 5] = point[end + 2];
    block[at + 6] = radius;
    growBox(t.box, shape * BOX, block, at);
  }
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
