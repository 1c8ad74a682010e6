/** Walls that pass through each other: the fault that a mesh kernel lets by in silence. */
import { LEAF_TRIANGLES, boxesMeet, growTree } from './box-tree.ts';
import type { BoxTree } from './box-tree.ts';
import type { Mesh } from './mesh.ts';
import { trianglesCross } from './triangle-pair.ts';

/** Room for the pairs that wait, two numbers each: three per level of a tree of 2^31 leaves. */
const STACK = 256;

/**
 * Number of pairs of triangles of a mesh that pass through each other.
 *
 * A tube that crosses itself, another or the plate's edge still makes one closed mesh of the right
 * genus; its triangles show it. All pairs whose boxes meet are tested, so nothing is too small to be
 * found but what `trianglesCross` leaves out: folds that lie flat in one plane.
 */
export function countCrossings(mesh: Mesh): number {
  const tree = growTree(mesh);
  const { node, leafStart } = tree;
  // Both nodes of a pair lie on the same level; a pair of equals stands for all pairs below it.
  // Each level leaves at most three pairs waiting.
  const stack = new Int32Array(STACK);
  let depth = 0;
  stack[depth++] = 1;
  stack[depth++] = 1;
  let count = 0;
  while (depth > 0) {
    const b = stack[--depth];
    const a = stack[--depth];
    if (a >= leafStart) {
      count += leafCrossings(mesh, tree, a, b);
      continue;
    }
    for (let m = 2 * a; m <= 2 * a + 1; m++) {
      for (let n = a === b ? m : 2 * b; n <= 2 * b + 1; n++) {
        if (m !== n && !boxesMeet(node, m, node, n)) continue;
        stack[depth++] = m;
        stack[depth++] = n;
      }
    }
  }
  return count;
}

function leafCrossings(mesh: Mesh, tree: BoxTree, a: number, b: number): number {
  const { leafStart, node, triangle } = tree;
  const last = mesh.triangles.length / 3;
  const fromA = LEAF_TRIANGLES * (a - leafStart);
  const fromB = LEAF_TRIANGLES * (b - leafStart);
  const toA = Math.min(last, fromA + LEAF_TRIANGLES);
  const toB = Math.min(last, fromB + LEAF_TRIANGLES);
  let count = 0;
  for (let s = fromA; s < toA; s++) {
    if (a !== b && !boxesMeet(triangle, s, node, b)) continue;
    for (let t = a === b ? s + 1 : fromB; t < toB; t++) {
      if (boxesMeet(triangle, s, triangle, t) && trianglesCross(mesh, s, t)) count++;
    }
  }
  return count;
}
