/** The lattice against exact developed flows, driven by a pressure step over a periodic layer. */
import { describe, expect, it } from 'vitest';
import { createGrid } from '../../../src/flow/grid.ts';
import { CZ, DIRECTIONS } from '../../../src/flow/lattice.ts';
import { createLinks } from '../../../src/flow/links.ts';
import { createPlainKernel } from '../../../src/flow/plain-kernel.ts';
import type { Kernel, KernelSetup } from '../../../src/flow/plain-kernel.ts';
import type { Scene } from '../../../src/flow/scene.ts';
import { createWasmKernel } from '../../../src/flow/wasm-kernel.ts';

type Shape = 'plates' | 'square' | 'round';

/** Exact Darcy f Re on D_h: Shah & London 1978. */
const EXACT = { plates: 96, square: 56.91, round: 64 } as const;

interface Flow {
  readonly fRe: number;
  /** Of all air cells of the middle layer. */
  readonly populations: readonly number[];
}

/** @param shift of the walls from the cells' centres (even `across`), in cells. */
function develop(
  shape: Shape,
  across: number,
  shift: number,
  create: (setup: KernelSetup) => Kernel = createWasmKernel,
  steps = 60_000,
): Flow {
  const n = across + 5;
  const middle = 0.5 * (n - 1) + shift;
  const flat = shape === 'plates';
  const half = 0.5 * across;
  const scene: Scene = {
    nx: n,
    ny: flat ? 1 : n,
    nz: 3,
    ends: 'periodic',
    box: () => (flat ? { x0: 0, x1: n - 1, y0: 0, y1: 0 } : null),
    inside(x, y) {
      const a = Math.abs(x - middle);
      const b = flat ? 0 : Math.abs(y - middle);
      return shape === 'round' ? a * a + b * b < half * half : a < half && b < half;
    },
  };
  const grid = createGrid(scene);
  const links = createLinks(scene, grid);
  const kernel = create({ grid, links, subgrid: 0 });
  const speed = 0.05;
  const viscosity = (speed * across) / 20;
  const D = flat ? 2 * across : across;
  const slope = (EXACT[shape] * viscosity * speed) / (2 * D * D);
  kernel.tau.fill(0.5 + 3 * viscosity);
  const [from, end] = links.periodic;
  for (let i = from; i < end; i++) {
    kernel.constant[i] = links.periodicWeight[i - from] * slope * 3 * grid.nz;
  }
  let flow = 0;
  for (let step = 1; step <= steps; step++) {
    kernel.step();
    if (step % 250 !== 0) continue;
    const f = kernel.populations();
    const before = flow;
    flow = 0;
    for (let x = 0; x < grid.nx; x++) {
      for (let y = 0; y < grid.ny; y++) {
        if (!grid.isFluid(x, y, 1)) continue;
        const cell = grid.address(x, y, 1);
        for (let i = 1; i < DIRECTIONS; i++) flow += CZ[i] * f[i * grid.size + cell];
      }
    }
    if (Math.abs(flow / before - 1) < 1e-6) break;
  }
  const area = { plates: across, square: across * across, round: (Math.PI * across * across) / 4 };
  const mean = flow / area[shape];
  const populations: number[] = [];
  const f = kernel.populations();
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      if (!grid.isFluid(x, y, 1)) continue;
      for (let i = 0; i < DIRECTIONS; i++)
        populations.push(f[i * grid.size + grid.address(x, y, 1)]);
    }
  }
  return { fRe: (2 * D * D * slope) / (viscosity * mean), populations };
}

const error = (shape: Shape, across: number, shift: number): number =>
  develop(shape, across, shift).fRe / EXACT[shape] - 1;

describe('lattice flow', () => {
  it('between plates 16 cells apart lies within 1 % of f Re 96, wherever the walls lie', () => {
    for (const shift of [0.1, 0.2, 0.35, 0.5]) {
      expect(Math.abs(error('plates', 16, shift))).toBeLessThan(0.01);
    }
  });

  it('in a square duct of 24 cells lies within 0.5 % of f Re 56.91', () => {
    expect(Math.abs(error('square', 24, 0.3))).toBeLessThan(0.005);
    expect(Math.abs(error('square', 24, 0.5))).toBeLessThan(0.005);
  });

  it('in a square duct whose walls lie on the cells, the worst place, lies within 2 %', () => {
    // Weaker than the 0.5 % asked at 24 cells: a wall a whole cell away is reached by the rule for
    // far walls alone, whose error is four times that of a wall at half a cell.
    expect(Math.abs(error('square', 24, 0))).toBeLessThan(0.02);
  });

  it('in a round pipe of 20 cells lies within 1.5 % of f Re 64', () => {
    for (const shift of [0, 0.3, 0.5]) {
      expect(Math.abs(error('round', 20, shift))).toBeLessThan(0.015);
    }
  });

  it('converges at second order', () => {
    // Walls on the cells, where the error is largest; a ratio of 4 is second order.
    const ratio = error('square', 12, 0) / error('square', 24, 0);
    expect(ratio).toBeGreaterThan(3.5);
    expect(ratio).toBeLessThan(5);
  });

  it('is the same with the compiled and the plain kernel, to rounding', () => {
    const plain = develop('round', 11, 0.3, createPlainKernel, 2000).populations;
    const compiled = develop('round', 11, 0.3, createWasmKernel, 2000).populations;
    let worst = 0;
    let greatest = 0;
    for (let i = 0; i < plain.length; i++) {
      greatest = Math.max(greatest, Math.abs(plain[i]));
      worst = Math.max(worst, Math.abs(plain[i] - compiled[i]));
    }
    expect(greatest).toBeGreaterThan(1e-3);
    expect(worst / greatest).toBeLessThan(1e-3);
  });
});
