import type { Mesh } from '../../../src/solids/index.ts';

/** Axis-parallel boxes side by side, each closed by itself: [x0, y0, z0, x1, y1, z1]. */
export function boxes(...each: readonly (readonly number[])[]): Mesh {
  const vertices: number[] = [];
  const triangles: number[] = [];
  for (const [x0, y0, z0, x1, y1, z1] of each) {
    const first = vertices.length / 3;
    for (let k = 0; k < 8; k++) {
      vertices.push((k & 1) === 1 ? x1 : x0, (k & 2) === 2 ? y1 : y0, (k & 4) === 4 ? z1 : z0);
    }
    const sides = [
      [0, 2, 3, 1],
      [4, 5, 7, 6],
      [0, 1, 5, 4],
      [2, 6, 7, 3],
      [0, 4, 6, 2],
      [1, 3, 7, 5],
    ];
    for (const [a, b, c, d] of sides) {
      triangles.push(...[a, b, c, a, c, d].map((corner) => first + corner));
    }
  }
  return { vertices: Float32Array.from(vertices), triangles: Uint32Array.from(triangles) };
}
