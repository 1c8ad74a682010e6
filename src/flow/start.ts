/** What a march begins from: an even flow, or a flow solved on another grid. */
import type { PlenumScene } from './duct.ts';
import { cellVelocity } from './ends.ts';
import type { Grid } from './grid.ts';
import { CX, CY, CZ, DIRECTIONS, weightOf } from './lattice.ts';

/** A flow that a march on another grid may begin from. */
export interface FlowStart {
  readonly grid: Grid;
  readonly scene: PlenumScene;
  readonly populations: Float32Array;
  /** Mean velocity in the bore in cells per step. */
  readonly speed: number;
  /** Pressure drop over the bore's velocity pressure. */
  readonly loss: number;
}

/** Even flow along z through every layer, at no pressure. @param flow volume per step. */
export function startEvenly(f: Float32Array, grid: Grid, flow: number): void {
  const cells = new Int32Array(grid.nz);
  eachCell(grid, (_x, _y, z) => {
    cells[z]++;
  });
  const u = new Float64Array(3);
  eachCell(grid, (x, y, z) => {
    u[2] = flow / cells[z];
    setEquilibrium(f, grid, grid.address(x, y, z), 0, u);
  });
}

/** Pressure and velocity of another solution, from the air cells around each point in proportion. */
export function startFrom(
  from: FlowStart,
  f: Float32Array,
  grid: Grid,
  scene: PlenumScene,
  speed: number,
): void {
  const scale = speed / from.speed;
  const other = from.grid;
  const shrink = scene.cell_mm / from.scene.cell_mm;
  const shift = [0, 1, 2].map(
    (axis) => (scene.origin_mm[axis] - from.scene.origin_mm[axis]) / from.scene.cell_mm,
  );
  const u = new Float64Array(3);
  const one = new Float64Array(3);
  eachCell(grid, (x, y, z) => {
    const px = shift[0] + x * shrink;
    const py = shift[1] + y * shrink;
    const pz = shift[2] + z * shrink;
    const x0 = Math.floor(px);
    const y0 = Math.floor(py);
    const z0 = Math.floor(pz);
    let sum = 0;
    let density = 0;
    u.fill(0);
    for (let corner = 0; corner < 8; corner++) {
      const cx = x0 + (corner & 1);
      const cy = y0 + ((corner >> 1) & 1);
      const cz = Math.min(other.nz - 1, Math.max(0, z0 + (corner >> 2)));
      if (!other.isFluid(cx, cy, cz)) continue;
      const share =
        (1 - Math.abs(px - cx)) *
        (1 - Math.abs(py - cy)) *
        Math.max(0, 1 - Math.abs(pz - z0 - (corner >> 2)));
      const cell = other.address(cx, cy, cz);
      cellVelocity(from.populations, other, cell, one);
      for (let i = 0; i < DIRECTIONS; i++) {
        density += share * from.populations[i * other.size + cell];
      }
      for (let axis = 0; axis < 3; axis++) u[axis] += share * one[axis];
      sum += share;
    }
    const norm = sum > 0 ? 1 / sum : 0;
    for (let axis = 0; axis < 3; axis++) u[axis] *= scale * norm;
    setEquilibrium(f, grid, grid.address(x, y, z), density * norm * scale * scale, u);
  });
}

function eachCell(grid: Grid, visit: (x: number, y: number, z: number) => void): void {
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      for (let z = 0; z < grid.nz; z++) if (grid.isFluid(x, y, z)) visit(x, y, z);
    }
  }
}

function setEquilibrium(
  f: Float32Array,
  { size }: Grid,
  cell: number,
  density: number,
  u: Float64Array,
): void {
  const square = 1.5 * (u[0] * u[0] + u[1] * u[1] + u[2] * u[2]);
  for (let i = 0; i < DIRECTIONS; i++) {
    const c = CX[i] * u[0] + CY[i] * u[1] + CZ[i] * u[2];
    f[i * size + cell] = weightOf(i) * (density + 3 * c + 4.5 * c * c - square);
  }
}
