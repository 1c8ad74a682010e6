/** How thick a body is behind its surface, measured straight inwards. */
import { LEAF_TRIANGLES, growTree } from './box-tree.ts';
import type { BoxTree } from './box-tree.ts';
import type { Mesh } from './mesh.ts';
import { unitNormals } from './sharp-edges.ts';

/** A ray starts on its own triangle; hits nearer than this are that triangle or its neighbours [mm]. */
const NEAREST_MM = 2e-3;
/** In place of 1 / 0: large, but 0 times it is 0. */
const NEVER = 1e30;
/** Room for the nodes that wait: one per level of a tree of 2^31 leaves, and one more. */
const STACK = 64;

/**
 * Way from the middle of each triangle straight into the body to where it comes out again [mm];
 * NaN where a triangle has no area or the ray meets nothing.
 *
 * Never less than the thinnest wall near by, which may run aslant.
 *
 * @param mesh closed, normals outwards; vertices need not be shared.
 */
export function rayThickness(mesh: Mesh): Float32Array {
  const { vertices: v, triangles } = mesh;
  const sorted = { vertices: v, triangles: sortNearby(mesh) };
  const tree = growTree(sorted);
  const normals = unitNormals(mesh);
  const out = new Float32Array(triangles.length / 3);
  const origin = new Float64Array(3);
  const way = new Float64Array(3);
  const inverse = new Float64Array(3);
  const stack = new Int32Array(STACK);
  for (let t = 0; t < out.length; t++) {
    for (let d = 0; d < 3; d++) {
      let sum = 0;
      for (let k = 0; k < 3; k++) sum += v[3 * triangles[3 * t + k] + d];
      origin[d] = sum / 3;
      way[d] = -normals[3 * t + d];
      inverse[d] = way[d] === 0 ? NEVER : 1 / way[d];
    }
    const isFlat = way[0] === 0 && way[1] === 0 && way[2] === 0;
    const hit = isFlat ? Infinity : firstHit(sorted, tree, origin, way, inverse, stack);
    out[t] = hit === Infinity ? Number.NaN : hit;
  }
  return out;
}

/** Steps of the grid that orders triangles, per axis: ten bits each. */
const STEPS = 1023;
/** Room for a triangle's number behind its place in the order: 2^22 of them fit a double exactly. */
const NUMBERS = 4_194_304;

/**
 * Triangles along a curve that keeps neighbours together, so that boxes around runs of them are small.
 *
 * Source: Morton 1966 (order by interleaved bits; IBM technical report, from memory).
 */
function sortNearby({ vertices: v, triangles }: Mesh): Uint32Array {
  const count = triangles.length / 3;
  if (count > NUMBERS) return triangles;
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let k = 0; k < v.length; k++) {
    const d = k % 3;
    if (v[k] < low[d]) low[d] = v[k];
    if (v[k] > high[d]) high[d] = v[k];
  }
  const size = Math.max(1e-9, high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  const keys = new Float64Array(count);
  for (let t = 0; t < count; t++) {
    let code = 0;
    for (let d = 0; d < 3; d++) {
      let sum = 0;
      for (let k = 0; k < 3; k++) sum += v[3 * triangles[3 * t + k] + d];
      code |= spread(Math.floor(((sum / 3 - low[d]) / size) * STEPS)) << d;
    }
    keys[t] = code * NUMBERS + t;
  }
  keys.sort();
  const out = new Uint32Array(triangles.length);
  for (let n = 0; n < count; n++) {
    const t = 3 * (keys[n] % NUMBERS);
    for (let k = 0; k < 3; k++) out[3 * n + k] = triangles[t + k];
  }
  return out;
}

/** Ten bits with two zeros after each. */
function spread(value: number): number {
  let x = value & STEPS;
  x = (x | (x << 16)) & 0x030000ff;
  x = (x | (x << 8)) & 0x0300f00f;
  x = (x | (x << 4)) & 0x030c30c3;
  return (x | (x << 2)) & 0x09249249;
}

function firstHit(
  mesh: Mesh,
  { node, leafStart }: BoxTree,
  origin: Float64Array,
  way: Float64Array,
  inverse: Float64Array,
  stack: Int32Array,
): number {
  let best = Infinity;
  let depth = 0;
  stack[depth++] = 1;
  const last = mesh.triangles.length / 3;
  while (depth > 0) {
    const n = stack[--depth];
    if (boxEntry(node, n, origin, inverse) >= best) continue;
    if (n >= leafStart) {
      const from = LEAF_TRIANGLES * (n - leafStart);
      const to = Math.min(last, from + LEAF_TRIANGLES);
      for (let t = from; t < to; t++) {
        const hit = hitTriangle(mesh, t, origin, way);
        if (hit < best) best = hit;
      }
      continue;
    }
    // The nearer child is looked at first: it is put on last.
    const left = boxEntry(node, 2 * n, origin, inverse);
    const right = boxEntry(node, 2 * n + 1, origin, inverse);
    const near = left <= right ? 2 * n : 2 * n + 1;
    if (Math.max(left, right) < best) stack[depth++] = near ^ 1;
    if (Math.min(left, right) < best) stack[depth++] = near;
  }
  return best;
}

/** Way along a ray to a box, 0 from inside, Infinity when it is missed. */
function boxEntry(
  node: Float32Array,
  n: number,
  origin: Float64Array,
  inverse: Float64Array,
): number {
  let enter = 0;
  let leave = Infinity;
  for (let d = 0, i = 6 * n; d < 3; d++, i++) {
    if (node[i] > node[i + 3]) return Infinity;
    const a = (node[i] - origin[d]) * inverse[d];
    const b = (node[i + 3] - origin[d]) * inverse[d];
    const first = a < b ? a : b;
    const second = a < b ? b : a;
    if (first > enter) enter = first;
    if (second < leave) leave = second;
  }
  // Boxes hold their triangles to the rounding of 32-bit floats only.
  return enter <= leave + NEAREST_MM ? enter : Infinity;
}

/** Source: Moeller & Trumbore 1997 (journal of graphics tools 2:21), both sides. */
function hitTriangle(
  { vertices: v, triangles }: Mesh,
  t: number,
  o: Float64Array,
  w: Float64Array,
): number {
  const a = 3 * triangles[3 * t];
  const b = 3 * triangles[3 * t + 1];
  const c = 3 * triangles[3 * t + 2];
  const e0 = v[b] - v[a];
  const e1 = v[b + 1] - v[a + 1];
  const e2 = v[b + 2] - v[a + 2];
  const f0 = v[c] - v[a];
  const f1 = v[c + 1] - v[a + 1];
  const f2 = v[c + 2] - v[a + 2];
  const p0 = w[1] * f2 - w[2] * f1;
  const p1 = w[2] * f0 - w[0] * f2;
  const p2 = w[0] * f1 - w[1] * f0;
  const det = e0 * p0 + e1 * p1 + e2 * p2;
  if (det === 0) return Infinity;
  const s0 = o[0] - v[a];
  const s1 = o[1] - v[a + 1];
  const s2 = o[2] - v[a + 2];
  const u = (s0 * p0 + s1 * p1 + s2 * p2) / det;
  if (u < 0 || u > 1) return Infinity;
  const q0 = s1 * e2 - s2 * e1;
  const q1 = s2 * e0 - s0 * e2;
  const q2 = s0 * e1 - s1 * e0;
  const r = (w[0] * q0 + w[1] * q1 + w[2] * q2) / det;
  if (r < 0 || u + r > 1) return Infinity;
  const way = (f0 * q0 + f1 * q1 + f2 * q2) / det;
  return way > NEAREST_MM ? way : Infinity;
}
