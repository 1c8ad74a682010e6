/** A plate with its front half taken away, to look into its channels. */
import { withSolids } from './kernel.ts';
import type { KernelOptions } from './kernel.ts';
import type { Mesh } from './mesh.ts';

/** How far the cutting box stands out of the plate [mm]. */
const BEYOND_MM = 10;

/**
 * The part of a closed mesh behind the plane y = `y_mm` (greater y), closed again along the cut.
 *
 * @returns null when the kernel finds no solid in the mesh or nothing is left.
 */
export async function cutAway(
  mesh: Mesh,
  y_mm: number,
  options: KernelOptions = {},
): Promise<Mesh | null> {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let k = 0; k < mesh.vertices.length; k++) {
    const axis = k % 3;
    low[axis] = Math.min(low[axis], mesh.vertices[k] - BEYOND_MM);
    high[axis] = Math.max(high[axis], mesh.vertices[k] + BEYOND_MM);
  }
  const box = boxMesh(low, [high[0], y_mm, high[2]]);
  return withSolids(options, (solids) => solids.difference(mesh, [box]));
}

/** Corner k of the box has x from bit 0, y from bit 1, z from bit 2. */
const BOX_TRIANGLES = Uint32Array.from(
  [
    [0, 2, 3, 0, 3, 1],
    [4, 5, 7, 4, 7, 6],
    [0, 1, 5, 0, 5, 4],
    [2, 6, 7, 2, 7, 3],
    [0, 4, 6, 0, 6, 2],
    [1, 3, 7, 1, 7, 5],
  ].flat(),
);

function boxMesh(low: readonly number[], high: readonly number[]): Mesh {
  const vertices = Float32Array.from({ length: 24 }, (_, k) => {
    const axis = k % 3;
    const corner = Math.floor(k / 3);
    return ((corner >> axis) & 1) === 1 ? high[axis] : low[axis];
  });
  return { vertices, triangles: BOX_TRIANGLES };
}
