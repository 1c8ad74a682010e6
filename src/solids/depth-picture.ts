/** Isometric picture of a mesh in cells: how near its surface is in each, and which triangle is seen. */
import type { Mesh } from './mesh.ts';

/**
 * Isometric projection from the right, the front (-y) and above: unit vectors on the sheet to the
 * right and up, and from the solid towards the eye.
 */
const RIGHT = [Math.SQRT1_2, Math.SQRT1_2, 0] as const;
const UP = [-1 / Math.sqrt(6), 1 / Math.sqrt(6), 2 / Math.sqrt(6)] as const;
export const TOWARD = [1 / Math.sqrt(3), -1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

/** Where a point stands on the sheet: right and up [mm]. */
export function isometric(x: number, y: number, z: number): readonly [number, number] {
  return [RIGHT[0] * x + RIGHT[1] * y + RIGHT[2] * z, UP[0] * x + UP[1] * y + UP[2] * z];
}

/** Right, up and depth of each vertex [v x 3] [mm]. */
export function project({ vertices }: Mesh): Float64Array {
  const sheet = new Float64Array(vertices.length);
  for (let k = 0; k < vertices.length; k += 3) {
    const x = vertices[k];
    const y = vertices[k + 1];
    const z = vertices[k + 2];
    [sheet[k], sheet[k + 1]] = isometric(x, y, z);
    sheet[k + 2] = TOWARD[0] * x + TOWARD[1] * y + TOWARD[2] * z;
  }
  return sheet;
}

export interface DepthPicture {
  readonly width: number;
  readonly height: number;
  readonly x0: number;
  readonly y0: number;
  /** Size of a cell [mm]. */
  readonly cell: number;
  /** Depth of the nearest surface, -infinity where there is none [height x width]. */
  readonly depth: Float64Array;
  /** Triangle seen there, -1 where there is none [height x width]. */
  readonly face: Int32Array;
}

/**
 * Paints what the eye sees of a mesh.
 *
 * @param sheet as `project` gives it.
 * @param cells along the longer side.
 */
export function paintDepth(mesh: Mesh, sheet: Float64Array, cells: number): DepthPicture {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let k = 0; k < sheet.length; k += 3) {
    minX = Math.min(minX, sheet[k]);
    maxX = Math.max(maxX, sheet[k]);
    minY = Math.min(minY, sheet[k + 1]);
    maxY = Math.max(maxY, sheet[k + 1]);
  }
  const cell = Math.max(maxX - minX, maxY - minY, 1e-6) / cells;
  const width = Math.ceil((maxX - minX) / cell) + 3;
  const height = Math.ceil((maxY - minY) / cell) + 3;
  const depth = new Float64Array(width * height).fill(Number.NEGATIVE_INFINITY);
  const face = new Int32Array(width * height).fill(-1);
  const picture = { width, height, x0: minX - cell, y0: minY - cell, cell, depth, face };
  for (let t = 0; t < mesh.triangles.length; t += 3) paintTriangle(picture, mesh, sheet, t);
  return picture;
}

/** Paints a triangle that faces the eye, by the cells' middles. */
function paintTriangle(picture: DepthPicture, mesh: Mesh, sheet: Float64Array, t: number): void {
  const { width, height, x0, y0, cell, depth, face } = picture;
  const [a, b, c] = [0, 1, 2].map((k) => 3 * mesh.triangles[t + k]);
  const [ax, ay, ad] = [sheet[a], sheet[a + 1], sheet[a + 2]];
  const [bx, by] = [sheet[b] - ax, sheet[b + 1] - ay];
  const [cx, cy] = [sheet[c] - ax, sheet[c + 1] - ay];
  const area = bx * cy - by * cx;
  if (!(area > 0)) return;
  const bd = sheet[b + 2] - ad;
  const cd = sheet[c + 2] - ad;
  const left = Math.max(0, Math.ceil((ax + Math.min(0, bx, cx) - x0) / cell - 0.5));
  const right = Math.min(width - 1, Math.floor((ax + Math.max(0, bx, cx) - x0) / cell - 0.5));
  const low = Math.max(0, Math.ceil((ay + Math.min(0, by, cy) - y0) / cell - 0.5));
  const high = Math.min(height - 1, Math.floor((ay + Math.max(0, by, cy) - y0) / cell - 0.5));
  for (let j = low; j <= high; j++) {
    const y = y0 + (j + 0.5) * cell - ay;
    for (let i = left; i <= right; i++) {
      const x = x0 + (i + 0.5) * cell - ax;
      const u = (x * cy - y * cx) / area;
      const v = (y * bx - x * by) / area;
      if (u < 0 || v < 0 || u + v > 1) continue;
      const here = ad + u * bd + v * cd;
      const at = j * width + i;
      if (here <= depth[at]) continue;
      depth[at] = here;
      face[at] = t / 3;
    }
  }
}
