/** The grids of a verification, each begun from the one before, and what is tried when a march runs away. */
import type { Duct, PlenumOptions } from './duct.ts';
import { solveDuct } from './solve.ts';
import type { Solved, SolveOptions } from './solve.ts';
import type { FlowStart } from './start.ts';
import type { Campaign, GridResult, VerifyOptions, VerifyProgress } from './verify.ts';

/** Bore velocity in cells per step, at a sixth of the speed of sound; 0.14 shook the S-bend at Re 1320. */
export const LATTICE_SPEED = 0.1;

/** One setting for all channels. */
const SETTINGS = { tolerance: 0.002, maxSteps: 12_000, subgrid: 0.05 } as const;

/** Cells across, in times those asked for; each grid begins from the one before. */
export const LEVELS = [
  { finer: 0.55, pass: 1, isKept: false },
  { finer: 1, pass: 1, isKept: true },
  { finer: 4 / 3, pass: 2, isKept: true },
] as const;

/** What is tried in turn. */
const ATTEMPTS = [
  { slower: 1, finer: 1, words: null },
  { slower: 0.5, finer: 1, words: 'begun again at half the speed' },
  { slower: 0.5, finer: 1.25, words: 'begun again at half the speed with a quarter more cells' },
] as const;

export interface LevelSolved {
  readonly solved: Solved;
  /** Mean velocity in the bore in cells per step. */
  readonly speed: number;
}

/** Inlet plenum in times its longer side: unevenness has died to 2 % of the bore's (exp(-2 pi 0.65)). */
const INLET_SIDES = 0.65;
/** Outlet plenum up to where the pressure is read, in diameters of a round port of the same area. */
const OUTLET_DIAMETERS = 3;

/** Plenums in proportion to the channel, so that its size does not matter. */
export function plenumOf(duct: Duct, options: VerifyOptions, finer: number): PlenumOptions {
  const { side_mm } = options;
  const longest_mm = typeof side_mm === 'number' ? side_mm : Math.max(...side_mm);
  return {
    side_mm,
    cells: options.cells * finer,
    inletLength_mm: INLET_SIDES * longest_mm,
    outletLength_mm: OUTLET_DIAMETERS * 2 * Math.sqrt(duct.area_mm2 / Math.PI),
  };
}

/**
 * One grid. What runs away is begun again slower, then finer; a grid that only serves as a beginning is
 * tried once.
 *
 * @returns null when a grid that is not kept ran away.
 * @throws RangeError when one that is kept ran away in every attempt.
 */
export function* solveLevel(
  { duct, options, saved, kept }: Campaign,
  level: number,
  before: LevelSolved | null,
): Generator<VerifyProgress, LevelSolved | null> {
  const { finer, isKept } = LEVELS[level];
  const isResumed = saved !== undefined && saved.level === level;
  const attempts = isKept ? ATTEMPTS.length : 1;
  for (let attempt = isResumed ? saved.attempt : 0; attempt < attempts; attempt++) {
    const { slower, finer: more, words } = ATTEMPTS[attempt];
    const speed = LATTICE_SPEED * options.narrowing * slower;
    const settings: SolveOptions = {
      ...SETTINGS,
      ...plenumOf(duct, options, finer * more),
      reynolds: options.reynolds,
      speed,
      ...(before === null || attempt > 0 ? {} : { start: startOf(before) }),
    };
    const march = solveDuct(
      duct,
      settings,
      isResumed && attempt === saved.attempt ? saved.march : undefined,
    );
    let next = march.next();
    for (; next.done !== true; next = march.next()) {
      const reading = next.value;
      const { step, expected, loss } = reading;
      yield {
        pass: LEVELS[level].pass,
        step,
        expected,
        done: doneAt(level, step / Math.max(expected, step)),
        loss,
        save: () => ({ level, attempt, kept: [...kept], march: reading.save() }),
      };
    }
    if (next.value.diverged) continue;
    if (isKept) kept.push(gridResult(duct.bore_mm, next.value, words));
    return { solved: next.value, speed };
  }
  if (!isKept) return null;
  throw new RangeError(
    `the computed flow ran away on ${(options.cells * finer).toFixed(1)} cells across, slower and finer too; take more cells or a lower velocity`,
  );
}

function startOf({ solved, speed }: LevelSolved): FlowStart {
  const { grid, scene, loss } = solved;
  return { grid, scene, populations: solved.kernel.populations(), speed, loss };
}

/** Work of a grid goes with the fourth power of its cells across: cells times steps. */
function doneAt(level: number, share: number): number {
  let done = 0;
  let all = 0;
  LEVELS.forEach(({ finer }, n) => {
    const work = finer * finer * finer * finer;
    all += work;
    if (n < level) done += work;
    if (n === level) done += work * share;
  });
  return done / all;
}

function gridResult(bore_mm: number, solved: Solved, retried: string | null): GridResult {
  const { cells, steps, loss, scatter, massError, converged } = solved;
  const cellsAcross = bore_mm / solved.scene.cell_mm;
  return { cellsAcross, cells, steps, loss, scatter, massError, converged, retried };
}
