/** Boxes around the triangles of a mesh and around runs of them: which can touch at all. */
import type { Mesh } from './mesh.ts';

/** Consecutive triangles per leaf; meshes come in strips, so these lie close together. */
export const LEAF_TRIANGLES = 4;

/**
 * Complete binary tree over runs of `LEAF_TRIANGLES` triangles in mesh order. Node 1 is the root,
 * node n has the children 2 n and 2 n + 1, the leaves are nodes `leafStart` and up.
 */
export interface BoxTree {
  readonly leafStart: number;
  /** Low x y z, high x y z per node; empty nodes are inside out [n x 6] [mm]. */
  readonly node: Float32Array;
  /** The same per triangle [t x 6] [mm]. */
  readonly triangle: Float32Array;
}

export function growTree(mesh: Mesh): BoxTree {
  const { vertices: v, triangles } = mesh;
  const count = triangles.length / 3;
  const triangle = new Float32Array(6 * count);
  for (let t = 0; t < count; t++) {
    const a = 3 * triangles[3 * t];
    const b = 3 * triangles[3 * t + 1];
    const c = 3 * triangles[3 * t + 2];
    for (let d = 0; d < 3; d++) {
      const [p, q, r] = [v[a + d], v[b + d], v[c + d]];
      triangle[6 * t + d] = p < q ? (p < r ? p : r) : q < r ? q : r;
      triangle[6 * t + 3 + d] = p > q ? (p > r ? p : r) : q > r ? q : r;
    }
  }
  let leafStart = 1;
  while (leafStart * LEAF_TRIANGLES < count) leafStart *= 2;
  const node = new Float32Array(12 * leafStart);
  for (let n = 0; n < node.length; n++) node[n] = n % 6 < 3 ? Infinity : -Infinity;
  for (let t = 0; t < count; t++) {
    widen(node, leafStart + Math.floor(t / LEAF_TRIANGLES), triangle, t);
  }
  for (let n = 2 * leafStart - 1; n > 1; n--) widen(node, n >> 1, node, n);
  return { leafStart, node, triangle };
}

function widen(boxes: Float32Array, box: number, others: Float32Array, other: number): void {
  for (let d = 0; d < 3; d++) {
    const low = others[6 * other + d];
    const high = others[6 * other + 3 + d];
    if (low < boxes[6 * box + d]) boxes[6 * box + d] = low;
    if (high > boxes[6 * box + 3 + d]) boxes[6 * box + 3 + d] = high;
  }
}

/** Whether box `m` of one list and box `n` of another meet; boxes that touch do. */
export function boxesMeet(a: Float32Array, m: number, b: Float32Array, n: number): boolean {
  const i = 6 * m;
  const j = 6 * n;
  return (
    a[i] <= b[j + 3] &&
    b[j] <= a[i + 3] &&
    a[i + 1] <= b[j + 4] &&
    b[j + 1] <= a[i + 4] &&
    a[i + 2] <= b[j + 5] &&
    b[j + 2] <= a[i + 5]
  );
}
