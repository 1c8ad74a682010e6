/** A solid in isometric projection, shaded: a small picture to know it by. */
import { TOWARD, paintDepth, project } from './depth-picture.ts';
import type { Mesh } from './mesh.ts';

/** Cells per pixel along each side, averaged. */
const FINER = 3;
/** Grey of a face turned away from the light, and what full light adds. */
const SHADOW = 70;
const LIGHT_GAIN = 165;
/** Towards the light: above and to the left of the eye; a unit vector. */
const LIGHT = [-2 / 7, -3 / 7, 6 / 7] as const;
const MARGIN = 0.04;

/**
 * Grey and opacity of a square picture, row by row from the top.
 *
 * @param size side [pixels], at least 16.
 * @returns grey, alpha per pixel [size x size x 2], 0 to 255; alpha 0 beside the solid.
 */
export function shadeMesh(mesh: Mesh, size: number): Uint8Array {
  const inner = Math.floor(size * (1 - 2 * MARGIN));
  const picture = paintDepth(mesh, project(mesh), inner * FINER - 3);
  const tone = faceTones(mesh);
  const out = new Uint8Array(2 * size * size);
  const { width, height, face } = picture;
  const left = Math.floor((size * FINER - width) / 2);
  const low = Math.floor((size * FINER - height) / 2);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      let sum = 0;
      let count = 0;
      for (let k = 0; k < FINER * FINER; k++) {
        const i = column * FINER + (k % FINER) - left;
        const j = (size - 1 - row) * FINER + Math.floor(k / FINER) - low;
        if (i < 0 || j < 0 || i >= width || j >= height) continue;
        const seen = face[j * width + i];
        if (seen < 0) continue;
        sum += tone[seen];
        count++;
      }
      const at = 2 * (row * size + column);
      out[at] = count > 0 ? Math.round(sum / count) : 0;
      out[at + 1] = Math.round((255 * count) / (FINER * FINER));
    }
  }
  return out;
}

/** Grey of each triangle by how it faces the light; those seen edge on darken a little. */
function faceTones({ vertices, triangles }: Mesh): Float64Array {
  const tones = new Float64Array(triangles.length / 3);
  for (let f = 0; f < tones.length; f++) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * triangles[3 * f + k]);
    const [ux, uy, uz] = [0, 1, 2].map((d) => vertices[b + d] - vertices[a + d]);
    const [vx, vy, vz] = [0, 1, 2].map((d) => vertices[c + d] - vertices[a + d]);
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const length = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
    const lit = Math.max(0, nx * LIGHT[0] + ny * LIGHT[1] + nz * LIGHT[2]) / length;
    const facing = Math.max(0, nx * TOWARD[0] + ny * TOWARD[1] + nz * TOWARD[2]) / length;
    tones[f] = SHADOW + LIGHT_GAIN * lit * (0.8 + 0.2 * facing);
  }
  return tones;
}
