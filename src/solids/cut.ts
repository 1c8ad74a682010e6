/** Plane cuts of a mesh. */
import type { Mesh } from './mesh.ts';

export interface Cuts {
  /** First edge of each cut [k + 1]. */
  readonly start: Int32Array;
  /** [e x 4], x1 y1 x2 y2 per edge, the solid on its left seen from +z [mm]. */
  readonly segments: Float64Array;
}

/**
 * Edges of the cuts of a mesh with horizontal planes.
 *
 * Neighbouring edges of a cut share their ends to the last bit. A vertex exactly at a height counts
 * as lying above it.
 *
 * @param heights_mm rising heights [mm].
 */
export function cutMesh(mesh: Mesh, heights_mm: Float64Array): Cuts {
  const { vertices: v, triangles } = mesh;
  const count = heights_mm.length;
  const start = new Int32Array(count + 1);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [
      v[3 * triangles[t] + 2],
      v[3 * triangles[t + 1] + 2],
      v[3 * triangles[t + 2] + 2],
    ];
    const high = Math.max(a, b, c);
    for (let k = firstAbove(heights_mm, Math.min(a, b, c)); k < count; k++) {
      if (heights_mm[k] > high) break;
      start[k + 1]++;
    }
  }
  for (let k = 0; k < count; k++) start[k + 1] += start[k];
  const segments = new Float64Array(4 * start[count]);
  const filled = start.slice(0, count);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const high = Math.max(v[a + 2], v[b + 2], v[c + 2]);
    const low = Math.min(v[a + 2], v[b + 2], v[c + 2]);
    for (let k = firstAbove(heights_mm, low); k < count; k++) {
      const z = heights_mm[k];
      if (z > high) break;
      const at = 4 * filled[k]++;
      // Seen from outside a triangle runs counter-clockwise, so the cut goes from the edge that
      // falls through the plane to the one that rises through it.
      crossEdge(v, a, b, z, segments, at);
      crossEdge(v, b, c, z, segments, at);
      crossEdge(v, c, a, z, segments, at);
    }
  }
  return { start, segments };
}

/** First index whose height lies above `low`. */
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

function crossEdge(
  v: Float32Array,
  p: number,
  q: number,
  z: number,
  out: Float64Array,
  at: number,
): void {
  const zp = v[p + 2];
  const zq = v[q + 2];
  if (zp < z === zq < z) return;
  const end = zp < z ? at + 2 : at;
  // From the lower vertex, so that the two triangles at an edge agree to the last bit.
  const low = zp < zq ? p : q;
  const high = zp < zq ? q : p;
  const share = (z - v[low + 2]) / (v[high + 2] - v[low + 2]);
  out[end] = v[low] + share * (v[high] - v[low]);
  out[end + 1] = v[low + 1] + share * (v[high + 1] - v[low + 1]);
}
