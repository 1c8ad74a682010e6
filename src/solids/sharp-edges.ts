/** Edges at which the surface of a mesh turns sharply: what a draughtsman would ink. */
import type { Mesh } from './mesh.ts';

/** Cosine of 30 degrees: facets of a round bore with 24 sides turn by 15. */
const SHARP_COSINE = 0.8660254037844387;

/**
 * Ends of every edge whose two triangles turn by more than 30 degrees, or that only one has.
 *
 * @returns x y z of both ends per edge [e x 6] [mm].
 */
export function sharpEdges(mesh: Mesh): Float32Array {
  const { vertices, triangles } = mesh;
  const count = vertices.length / 3;
  const normals = unitNormals(mesh);
  const first = new Map<number, number>();
  const out: number[] = [];
  const put = (key: number): void => {
    const p = Math.floor(key / count);
    for (const v of [p, key - p * count]) {
      out.push(vertices[3 * v], vertices[3 * v + 1], vertices[3 * v + 2]);
    }
  };
  for (let t = 0; t < triangles.length; t++) {
    const p = triangles[t];
    const q = triangles[t % 3 === 2 ? t - 2 : t + 1];
    const key = p < q ? p * count + q : q * count + p;
    const other = first.get(key);
    if (other === undefined) {
      first.set(key, t);
      continue;
    }
    first.delete(key);
    const m = t - (t % 3);
    const n = other - (other % 3);
    const cosine =
      normals[m] * normals[n] + normals[m + 1] * normals[n + 1] + normals[m + 2] * normals[n + 2];
    if (cosine < SHARP_COSINE) put(key);
  }
  for (const key of first.keys()) put(key);
  return Float32Array.from(out);
}

/** Outward unit normals of the triangles [t x 3]; zero for one without area. */
export function unitNormals({ vertices: v, triangles }: Mesh): Float32Array {
  const out = new Float32Array(triangles.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const [ux, uy, uz] = [v[b] - v[a], v[b + 1] - v[a + 1], v[b + 2] - v[a + 2]];
    const [wx, wy, wz] = [v[c] - v[a], v[c + 1] - v[a + 1], v[c + 2] - v[a + 2]];
    const x = uy * wz - uz * wy;
    const y = uz * wx - ux * wz;
    const z = ux * wy - uy * wx;
    const size = Math.sqrt(x * x + y * y + z * z);
    if (size === 0) continue;
    out[t] = x / size;
    out[t + 1] = y / size;
    out[t + 2] = z / size;
  }
  return out;
}
