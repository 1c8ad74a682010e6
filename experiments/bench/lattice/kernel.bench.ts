/** Cell updates per second of both kernels on a box of 28 x 28 x 136 cells; kernel.cpp is the yardstick. */
import { createGrid } from '../../../src/flow/grid.ts';
import { createLinks } from '../../../src/flow/links.ts';
import { createPlainKernel } from '../../../src/flow/plain-kernel.ts';
import { createWasmKernel } from '../../../src/flow/wasm-kernel.ts';
import type { Scene } from '../../../src/flow/scene.ts';

const scene: Scene = {
  nx: 28,
  ny: 28,
  nz: 136,
  ends: 'periodic',
  box: () => null,
  inside: (x, y) => x > -0.5 && y > -0.5 && x < 27.5 && y < 27.5,
};
const grid = createGrid(scene);
const kernels = [createPlainKernel, createWasmKernel].map((create) => {
  const kernel = create({ grid, links: createLinks(scene, grid), subgrid: 0.05 });
  kernel.tau.fill(0.51);
  kernel.populations().fill(1e-4);
  return kernel;
});
const best = [0, 0];
const STEPS = 20;
for (let round = 0; round < 7; round++) {
  for (const [i, kernel] of kernels.entries()) {
    const began = performance.now();
    for (let step = 0; step < STEPS; step++) kernel.step();
    const rate = (STEPS * grid.cells) / (performance.now() - began) / 1000;
    best[i] = Math.max(best[i], rate);
  }
}
process.stdout.write(
  `plain ${best[0].toFixed(1)}, compiled ${best[1].toFixed(1)} million cell updates/s, links included\n`,
);
