/** The wall of one channel shape as a strip mesh, cut off exactly in both faces of the plate. */
import type { PlateSamples } from '../design/index.ts';
import { traceRings } from './rings.ts';
import type { Rings } from './rings.ts';

/** Smallest share of the end direction along z: flatter ends graze the face. */
const STEEPEST_GRAZE = 0.05;
/** Ring points this close to a face, in ring steps, give way to the cut: no sliver triangles. */
const CLEARANCE_STEPS = 0.1;
/** Points between the ends stay this far inside the faces, so that float32 keeps them apart [mm]. */
const SKIN_MM = 1e-4;
/** A lip between a pocket and its port that is thinner than this is cut away: half a layer [mm]. */
const LIP_MM = 0.1;

/** A channel's wall relative to its placement; every placement of the shape uses it. */
export interface WallStrip {
  readonly kind: 'wall';
  /** Points of the port's edge, n. */
  readonly sides: number;
  /** [v x 3] [mm] */
  readonly vertices: Float64Array;
  /** Wound to face the air. */
  readonly triangles: Uint32Array;
  /** Vertices of the port edges, counter-clockwise seen from +z [n]. */
  readonly inletRing: Uint32Array;
  readonly outletRing: Uint32Array;
}

export interface SweepFailure {
  readonly kind: 'failure';
  readonly reason: string;
}

/** A mesh line along the channel: the rings `from` .. `to` it keeps, and its first vertex. */
interface Lines {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly start: Int32Array;
}

/**
 * Sweeps a shape's rings into a wall whose edges lie in z = 0 and z = thickness.
 *
 * Each of the lines along the channel is cut, or drawn out straight along the end direction, where
 * it meets the face; ring points beyond the face are dropped. A tilted end is thus an oblique cut
 * that cannot fold back, and no cap has to overshoot.
 *
 * @returns the wall, or why it cannot end in the faces: an end that grazes them, or a channel that
 * breaks through a face between its ends.
 */
export function sweepWall(
  samples: PlateSamples,
  shape: number,
  sides: number,
  stride: number,
): WallStrip | SweepFailure {
  const rings = traceRings(samples, shape, sides, stride);
  const last = 3 * ((shape + 1) * samples.stations - 1);
  const inlet = samples.tangent.subarray(3 * shape * samples.stations);
  const outlet = samples.tangent.subarray(last);
  if (inlet[2] < STEEPEST_GRAZE || outlet[2] < STEEPEST_GRAZE) {
    return { kind: 'failure', reason: `channel shape ${shape} grazes a face at its end` };
  }
  const thickness = samples.plate.thickness_mm;
  const step = samples.length_mm[shape] / (rings.stations.length - 1);
  const lines = cutLines(
    rings,
    thickness,
    CLEARANCE_STEPS * step * inlet[2],
    thickness - CLEARANCE_STEPS * step * outlet[2],
  );
  if (lines === null || leavesPlate(rings, lines, thickness)) {
    return {
      kind: 'failure',
      reason: `channel shape ${shape} breaks through a face between its ends`,
    };
  }
  const vertices = writeVertices(rings, lines, thickness, inlet, outlet);
  const { inletRing, outletRing } = edgeRings(lines);
  const triangles = stitchLines(lines, rings.stations.length, vertices);
  return { kind: 'wall', sides: rings.sides, vertices, triangles, inletRing, outletRing };
}

function cutLines(rings: Rings, thickness: number, low: number, high: number): Lines | null {
  const { sides, points } = rings;
  const count = rings.stations.length;
  const from = new Int32Array(sides);
  const to = new Int32Array(sides);
  const start = new Int32Array(sides + 1);
  for (let j = 0; j < sides; j++) {
    let a = 0;
    while (a < count && points[3 * (a * sides + j) + 2] <= low) a++;
    let b = count - 1;
    while (b >= 0 && points[3 * (b * sides + j) + 2] >= high) b--;
    // A thin plate may lie wholly between two rings: the line then keeps its two cuts only.
    if (b < a - 1) return null;
    from[j] = pastLip(rings, j, a, b, 1, 0, low);
    to[j] = pastLip(rings, j, b, from[j], -1, thickness, high);
    start[j + 1] = start[j] + Math.max(0, to[j] - from[j] + 1) + 2;
  }
  return { from, to, start };
}

/**
 * First ring of a line, seen from its end, once thin lips are cut away: where the wall of a pocket
 * comes out through the face and dips under it again by less than `LIP_MM` before its own port.
 *
 * @param first ring nearest to the face that lies inside, `last` the far end of the line.
 * @param way 1 from the inlet, -1 from the outlet; `face` its height, `near` where rings give way.
 */
function pastLip(
  { points, sides }: Rings,
  j: number,
  first: number,
  last: number,
  way: 1 | -1,
  face: number,
  near: number,
): number {
  let deepest = 0;
  let start = first;
  for (let k = first; way * (last - k) >= 0; k += way) {
    const z = points[3 * (k * sides + j) + 2];
    const depth = way * (z - face);
    if (depth < SKIN_MM && deepest < LIP_MM) start = k + way;
    // Deeper than a lip: what comes out beyond is a break, for `leavesPlate` to find.
    if (depth > deepest) deepest = depth;
    if (deepest >= LIP_MM) break;
  }
  while (start !== first && way * (last - start) > 0) {
    const z = points[3 * (start * sides + j) + 2];
    if (way * (z - near) > 0) break;
    start += way;
  }
  return start;
}

function leavesPlate(rings: Rings, lines: Lines, thickness: number): boolean {
  const { sides, points } = rings;
  for (let j = 0; j < sides; j++) {
    for (let k = lines.from[j]; k <= lines.to[j]; k++) {
      const z = points[3 * (k * sides + j) + 2];
      if (z < SKIN_MM || z > thickness - SKIN_MM) return true;
    }
  }
  return false;
}

function writeVertices(
  rings: Rings,
  lines: Lines,
  thickness: number,
  inlet: Float64Array,
  outlet: Float64Array,
): Float64Array {
  const { sides, points } = rings;
  const count = rings.stations.length;
  const out = new Float64Array(3 * lines.start[sides]);
  for (let j = 0; j < sides; j++) {
    const a = lines.from[j];
    const b = lines.to[j];
    let at = 3 * lines.start[j];
    const near = (k: number): number => 3 * (Math.min(Math.max(k, 0), count - 1) * sides + j);
    writeCut(points, near(a - 1), a > 0 && a < count ? near(a) : -1, 0, inlet, out, at);
    at += 3;
    for (let k = a; k <= b; k++, at += 3) {
      const p = 3 * (k * sides + j);
      out[at] = points[p];
      out[at + 1] = points[p + 1];
      out[at + 2] = points[p + 2];
    }
    const beyond = b < count - 1;
    writeCut(points, near(b + 1), beyond && b >= 0 ? near(b) : -1, thickness, outlet, out, at);
  }
  return out;
}

/** Where a line meets the face: between points p (beyond it) and q, or along the end direction. */
function writeCut(
  points: Float64Array,
  p: number,
  q: number,
  face: number,
  direction: Float64Array,
  out: Float64Array,
  at: number,
): void {
  const off = face - points[p + 2];
  const rise = q < 0 ? 0 : points[q + 2] - points[p + 2];
  // Between two points only if p really lies beyond the face; else p is dropped for being close.
  const share = rise === 0 ? -1 : off / rise;
  for (let d = 0; d < 2; d++) {
    out[at + d] =
      share >= 0 && share <= 1
        ? points[p + d] + share * (points[q + d] - points[p + d])
        : points[p + d] + (off / direction[2]) * direction[d];
  }
  out[at + 2] = face;
}

function edgeRings(lines: Lines): { inletRing: Uint32Array; outletRing: Uint32Array } {
  const sides = lines.from.length;
  const inletRing = new Uint32Array(sides);
  const outletRing = new Uint32Array(sides);
  for (let j = 0; j < sides; j++) {
    inletRing[j] = lines.start[j];
    outletRing[j] = lines.start[j + 1] - 1;
  }
  return { inletRing, outletRing };
}

/** Joins each line to the next; lines cut at different rings meet in fans. */
function stitchLines(lines: Lines, count: number, vertices: Float64Array): Uint32Array {
  const sides = lines.from.length;
  // Between two lines of p and q vertices lie p + q - 2 triangles.
  const triangles = new Uint32Array(3 * (2 * lines.start[sides] - 2 * sides));
  let t = 0;
  const put = (a: number, b: number, c: number): void => {
    triangles[t++] = a;
    triangles[t++] = b;
    triangles[t++] = c;
  };
  const rank = (j: number, v: number): number => {
    if (v === lines.start[j + 1] - 1) return count;
    return lines.from[j] + v - lines.start[j] - 1;
  };
  for (let j = 0; j < sides; j++) {
    const j1 = (j + 1) % sides;
    let a = lines.start[j];
    let b = lines.start[j1];
    const endA = lines.start[j + 1] - 1;
    const endB = lines.start[j1 + 1] - 1;
    while (a < endA || b < endB) {
      const nextA = a < endA ? rank(j, a + 1) : Infinity;
      const nextB = b < endB ? rank(j1, b + 1) : Infinity;
      if (nextA < nextB) {
        put(a, a + 1, b);
        a++;
      } else if (nextB < nextA) {
        put(a, b + 1, b);
        b++;
      } else if (squareGap(vertices, a, b + 1) < squareGap(vertices, a + 1, b)) {
        put(a, b + 1, b);
        put(a, a + 1, b + 1);
        a++;
        b++;
      } else {
        put(a, a + 1, b);
        put(b, a + 1, b + 1);
        a++;
        b++;
      }
    }
  }
  return triangles;
}

function squareGap(v: Float64Array, a: number, b: number): number {
  const x = v[3 * a] - v[3 * b];
  const y = v[3 * a + 1] - v[3 * b + 1];
  const z = v[3 * a + 2] - v[3 * b + 2];
  return x * x + y * y + z * z;
}
