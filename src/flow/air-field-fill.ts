/** What a field between cells is laid out from: air cells, images in mirrors, cells beyond walls, distances. */
import type { Grid } from './grid.ts';
import type { PlenumScene } from './duct.ts';
import { cellVelocity } from './solve.ts';
import { FARTHEST_GAP, airCells, foldCell, wallGap, wallNormal } from './wall-gap.ts';

/** What the field is read from. */
export interface SolvedField {
  readonly grid: Grid;
  readonly scene: PlenumScene;
  readonly populations: Float32Array;
  /** Metres per second for one cell per step. */
  readonly scale_m_per_s: number;
}

/** Halvings of a link in search of the wall: 1/64 of a cell. */
const HALVINGS = 6;

/** Distances to walls at cells, images and the cells just within walls. */
export function fillGaps({ grid, scene }: SolvedField, gaps: Float32Array, at: Address): void {
  const isAir = airCells(grid, scene);
  const normal = new Float64Array(3);
  const holdsAir = (x: number, y: number, z: number): boolean => {
    const box = scene.box(Math.min(grid.nz - 1, Math.max(0, Math.round(z))));
    if (box === null) return scene.inside(x, y, z);
    return scene.inside(foldCell(x, box.x0, box.x1), foldCell(y, box.y0, box.y1), z);
  };
  for (let x = -1; x <= grid.nx; x++) {
    for (let y = -1; y <= grid.ny; y++) {
      for (let z = -1; z <= grid.nz; z++) {
        const air = isAir(x, y, z);
        gaps[at(x, y, z)] = wallNormal(isAir, x, y, z, normal)
          ? wallGap(holdsAir, x, y, z, normal)
          : air
            ? FARTHEST_GAP
            : -FARTHEST_GAP;
      }
    }
  }
}

type Address = (x: number, y: number, z: number) => number;

/** Velocities of the air cells. */
export function fillAir(
  { grid, populations, scale_m_per_s }: SolvedField,
  flow: Float32Array,
  open: Uint8Array,
  at: Address,
): void {
  const u = new Float64Array(3);
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      for (let z = 0; z < grid.nz; z++) {
        if (!grid.isFluid(x, y, z)) continue;
        cellVelocity(populations, grid, grid.address(x, y, z), u);
        const i = at(x, y, z);
        open[i] = 1;
        for (let d = 0; d < 3; d++) flow[3 * i + d] = scale_m_per_s * u[d];
      }
    }
  }
}

/** Cells that hold no air but lie beside some: images in mirrors, walls, the two ends. */
export function fillBeyond(
  { grid, scene }: SolvedField,
  flow: Float32Array,
  open: Uint8Array,
  at: Address,
): void {
  const { nx, ny, nz } = grid;
  const images: number[] = [];
  const isAirCell = (x: number, y: number, z: number): boolean =>
    x >= 0 && y >= 0 && x < nx && y < ny && z >= 0 && z < nz && open[at(x, y, z)] === 1;
  const wall = new Float64Array(3);
  for (let x = -1; x <= nx; x++) {
    for (let y = -1; y <= ny; y++) {
      for (let z = 0; z < nz; z++) {
        if (isAirCell(x, y, z)) continue;
        const i = at(x, y, z);
        const box = scene.box(z);
        if (box !== null) {
          const mx = foldCell(x, box.x0, box.x1);
          const my = foldCell(y, box.y0, box.y1);
          if ((mx !== x || my !== y) && isAirCell(mx, my, z)) {
            const from = 3 * at(mx, my, z);
            flow[3 * i] = mx === x ? flow[from] : -flow[from];
            flow[3 * i + 1] = my === y ? flow[from + 1] : -flow[from + 1];
            flow[3 * i + 2] = flow[from + 2];
            images.push(i);
            continue;
          }
        }
        if (!wallVelocity(scene, flow, isAirCell, at, x, y, z, wall)) continue;
        flow.set(wall, 3 * i);
      }
    }
  }
  for (const i of images) open[i] = 1;
  for (let x = -1; x <= nx; x++) {
    for (let y = -1; y <= ny; y++) {
      for (const [end, beside] of [
        [-1, 0],
        [nz, nz - 1],
      ]) {
        const i = at(x, y, end);
        const from = at(x, y, beside);
        open[i] = open[from];
        for (let d = 0; d < 3; d++) flow[3 * i + d] = flow[3 * from + d];
      }
    }
  }
}

/** Velocity beyond a wall at which the air stands still; false where no air lies beside the cell. */
function wallVelocity(
  scene: PlenumScene,
  flow: Float32Array,
  isAirCell: (x: number, y: number, z: number) => boolean,
  at: Address,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): boolean {
  out.fill(0);
  let sides = 0;
  for (let axis = 0; axis < 3; axis++) {
    for (let sign = -1; sign <= 1; sign += 2) {
      const dx = axis === 0 ? sign : 0;
      const dy = axis === 1 ? sign : 0;
      const dz = axis === 2 ? sign : 0;
      if (!isAirCell(x + dx, y + dy, z + dz)) continue;
      sides++;
      let air = 0;
      let solid = 1;
      for (let n = 0; n < HALVINGS; n++) {
        const q = 0.5 * (air + solid);
        if (scene.inside(x + (1 - q) * dx, y + (1 - q) * dy, z + (1 - q) * dz)) air = q;
        else solid = q;
      }
      const q = 0.5 * (air + solid);
      const isFar = q >= 0.5;
      if (!isFar && !isAirCell(x + 2 * dx, y + 2 * dy, z + 2 * dz)) continue;
      const steps = isFar ? 1 : 2;
      const share = isFar ? -(1 - q) / q : -(1 - q) / (1 + q);
      const from = 3 * at(x + steps * dx, y + steps * dy, z + steps * dz);
      for (let d = 0; d < 3; d++) out[d] += share * flow[from + d];
    }
  }
  for (let d = 0; d < 3; d++) out[d] /= Math.max(1, sides);
  return sides > 0;
}
