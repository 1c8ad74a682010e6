/** Packs a sampled plate for the clearance kernels. */
import { apexDistance, circumradius } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { packTurns } from './bend-walls.ts';
import { raiseHidden } from './hidden-bores.ts';
import { inwardCorners } from './outline-distance.ts';
import { shearPorts } from './ports.ts';
import { packBounds } from './tube-bounds.ts';
import { BOX, POLYGON, ROUND, ROW, SEGMENT, SLOT, TEARDROP, borrow } from './tubes.ts';
import type { Tubes } from './tubes.ts';

/**
 * Packs a sampled plate.
 *
 * @param blockSize segments per bounding box; any value gives the same walls, 8 the fastest.
 */
export function packTubes(
  out: Tubes,
  samples: PlateSamples,
  bores_mm: readonly (readonly number[])[],
  blockSize = 8,
): void {
  const { stations, plate } = samples;
  const posts = listPosts(samples);
  borrow(out, samples);
  out.blockSize = blockSize;
  out.blocks = Math.ceil((stations - 1) / blockSize);
  out.channelShapes = samples.shapeCount;
  out.channels = samples.channelCount;
  out.placed = samples.channelCount + posts.length;
  const radii: number[] = [];
  for (const post of posts) if (!radii.includes(post.radius_mm)) radii.push(post.radius_mm);
  out.shapes = samples.shapeCount + radii.length;
  makeRoom(out);
  out.pocketed.fill(0, 0, out.shapes * stations);
  out.first.set(samples.first);
  out.second.set(samples.second);
  let sum = 0;
  for (let m = 0; m < samples.shapeCount; m++) {
    sum += packShape(out, samples, m);
    raiseHidden(out, m, bores_mm[m]);
    shearPorts(out, m);
    // While the shape's rows are still in the nearest cache.
    packBounds(out, m);
    packTurns(out, m);
  }
  const { channels, shapeOf, offset } = out;
  shapeOf.set(samples.shapeOf);
  offset.set(samples.offset_mm);
  for (let i = 0; i < 2 * channels; i++) sum += offset[i];
  // NaN and infinity survive every sum.
  out.finite = sum - sum === 0;
  for (let i = 0; i < radii.length; i++) {
    packPost(out, samples.shapeCount + i, radii[i], plate.thickness_mm);
    packBounds(out, samples.shapeCount + i);
  }
  for (let i = 0; i < posts.length; i++) {
    const at = samples.channelCount + i;
    out.shapeOf[at] = samples.shapeCount + radii.indexOf(posts[i].radius_mm);
    out.offset[2 * at] = posts[i].x_mm;
    out.offset[2 * at + 1] = posts[i].y_mm;
  }
}

interface Post {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly radius_mm: number;
}

/** What stands upright in the plate: mounting holes, and inward corners of radius 0. */
function listPosts(samples: PlateSamples): readonly Post[] {
  const { holes, outline } = samples.plate;
  const posts: Post[] = [];
  for (const hole of holes) {
    posts.push({ x_mm: hole.x_mm, y_mm: hole.y_mm, radius_mm: 0.5 * hole.diameter_mm });
  }
  for (const [x_mm, y_mm] of inwardCorners(outline)) posts.push({ x_mm, y_mm, radius_mm: 0 });
  return posts;
}

function makeRoom(out: Tubes): void {
  const rows = out.shapes * out.stations;
  if (out.row.length < rows * ROW) {
    out.row = new Float64Array(rows * ROW);
    out.bend = new Float64Array(rows);
    out.turn = new Float64Array(rows);
    out.first = new Float64Array(3 * rows);
    out.second = new Float64Array(3 * rows);
    out.segment = new Float64Array(rows * SEGMENT);
  }
  if (out.pocketed.length < rows) out.pocketed = new Uint8Array(rows);
  if (out.block.length < out.shapes * out.blocks * BOX) {
    out.block = new Float64Array(out.shapes * out.blocks * BOX);
  }
  if (out.kind.length < out.shapes) {
    out.kind = new Uint8Array(out.shapes);
    out.sides = new Uint8Array(out.shapes);
    out.box = new Float64Array(out.shapes * BOX);
    out.sharpest = new Float64Array(out.shapes);
  }
  if (out.shapeOf.length < out.placed) {
    out.shapeOf = new Int32Array(out.placed);
    out.offset = new Float64Array(2 * out.placed);
  }
}

/** @returns a sum that is finite only when all numbers of the shape are. */
function packShape(out: Tubes, samples: PlateSamples, shape: number): number {
  const { stations, row, bend, curvature, roof, reach_mm } = out;
  const { point_mm, bore_mm } = samples;
  const section = out.sections[shape];
  let kind = ROUND;
  // Size as a multiple of the inradius; a teardrop's depends on its roof.
  let size = 0;
  if (section.kind === 'teardrop') kind = TEARDROP;
  else if (section.kind === 'slot') {
    kind = SLOT;
    size = section.aspect - 1;
  } else if (section.kind === 'polygon') {
    kind = POLYGON;
    size = circumradius(section, 2, 0);
    out.sides[shape] = section.sides;
  }
  out.kind[shape] = kind;
  const base = shape * stations;
  let o = base * ROW;
  let sum = 0;
  for (let k = base; k < base + stations; k++, o += ROW) {
    const i = 3 * k;
    const r = 0.5 * bore_mm[k];
    row[o] = point_mm[i];
    row[o + 1] = point_mm[i + 1];
    row[o + 2] = point_mm[i + 2];
    row[o + 3] = r;
    row[o + 4] = kind === TEARDROP ? apexDistance(2 * r, roof[k]) : r * size;
    row[o + 5] = reach_mm[k];
    const cx = curvature[i];
    const cy = curvature[i + 1];
    const cz = curvature[i + 2];
    bend[k] = Math.sqrt(cx * cx + cy * cy + cz * cz);
    sum += row[o] + row[o + 1] + row[o + 2] + r + row[o + 5] + bend[k];
  }
  return sum;
}

function packPost(out: Tubes, shape: number, radius_mm: number, thickness_mm: number): void {
  const { stations, row } = out;
  out.kind[shape] = ROUND;
  for (let k = 0; k < stations; k++) {
    const o = (shape * stations + k) * ROW;
    row.fill(0, o, o + ROW);
    out.bend[shape * stations + k] = 0;
    row[o + 2] = (thickness_mm * k) / (stations - 1);
    const i = 3 * (shape * stations + k);
    out.first.fill(0, i, i + 3);
    out.second.fill(0, i, i + 3);
    out.first[i] = 1;
    out.second[i + 1] = 1;
    row[o + 3] = radius_mm;
    row[o + 5] = radius_mm;
  }
}
