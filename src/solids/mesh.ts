/** Triangle meshes as plain typed arrays, and what can be summed over them. */

/**
 * Closed triangle mesh [mm]. Vertices are shared by index: two triangles that meet along an edge
 * name the same two vertices. Seen from outside, each triangle runs counter-clockwise.
 */
export interface Mesh {
  /** [v x 3], x y z per row [mm]. */
  readonly vertices: Float32Array;
  /** [t x 3], three vertex numbers per row. */
  readonly triangles: Uint32Array;
}

/**
 * Signed volume enclosed by a closed mesh.
 *
 *   V = sum over triangles of a . (b x c) / 6
 *
 * @param mesh closed, consistently oriented; negative when it is inside out.
 * @returns volume [mm3].
 * Source: divergence theorem (exact for the polyhedron).
 */
export function meshVolume(mesh: Mesh): number {
  const { vertices, triangles } = mesh;
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const [bx, by, bz] = [vertices[b], vertices[b + 1], vertices[b + 2]];
    const [cx, cy, cz] = [vertices[c], vertices[c + 1], vertices[c + 2]];
    sum +=
      vertices[a] * (by * cz - bz * cy) +
      vertices[a + 1] * (bz * cx - bx * cz) +
      vertices[a + 2] * (bx * cy - by * cx);
  }
  return sum / 6;
}
