/**
 * The pressure drop of one channel on two grids, with an honest uncertainty.
 */
import type { Duct, PlenumOptions } from './duct.ts';
import { createPlenumScene } from './duct.ts';
import { solveBytes } from './grid.ts';
import { solveDuct } from './solve.ts';
import type { Solved, SolveOptions } from './solve.ts';

/** Greatest Reynolds number of the bore that the solver was compared at. */
export const VALID_REYNOLDS = 1320;
/** Fewest cells across the narrowest bore. */
export const LEAST_CELLS = 10;
/** Finer grid over coarser. */
export const REFINEMENT = 4 / 3;
/** Bore velocity in cells per step, at a seventh of the speed of sound. */
export const LATTICE_SPEED = 0.08;

/**
 * Plenums of the cases that the solver was compared with, and the settings that served all of them.
 * Where the jet's outlet ends, and how, moves the pressure drop by some 5 %.
 */
const SETTINGS = {
  inletLength_mm: 10,
  outletLength_mm: 15,
  tolerance: 0.001,
  maxSteps: 20_000,
  subgrid: 0.05,
} as const;

export interface VerifyOptions {
  readonly side_mm: number;
  /** Cells across the bore of the coarser grid. */
  readonly cells: number;
  /** On the bore and the mean velocity at the inlet port. */
  readonly reynolds: number;
  /** Narrowest area of the channel over that of the inlet port, at most 1. */
  readonly narrowing: number;
}

export interface VerifyProgress {
  /** 1 or 2. */
  readonly pass: number;
  readonly step: number;
  readonly loss: number;
}

export interface GridResult {
  readonly cellsAcross: number;
  readonly cells: number;
  readonly steps: number;
  readonly loss: number;
  readonly scatter: number;
  readonly massError: number;
  readonly converged: boolean;
}

export interface DuctVerified {
  /** Pressure drop over rho U^2 / 2 at the inlet port: the finer grid's. */
  readonly loss: number;
  /** Half width of what the number may be off, relative. */
  readonly uncertainty: number;
  readonly grids: readonly [GridResult, GridResult];
  /** The finer solution, with its field. */
  readonly field: Solved;
  readonly speed: number;
}

/** Share of the pressure drop that hangs on how the outlet plenum ends. */
const OUTLET_SHARE = 0.05;

/** Upper bound of the memory that the finer grid takes [bytes]. */
export function verifyBytes(duct: Duct, options: VerifyOptions): number {
  const scene = createPlenumScene(duct, plenum(options, REFINEMENT));
  return solveBytes(scene.nx * scene.ny * scene.nz, 0.4 * scene.nx * scene.ny * scene.nz);
}

/**
 * Solves on both grids. A march that runs away is begun again at half the speed.
 *
 *   uncertainty = sqrt(grid^2 + scatter^2 + outlet^2),  grid = 1.25 |fine - coarse| / (r^2 - 1) / fine
 *
 * Source of the grid's share: grid convergence index of Roache 1994 (J. Fluids Eng. 116:405), second
 * order, safety factor 1.25. The finer value itself is given, not the extrapolated one: differences
 * between grids here do not fall steadily enough for that.
 *
 * @throws RangeError when the flow runs away at half speed too.
 */
export function* verifyDuct(
  duct: Duct,
  options: VerifyOptions,
): Generator<VerifyProgress, DuctVerified> {
  const coarse = yield* solveOnce(duct, options, 1);
  const fine = yield* solveOnce(duct, options, 2);
  const a = gridResult(duct, coarse.solved);
  const b = gridResult(duct, fine.solved);
  const ratio = b.cellsAcross / a.cellsAcross;
  const grid = (1.25 * Math.abs(b.loss - a.loss)) / (ratio * ratio - 1) / b.loss;
  const uncertainty = Math.sqrt(grid * grid + b.scatter * b.scatter + OUTLET_SHARE * OUTLET_SHARE);
  return { loss: b.loss, uncertainty, grids: [a, b], field: fine.solved, speed: fine.speed };
}

/** The coarser grid alone. @throws RangeError when the flow runs away at half speed too. */
export function* solveCoarse(
  duct: Duct,
  options: VerifyOptions,
): Generator<VerifyProgress, { solved: Solved; speed: number }> {
  return yield* solveOnce(duct, options, 1);
}

function plenum(options: VerifyOptions, finer: number): PlenumOptions {
  return { ...SETTINGS, side_mm: options.side_mm, cells: options.cells * finer };
}

function* solveOnce(
  duct: Duct,
  options: VerifyOptions,
  pass: 1 | 2,
): Generator<VerifyProgress, { solved: Solved; speed: number }> {
  let speed = LATTICE_SPEED * options.narrowing;
  for (let attempt = 0; attempt < 2; attempt++) {
    const settings: SolveOptions = {
      ...SETTINGS,
      ...plenum(options, pass === 1 ? 1 : REFINEMENT),
      reynolds: options.reynolds,
      speed,
    };
    const march = solveDuct(duct, settings);
    for (;;) {
      const next = march.next();
      if (next.done === true) {
        if (!next.value.diverged) return { solved: next.value, speed };
        break;
      }
      yield { pass, ...next.value };
    }
    speed *= 0.5;
  }
  throw new RangeError('the computed flow ran away, at half the speed too; try more cells');
}

function gridResult(duct: Duct, solved: Solved): GridResult {
  const { cells, steps, loss, scatter, massError, converged } = solved;
  const cellsAcross = duct.bore_mm / solved.scene.cell_mm;
  return { cellsAcross, cells, steps, loss, scatter, massError, converged };
}
