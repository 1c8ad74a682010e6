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

/**
 * Signed area of the cut of a closed mesh with the plane z = height: the solid counts once, and
 * twice where the mesh covers itself, so that the figure agrees with `meshVolume` and differs from
 * the area a union would have wherever the surface crosses itself.
 *
 *   A = sum over cut triangles of (x1 y2 - x2 y1) / 2
 *
 * @param heights_mm rising heights [mm]; none may equal the z of a vertex.
 * @returns area at each height [mm2].
 * Source: Green's theorem on the exact polygonal cut.
 */
export function signedSliceAreas(mesh: Mesh, heights_mm: Float64Array): Float64Array {
  const { vertices, triangles } = mesh;
  const areas = new Float64Array(heights_mm.length);
  const cut = new Float64Array(4);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const low = Math.min(vertices[a + 2], vertices[b + 2], vertices[c + 2]);
    const high = Math.max(vertices[a + 2], vertices[b + 2], vertices[c + 2]);
    for (let k = firstAbove(heights_mm, low); k < heights_mm.length; k++) {
      const z = heights_mm[k];
      if (z >= high) break;
      cutTriangle(vertices, a, b, c, z, cut);
      areas[k] += (cut[0] * cut[3] - cut[2] * cut[1]) / 2;
    }
  }
  return areas;
}

function firstAbove(heights: Float64Array, low: number): number {
  let from = 0;
  let to = heights.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    if (heights[middle] > low) to = middle;
    else from = middle + 1;
  }
  return from;
}

/** Segment of a counter-clockwise triangle at height z, with the solid on its left (from +z). */
function cutTriangle(
  v: Float32Array,
  a: number,
  b: number,
  c: number,
  z: number,
  out: Float64Array,
): void {
  // The cut runs from the edge that falls through z to the edge that rises through it.
  crossing(v, a, b, z, out);
  crossing(v, b, c, z, out);
  crossing(v, c, a, z, out);
}

function crossing(v: Float32Array, p: number, q: number, z: number, out: Float64Array): void {
  const zp = v[p + 2];
  const zq = v[q + 2];
  if (zp < z === zq < z) return;
  const at = zp < z ? 2 : 0;
  // Interpolate from the lower vertex, so that the two triangles at an edge agree to the last bit.
  const low = zp < zq ? p : q;
  const high = zp < zq ? q : p;
  const share = (z - v[low + 2]) / (v[high + 2] - v[low + 2]);
  out[at] = v[low] + share * (v[high] - v[low]);
  out[at + 1] = v[low + 1] + share * (v[high + 1] - v[low + 1]);
}
