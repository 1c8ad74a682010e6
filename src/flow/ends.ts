/**
 * Air into and out of the plenums, and what is read there.
 *
 * Both ends let plane waves of sound out, so that a march need not wait for them to die down:
 *
 *   inlet    u = u0 + (P - p) / Z,     outlet  p = Z (u - u0),     Z = rho c
 *
 * u0 the even velocity that is wanted, p and u means over the end. P rises while less than the wanted
 * flow passes (integral control); its gain damps the mass of air in the bore critically:
 *
 *   m du/dt = P - (Z + R) u,  dP/dt = g (u0 - u),  g = (Z + R)^2 / (4 m)
 *
 * Half the way is gone at each look: an answer to the full would swing to and fro without end, since the
 * pressure in the first layer follows the velocity there at once. m is
 * the bore's inertance and R a resistance of two and a half velocity pressures (linear theory).
 */
import type { Duct, PlenumScene } from './duct.ts';
import type { Grid } from './grid.ts';
import { CX, CY, CZ, DIRECTIONS, weightOf } from './lattice.ts';
import type { Links } from './links.ts';
import type { Kernel } from './plain-kernel.ts';

/** Steps from one look at the ends to the next. */
export const LOOK_EVERY = 4;
/** Impedance of free air, rho c. */
const Z = 1 / Math.sqrt(3);
/** Pressure drop over the bore's velocity pressure that the gain is set for, and that a march begins from. */
export const EXPECTED_LOSS = 2.5;

/** What is carried from one step to the next. */
export interface EndsState {
  /** P. */
  drive: number;
  /** Velocity at the inlet since the last look. */
  entered: number;
  /** Pressure behind the outlet since the last look, as a density. */
  behind: number;
}

/** Sums over looks. */
export interface EndsSums {
  looks: number;
  entered: number;
  left: number;
  /** Total pressure in the inlet plenum less the pressure at the reading plane. */
  difference: number;
}

export interface Ends {
  /** Looks at the ends and sets them for the steps that follow. */
  look(state: EndsState, sums: EndsSums): void;
  /** Sets the outlet's links; before every step. */
  release(state: EndsState): void;
}

export function createEnds(
  duct: Duct,
  scene: PlenumScene,
  grid: Grid,
  links: Links,
  kernel: Kernel,
  speed: number,
): Ends {
  const cell = scene.cell_mm;
  const plenum = scene.sides[0] * scene.sides[1];
  const wanted = (speed * duct.area_mm2) / (cell * cell) / plenum;
  const mass = ((duct.thickness_mm + duct.bore_mm) / cell) * (speed / wanted);
  const resistance = Z + EXPECTED_LOSS * speed * (speed / wanted);
  const gain = (LOOK_EVERY * 0.25 * resistance * resistance) / mass;
  const outletLayer = Math.floor(scene.outletEnd);
  const beyond = scene.outletEnd - outletLayer;
  const inlet = layerCells(grid, 0);
  const last = layerCells(grid, grid.nz - 1);
  const read = layerCells(grid, outletLayer);
  const next = layerCells(grid, Math.min(grid.nz - 1, outletLayer + 1));
  return {
    look(state, sums) {
      const f = kernel.populations();
      const before = meanDensity(f, grid, inlet) / 3;
      const left = flowThrough(f, grid, last) / plenum;
      const behind =
        ((1 - beyond) * meanDensity(f, grid, read) + beyond * meanDensity(f, grid, next)) / 3;
      sums.looks++;
      sums.entered += state.entered;
      sums.left += left;
      sums.difference += before + 0.5 * state.entered * state.entered - behind;
      state.drive += gain * (wanted - 0.5 * (state.entered + left));
      state.entered = 0.5 * (state.entered + wanted + (state.drive - before) / Z);
      state.behind = 0.5 * (state.behind + 3 * Z * (left - wanted));
      const [from, end] = links.inlet;
      for (let n = from; n < end; n++) {
        kernel.constant[n] = links.inletWeight[n - from] * state.entered;
      }
    },
    release(state) {
      setOutlet(kernel, links, grid, state.behind);
    },
  };
}

export function layerCells(grid: Grid, z: number): Int32Array {
  const found: number[] = [];
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) if (grid.isFluid(x, y, z)) found.push(grid.address(x, y, z));
  }
  return Int32Array.from(found);
}

function meanDensity(f: Float32Array, { size }: Grid, cells: Int32Array): number {
  let sum = 0;
  for (let i = 0; i < DIRECTIONS; i++) {
    for (let n = 0; n < cells.length; n++) sum += f[i * size + cells[n]];
  }
  return sum / cells.length;
}

function flowThrough(f: Float32Array, { size }: Grid, cells: Int32Array): number {
  let sum = 0;
  for (let i = 0; i < DIRECTIONS; i++) {
    if (CZ[i] === 0) continue;
    for (let n = 0; n < cells.length; n++) sum += CZ[i] * f[i * size + cells[n]];
  }
  return sum;
}

/**
 * A given pressure where air leaves; where it comes back in, it has that pressure at rest (less w^2 / 2
 * moving), so that an inflow cannot feed itself.
 */
function setOutlet(kernel: Kernel, links: Links, grid: Grid, density: number): void {
  const f = kernel.populations();
  const [from, end] = links.outlet;
  let cell = -1;
  let rest = 0;
  for (let n = from; n < end; n++) {
    if (links.outletCell[n - from] !== cell) {
      cell = links.outletCell[n - from];
      cellVelocity(f, grid, cell, velocity);
      const [u, v, w] = velocity;
      rest = density - 1.5 * (u * u + v * v + w * w) - (w < 0 ? 1.5 * w * w : 0);
    }
    const i = links.outletDirection[n - from];
    const along = CX[i] * velocity[0] + CY[i] * velocity[1] + CZ[i] * velocity[2];
    kernel.constant[n] = 2 * weightOf(i) * (rest + 4.5 * along * along);
  }
}

const velocity = new Float64Array(3);

/** Velocity of a cell in cells per step. @param out receives x, y, z. */
export function cellVelocity(
  f: Float32Array,
  { size }: Grid,
  cell: number,
  out: Float64Array,
): void {
  let u = 0;
  let v = 0;
  let w = 0;
  for (let i = 1; i < DIRECTIONS; i++) {
    const value = f[i * size + cell];
    u += CX[i] * value;
    v += CY[i] * value;
    w += CZ[i] * value;
  }
  out[0] = u;
  out[1] = v;
  out[2] = w;
}
