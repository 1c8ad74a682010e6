/**
 * Flow through one channel between its plenums, marched until its pressure drop stands still.
 */
import type { Duct, PlenumOptions, PlenumScene } from './duct.ts';
import { createPlenumScene } from './duct.ts';
import { EXPECTED_LOSS, LOOK_EVERY, createEnds } from './ends.ts';
import type { EndsState, EndsSums } from './ends.ts';
import { createGrid } from './grid.ts';
import type { Grid } from './grid.ts';
import { DIRECTIONS } from './lattice.ts';
import { createLinks } from './links.ts';
import { judgeReadings } from './settling.ts';
import { startEvenly, startFrom } from './start.ts';
import type { FlowStart } from './start.ts';
import { packAir, unpackAir } from './packing.ts';
import { createKernel } from './wasm-kernel.ts';
import type { Kernel, KernelSetup } from './plain-kernel.ts';

export { cellVelocity } from './ends.ts';

export interface SolveOptions extends PlenumOptions {
  /** On the bore and the mean velocity. */
  readonly reynolds: number;
  /** Relative change of the pressure drop still to come that ends the march. */
  readonly tolerance: number;
  readonly maxSteps: number;
  /** Mean velocity in the bore in cells per step. */
  readonly speed: number;
  readonly subgrid: number;
  /** A solution on another grid to begin from. */
  readonly start?: FlowStart;
  readonly createKernel?: (setup: KernelSetup) => Kernel;
}

export interface SolveProgress {
  readonly step: number;
  /** Steps that the march takes in all, as far as can be told. */
  readonly expected: number;
  /** Pressure drop so far over the bore's velocity pressure. */
  readonly loss: number;
  /** A copy of all that the march needs to go on from here; to be called before the next step. */
  readonly save: () => MarchState;
}

/** A march in the middle: plain data and typed arrays. */
export interface MarchState {
  readonly step: number;
  /** Whether it began from another solution. */
  readonly isWarm: boolean;
  readonly ends: Readonly<EndsState>;
  readonly readings: Float64Array;
  /** Inflow over outflow of each reading. */
  readonly leaks: Float64Array;
  /** Of the air cells, in the order of the grid's spans [19 x cells]. */
  readonly populations: Float32Array;
}

export interface Solved {
  /** (Total pressure before the plate - pressure behind it) / (rho U^2 / 2), a mean over the last steps. */
  readonly loss: number;
  /** Greatest departure from that mean during those steps, relative. */
  readonly scatter: number;
  /** Change of the loss that was still to come, relative. */
  readonly remaining: number;
  /** Flow into the plenum over flow out of it, minus 1: what interpolated walls leak. */
  readonly massError: number;
  readonly steps: number;
  readonly converged: boolean;
  /** The loss grew without bound, or a flow at rest loses mass. */
  readonly diverged: boolean;
  readonly cells: number;
  readonly scene: PlenumScene;
  readonly grid: Grid;
  readonly kernel: Kernel;
}

/** Steps between readings. */
const READ_EVERY = 48;
/**
 * Reynolds number of the bore with the viscosity at the sponge's end. Own choice, and not a blind one: it
 * is that which straight bores of tests/reference/data/cfd.json were once matched with. It is felt where
 * the pressure is read: on a channel of no comparison (bore 4 mm, plate 12 mm, cell 6.6 mm, read 12 mm
 * behind; Re 250 and 900), against the same with the sponge 40 mm further on, 50 read 0.1 and 0.6 %
 * lower, 15 read 1.1 and 1.3 %, 5 read 4.1 and 4.5 %, 2 read 8.8 and 11 % lower. Milder ones lost
 * because eddies of a jet at Re 1320 then cross the outlet: an S-bend read 8 to 15 % high and climbing.
 */
const SPONGE_REYNOLDS = 5;
/** Leak of a flow at rest from which it has run away unseen; sound ones stay below 0.003. */
const GREATEST_LEAK = 0.02;

/**
 * @param saved goes on from there; the result is the same to the last bit.
 * @throws RangeError when the saved state is of another grid.
 */
export function* solveDuct(
  duct: Duct,
  options: SolveOptions,
  saved?: MarchState,
): Generator<SolveProgress, Solved> {
  const { speed } = options;
  const scene = createPlenumScene(duct, options);
  const grid = createGrid(scene);
  const links = createLinks(scene, grid);
  const create = options.createKernel ?? createKernel;
  const kernel = create({ grid, links, subgrid: options.subgrid });
  const bore = duct.bore_mm / scene.cell_mm;
  setTau(kernel.tau, scene, (speed * bore) / options.reynolds, (speed * bore) / SPONGE_REYNOLDS);
  const ends = createEnds(duct, scene, grid, links, kernel, speed);
  const q = 0.5 * speed * speed;
  const plenum = scene.sides[0] * scene.sides[1];
  const wanted = (speed * duct.area_mm2) / (scene.cell_mm * scene.cell_mm) / plenum;
  const state: EndsState = {
    drive: (options.start?.loss ?? EXPECTED_LOSS) * q,
    entered: wanted,
    behind: 0,
  };
  const readings: number[] = [];
  const leaks: number[] = [];
  let step = 0;
  const f = kernel.populations();
  if (saved !== undefined) {
    if (saved.populations.length !== DIRECTIONS * grid.cells) {
      throw new RangeError('The saved flow is of another grid.');
    }
    Object.assign(state, saved.ends);
    readings.push(...saved.readings);
    leaks.push(...saved.leaks);
    step = saved.step;
    unpackAir(saved.populations, f, grid);
  } else if (options.start === undefined) startEvenly(f, grid, wanted * plenum);
  else startFrom(options.start, f, grid, scene, speed);
  // The bore is flushed once.
  const flush = (duct.thickness_mm + duct.bore_mm) / scene.cell_mm / speed / READ_EVERY;
  const warm = saved?.isWarm ?? options.start !== undefined;
  let verdict = judgeReadings(readings, flush, options.tolerance, warm);
  let diverged = false;
  while (step < options.maxSteps && !verdict.settled && !diverged) {
    const sums: EndsSums = { looks: 0, entered: 0, left: 0, difference: 0 };
    for (let n = 0; n < READ_EVERY; n++) {
      if (step % LOOK_EVERY === 0) ends.look(state, sums);
      ends.release(state);
      kernel.step();
      step++;
    }
    const u = (0.5 * (sums.entered + sums.left)) / sums.looks / wanted;
    const loss = sums.difference / sums.looks / (q * u * u);
    readings.push(loss);
    leaks.push(sums.entered / sums.left);
    diverged = !(Math.abs(loss) < 1e3);
    verdict = judgeReadings(readings, flush, options.tolerance, warm);
    const at = step;
    yield {
      step,
      expected: Math.min(options.maxSteps, verdict.expected * READ_EVERY),
      loss,
      save: () => ({
        step: at,
        isWarm: warm,
        ends: { ...state },
        readings: Float64Array.from(readings),
        leaks: Float64Array.from(leaks),
        populations: packAir(kernel.populations(), grid),
      }),
    };
  }
  const massError = mean(leaks, Math.max(0, leaks.length - Math.ceil(flush))) - 1;
  if (verdict.settled && !(Math.abs(massError) < GREATEST_LEAK)) diverged = true;
  return {
    loss: verdict.mean,
    scatter: verdict.scatter,
    remaining: verdict.remaining,
    massError,
    steps: step,
    converged: verdict.settled && !diverged,
    diverged,
    cells: grid.cells,
    scene,
    grid,
    kernel,
  };
}

function mean(values: readonly number[], from: number): number {
  let sum = 0;
  for (let i = from; i < values.length; i++) sum += values[i];
  return sum / (values.length - from);
}

/**
 * Viscosity of the layers. In the sponge it rises, so that eddies have died when they leave; in
 * proportion to bore and speed, so that the sponge does the same on every grid.
 */
function setTau(tau: Float32Array, scene: PlenumScene, viscosity: number, calm: number): void {
  for (let k = 0; k < tau.length; k++) {
    const share = Math.max(0, (k - scene.outletEnd) / scene.sponge);
    tau[k] = 0.5 + 3 * (viscosity + calm * share);
  }
}
