/** Packs a sampled plate for the clearance kernels. */
import { apexDistance, circumradius } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { raiseHidden } from './hidden-bores.ts';
import { inwardCorners } from './outline-distance.ts';
import { plainPasses } from './passes.ts';
import type { Passes } from './passes.ts';
import { shearSides } from './side-ports.ts';
import { packPostBounds } from './tube-bounds.ts';
import { POLYGON, ROUND, SLOT, TEARDROP, borrow } from './tubes.ts';
import type { Tubes } from './tubes.ts';

/**
 * Packs a sampled plate.
 *
 * @param blockSize segments per bounding box; any value gives the same walls, 8 the fastest.
 * @param passes plain or compiled: makes the room, and bounds what is packed.
 */
export function packTubes(
  out: Tubes,
  samples: PlateSamples,
  bores_mm: readonly (readonly number[])[],
  blockSize = 8,
  passes: Passes = plainPasses,
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
  passes.makeRoom(out);
  out.pocketed.fill(0, 0, out.shapes * stations);
  out.hullEnd = 0;
  out.point.set(samples.point_mm);
  out.bore.set(samples.bore_mm);
  out.reach.set(samples.reach_mm);
  out.first.set(samples.first);
  out.second.set(samples.second);
  out.size.fill(0, 0, out.shapes * stations);
  for (let m = 0; m < samples.shapeCount; m++) {
    packSection(out, m);
    raiseHidden(out, m, bores_mm[m]);
    if (samples.sides !== null) shearSides(out, m, samples.sides);
  }
  for (let i = 0; i < radii.length; i++) {
    packPost(out, samples.shapeCount + i, radii[i], plate.thickness_mm);
    packPostBounds(out, samples.shapeCount + i);
  }
  let sum = passes.pack(out);
  const { channels, shapeOf, offset } = out;
  shapeOf.set(samples.shapeOf);
  offset.set(samples.offset_mm);
  for (let i = 0; i < 2 * channels; i++) sum += offset[i];
  countStandings(out);
  // NaN and infinity survive every sum.
  out.finite = sum - sum === 0;
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

/** Fills `standing` and `example`. */
function countStandings(out: Tubes): void {
  const { standing, example, shapeOf } = out;
  standing.fill(0);
  for (let i = out.channels - 1; i >= 0; i--) {
    standing[shapeOf[i]]++;
    example[shapeOf[i]] = i;
  }
}

/** Kind of a shape's section and its sizes, multiples of the inradius; a teardrop's depends on its roof. */
function packSection(out: Tubes, shape: number): void {
  const { stations, bore, size, roof } = out;
  const section = out.sections[shape];
  const base = shape * stations;
  const end = base + stations;
  if (section.kind === 'teardrop') {
    out.kind[shape] = TEARDROP;
    for (let k = base; k < end; k++) size[k] = apexDistance(bore[k], roof[k]);
  } else if (section.kind === 'slot') {
    out.kind[shape] = SLOT;
    for (let k = base; k < end; k++) size[k] = 0.5 * bore[k] * (section.aspect - 1);
  } else if (section.kind === 'polygon') {
    out.kind[shape] = POLYGON;
    out.sides[shape] = section.sides;
    const ratio = circumradius(section, 2, 0);
    for (let k = base; k < end; k++) size[k] = 0.5 * bore[k] * ratio;
  } else out.kind[shape] = ROUND;
}

function packPost(out: Tubes, shape: number, radius_mm: number, thickness_mm: number): void {
  const { stations, point, first, second } = out;
  const base = shape * stations;
  out.kind[shape] = ROUND;
  out.bore.fill(2 * radius_mm, base, base + stations);
  out.reach.fill(radius_mm, base, base + stations);
  out.bend.fill(0, base, base + stations);
  point.fill(0, 3 * base, 3 * (base + stations));
  first.fill(0, 3 * base, 3 * (base + stations));
  second.fill(0, 3 * base, 3 * (base + stations));
  for (let k = 0; k < stations; k++) {
    const i = 3 * (base + k);
    point[i + 2] = (thickness_mm * k) / (stations - 1);
    first[i] = 1;
    second[i + 1] = 1;
  }
}
