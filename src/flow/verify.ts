/**
 * The pressure drop of one channel on two grids, with an honest uncertainty.
 */
import { cbrt } from '../numeric/index.ts';
import type { Duct, PlenumOptions } from './duct.ts';
import { createPlenumScene } from './duct.ts';
import { createGrid, solveBytes } from './grid.ts';
import { LEVELS, plenumOf, solveLevel } from './levels.ts';
import type { LevelSolved } from './levels.ts';
import type { MarchState, Solved } from './solve.ts';

/** Greatest Reynolds number of the bore that the solver was compared at. */
export const VALID_REYNOLDS = 1320;
/** Fewest cells across the narrowest bore. */
export const LEAST_CELLS = 10;
/** Most memory that one solve may take [bytes]. */
export const MOST_BYTES = 150e6;

export interface VerifyOptions {
  /** Sides of the plate that the channel serves, see `PlenumOptions`. */
  readonly side_mm: PlenumOptions['side_mm'];
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
  /** Steps of this grid's march, done and in all, as far as can be told. */
  readonly step: number;
  readonly expected: number;
  /** Share of the whole work that is done, 0 to 1. */
  readonly done: number;
  readonly loss: number;
  /** All that is needed to go on from here, see `verifyDuct`; to be called before the next step. */
  readonly save: () => VerifyState;
}

/** A verification in the middle: plain data and typed arrays. */
export interface VerifyState {
  readonly level: number;
  readonly attempt: number;
  readonly kept: readonly GridResult[];
  readonly march: MarchState;
}

export interface GridResult {
  readonly cellsAcross: number;
  readonly cells: number;
  readonly steps: number;
  readonly loss: number;
  readonly scatter: number;
  readonly massError: number;
  readonly converged: boolean;
  /** What had to be tried, null for nothing. */
  readonly retried: string | null;
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

/** Coarser, each way, of the grid by which memory is estimated. */
const ESTIMATE_COARSER = 3;

/**
 * Memory that the finest grid takes [bytes], from above: what a grid of a third of the cells across
 * takes, scaled. Its edges are a third as fine, so that it is too much by a quarter to twice.
 */
export function verifyBytes(duct: Duct, options: VerifyOptions): number {
  const { finer } = LEVELS[LEVELS.length - 1];
  const grid = createGrid(
    createPlenumScene(duct, plenumOf(duct, options, finer / ESTIMATE_COARSER)),
  );
  const addresses = grid.size * ESTIMATE_COARSER * ESTIMATE_COARSER * ESTIMATE_COARSER;
  return solveBytes(addresses, 0.7 * addresses);
}

/** Why a solve takes too much memory, and what to do; null when it does not. */
export function memoryRefusal(duct: Duct, options: VerifyOptions): string | null {
  const bytes = verifyBytes(duct, options);
  if (bytes <= MOST_BYTES) return null;
  const finest = options.cells * LEVELS[LEVELS.length - 1].finer;
  // Memory goes with the cube of the cells across, but for the edges.
  let fewer = Math.floor(options.cells * cbrt(MOST_BYTES / bytes));
  while (fewer >= LEAST_CELLS && verifyBytes(duct, { ...options, cells: fewer }) > MOST_BYTES) {
    fewer--;
  }
  const remedy =
    fewer >= LEAST_CELLS
      ? `take ${fewer} cells across or fewer`
      : 'the channel is too long and wide for its bore; widen the bore or shorten the way';
  return `the grid of ${finest.toFixed(1)} cells across would take up to ${(bytes / 1e6).toFixed(0)} MB, more than the ${MOST_BYTES / 1e6} MB allowed; ${remedy}`;
}

/** In the way of `verifyDuct`: what is solved, and what is carried from grid to grid. */
export interface Campaign {
  readonly duct: Duct;
  readonly options: VerifyOptions;
  readonly saved: VerifyState | undefined;
  readonly kept: GridResult[];
}

/**
 * Solves on both grids, each from a coarser solution. A march that runs away is begun again slower and
 * then finer.
 *
 *   uncertainty = sqrt(grid^2 + scatter^2 + outlet^2),  grid = 1.25 |fine - coarse| / (r^2 - 1) / fine
 *
 * Source of the grid's share: grid convergence index of Roache 1994 (J. Fluids Eng. 116:405), second
 * order, safety factor 1.25. The finer value itself is given, not the extrapolated one.
 *
 * @param saved goes on from there; the result is the same to the last bit.
 * @throws RangeError when more memory is asked for than `MOST_BYTES`, or when the flow runs away in
 *   every attempt.
 */
export function* verifyDuct(
  duct: Duct,
  options: VerifyOptions,
  saved?: VerifyState,
): Generator<VerifyProgress, DuctVerified> {
  const refusal = memoryRefusal(duct, options);
  if (refusal !== null) throw new RangeError(refusal);
  const campaign: Campaign = { duct, options, saved, kept: [...(saved?.kept ?? [])] };
  let last: LevelSolved | null = null;
  for (let level = saved?.level ?? 0; level < LEVELS.length; level++) {
    last = yield* solveLevel(campaign, level, last);
  }
  const [a, b] = campaign.kept;
  if (last === null) throw new Error('the finest grid was solved');
  const ratio = b.cellsAcross / a.cellsAcross;
  const grid = (1.25 * Math.abs(b.loss - a.loss)) / (ratio * ratio - 1) / b.loss;
  const uncertainty = Math.sqrt(grid * grid + b.scatter * b.scatter + OUTLET_SHARE * OUTLET_SHARE);
  return { loss: b.loss, uncertainty, grids: [a, b], field: last.solved, speed: last.speed };
}

/** The coarser grid alone. @throws RangeError as `verifyDuct`. */
export function* solveCoarse(
  duct: Duct,
  options: VerifyOptions,
): Generator<VerifyProgress, LevelSolved> {
  const campaign: Campaign = { duct, options, saved: undefined, kept: [] };
  const first = yield* solveLevel(campaign, 0, null);
  const second = yield* solveLevel(campaign, 1, first);
  if (second === null) throw new Error('a grid that is kept was solved');
  return second;
}
