/** Flows on the lattice that a plate never makes, set up through the solver's own grid, links and kernel. */
import { createGrid } from '../../src/flow/grid.ts';
import type { Grid } from '../../src/flow/grid.ts';
import { CX, CY, CZ, DIRECTIONS, weightOf } from '../../src/flow/lattice.ts';
import { createLinks } from '../../src/flow/links.ts';
import type { Links } from '../../src/flow/links.ts';
import type { Kernel } from '../../src/flow/plain-kernel.ts';
import type { Scene } from '../../src/flow/scene.ts';
import { createKernel } from '../../src/flow/wasm-kernel.ts';

export interface LatticeFlow {
  readonly grid: Grid;
  readonly links: Links;
  readonly kernel: Kernel;
}

/** @param subgrid Smagorinsky constant; without it what is compared is the scheme itself. */
export function createFlow(scene: Scene, viscosity: number, subgrid = 0): LatticeFlow {
  const grid = createGrid(scene);
  const links = createLinks(scene, grid);
  const kernel = createKernel({ grid, links, subgrid });
  kernel.tau.fill(0.5 + 3 * viscosity);
  return { grid, links, kernel };
}

export type Velocity = readonly [number, number, number];

/** Places beyond the air, by the address that links name them by. */
function beyond(grid: Grid): Map<number, Velocity> {
  const places = new Map<number, Velocity>();
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      for (let z = 0; z < grid.nz; z++) {
        if (!grid.isFluid(x, y, z)) continue;
        for (let i = 1; i < DIRECTIONS; i++) {
          const at = [x + CX[i], y + CY[i], z + CZ[i]] as const;
          if (!grid.isFluid(...at)) places.set(grid.address(...at), at);
        }
      }
    }
  }
  return places;
}

/**
 * Lets walls move along themselves: 6 w c u_w on the links that come back from them (Ladd 1994, as
 * the solver's own inlet).
 *
 * @param wall velocity of the wall at a solid cell, null where it stands still.
 */
export function moveWalls(
  { grid, links, kernel }: LatticeFlow,
  wall: (x: number, y: number, z: number) => Velocity | null,
): void {
  const places = beyond(grid);
  for (let n = 0; n < links.inlet[0]; n++) {
    const i = Math.floor(links.to[n] / grid.size);
    const place = places.get(links.to[n] - i * grid.size);
    const u = place === undefined ? null : wall(...place);
    if (u === null) continue;
    kernel.constant[n] = 6 * weightOf(i) * (CX[i] * u[0] + CY[i] * u[1] + CZ[i] * u[2]);
  }
}

/**
 * Marches a flow whose air enters with a profile through layer 0 and leaves at even pressure behind the
 * last, sound absorbed at the inlet as in the solver.
 *
 * @param profile velocity along z at a place of the inlet [cells per step].
 */
export function* marchOpen(
  { grid, links, kernel }: LatticeFlow,
  profile: (x: number, y: number) => number,
): Generator<void> {
  const [from, end] = links.inlet;
  const places = beyond(grid);
  const entry = new Float64Array(end - from);
  for (let n = from; n < end; n++) {
    const i = Math.floor(links.to[n] / grid.size);
    const place = places.get(links.to[n] - i * grid.size);
    if (place === undefined) throw new Error('an inlet link leads from nowhere');
    // The inlet plane lies half a link beyond the cell that the link comes back to.
    entry[n - from] = profile(place[0] + 0.5 * CX[i], place[1] + 0.5 * CY[i]);
  }
  const inletCells: number[] = [];
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      if (grid.isFluid(x, y, 0)) inletCells.push(grid.address(x, y, 0));
    }
  }
  let slow = Number.NaN;
  for (let step = 0; ; step++) {
    const f = kernel.populations();
    if (step % 4 === 0) {
      let rho = 0;
      for (const cell of inletCells) rho += densityOf(f, grid, cell) / inletCells.length;
      if (Number.isNaN(slow)) slow = rho;
      slow += (rho - slow) * 0.004;
      for (let n = from; n < end; n++) {
        const u = entry[n - from] - (rho - slow) / Math.sqrt(3);
        kernel.constant[n] = links.inletWeight[n - from] * u;
      }
    }
    outflow(kernel, links, f, grid);
    kernel.step();
    yield;
  }
}

/** Anti-bounce-back at pressure 0 with the velocity of the last cells. */
function outflow(kernel: Kernel, links: Links, f: Float32Array, grid: Grid): void {
  const [from, end] = links.outlet;
  const u = new Float64Array(3);
  for (let n = from; n < end; n++) {
    velocityOf(f, grid, links.outletCell[n - from], u);
    const i = links.outletDirection[n - from];
    const along = CX[i] * u[0] + CY[i] * u[1] + CZ[i] * u[2];
    const square = u[0] * u[0] + u[1] * u[1] + u[2] * u[2];
    kernel.constant[n] = 2 * weightOf(i) * (4.5 * along * along - 1.5 * square);
  }
}

export function velocityOf(f: Float32Array, grid: Grid, cell: number, out: Float64Array): void {
  out.fill(0);
  for (let i = 1; i < DIRECTIONS; i++) {
    const value = f[i * grid.size + cell];
    out[0] += CX[i] * value;
    out[1] += CY[i] * value;
    out[2] += CZ[i] * value;
  }
}

/** Departure of the density from 1; pressure is a third of it. */
export function densityOf(f: Float32Array, grid: Grid, cell: number): number {
  let sum = 0;
  for (let i = 0; i < DIRECTIONS; i++) sum += f[i * grid.size + cell];
  return sum;
}

/** Sets a cell to the equilibrium of a density and a velocity (He & Luo 1997). */
export function setEquilibrium(
  f: Float32Array,
  grid: Grid,
  cell: number,
  rho: number,
  u: Velocity,
): void {
  const square = u[0] * u[0] + u[1] * u[1] + u[2] * u[2];
  for (let i = 0; i < DIRECTIONS; i++) {
    const c = CX[i] * u[0] + CY[i] * u[1] + CZ[i] * u[2];
    f[i * grid.size + cell] = weightOf(i) * (rho + 3 * c + 4.5 * c * c - 1.5 * square);
  }
}

/** Sets the rise of density over the periodic end that drives a flow. */
export function drive({ links, kernel }: LatticeFlow, rise: number): void {
  const [from, end] = links.periodic;
  for (let n = from; n < end; n++) kernel.constant[n] = links.periodicWeight[n - from] * rise;
}
