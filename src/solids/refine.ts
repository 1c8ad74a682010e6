/** Finer triangles on the same surface, for what is shown per triangle. */
import type { Mesh } from './mesh.ts';

/** Halving this often makes a thousandth of the longest edge. */
const MOST_PASSES = 10;

/**
 * Splits every edge longer than a length in halves, again and again, until none is left.
 *
 * Whether an edge is split depends on its length alone, so the two triangles at it agree and a
 * closed mesh stays closed; its surface stays where it is, to the rounding of the middles.
 *
 * @param longest_mm longest edge of the result, above 0 [mm].
 */
export function refineMesh(mesh: Mesh, longest_mm: number): Mesh {
  let fine = mesh;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const next = splitOnce(fine, longest_mm * longest_mm);
    if (next === fine) break;
    fine = next;
  }
  return fine;
}

function splitOnce(mesh: Mesh, longest_mm2: number): Mesh {
  const { vertices, triangles } = mesh;
  const count = vertices.length / 3;
  const middles = new Map<number, number>();
  const added: number[] = [];
  const middleOf = (p: number, q: number): number => {
    const a = 3 * p;
    const b = 3 * q;
    const x = vertices[a] - vertices[b];
    const y = vertices[a + 1] - vertices[b + 1];
    const z = vertices[a + 2] - vertices[b + 2];
    if (x * x + y * y + z * z <= longest_mm2) return -1;
    const key = p < q ? p * count + q : q * count + p;
    const known = middles.get(key);
    if (known !== undefined) return known;
    const made = count + added.length / 3;
    for (let d = 0; d < 3; d++) added.push((vertices[a + d] + vertices[b + d]) / 2);
    middles.set(key, made);
    return made;
  };
  const out: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = triangles.subarray(t, t + 3);
    putSplit(out, [a, b, c], [middleOf(a, b), middleOf(b, c), middleOf(c, a)]);
  }
  if (added.length === 0) return mesh;
  const all = new Float32Array(vertices.length + added.length);
  all.set(vertices);
  all.set(added, vertices.length);
  return { vertices: all, triangles: Uint32Array.from(out) };
}

/**
 * @param corner of the triangle.
 * @param middle of the edges from each corner to the next; -1 for an edge that stays.
 */
function putSplit(out: number[], corner: readonly number[], middle: readonly number[]): void {
  const split = middle.filter((m) => m >= 0).length;
  if (split === 0) {
    out.push(corner[0], corner[1], corner[2]);
    return;
  }
  if (split === 3) {
    const [ab, bc, ca] = middle;
    out.push(corner[0], ab, ca, ab, corner[1], bc, ca, bc, corner[2], ab, bc, ca);
    return;
  }
  // Turned so that the first edge is split and, of two, the last one is not.
  let turn = middle.findIndex((m) => m >= 0);
  if (split === 2 && middle[(turn + 2) % 3] >= 0) turn = (turn + 2) % 3;
  const [a, b, c] = [0, 1, 2].map((k) => corner[(k + turn) % 3]);
  const ab = middle[turn];
  const bc = middle[(turn + 1) % 3];
  if (split === 1) out.push(a, ab, c, ab, b, c);
  else out.push(ab, b, bc, a, ab, bc, a, bc, c);
}
