/** The flow of reversed air through a solved channel, for what a purge carries out. */
import type { Duct } from './duct.ts';
import { reversedDuct } from './lifting.ts';
import type { SolvedChannel } from './findings.ts';
import { solveDuct } from './solve.ts';
import type { VerifyOptions } from './verify.ts';

/** Reversed air on the coarser grid: friction at walls, not a pressure drop, is asked of it. */
const SETTINGS = {
  inletLength_mm: 10,
  outletLength_mm: 15,
  tolerance: 0.003,
  maxSteps: 10_000,
  subgrid: 0.05,
} as const;
export interface ReversedProgress {
  readonly step: number;
  readonly loss: number;
  /** Share of the most steps that are taken, 0 to 1. */
  readonly done: number;
}

/** Cells per step in the inlet port. */
const SPEED = 0.08;

/**
 * Solves the channel turned front to back, air entering where it left.
 *
 * @param share flow of the purge over that of the solved flow.
 * @param velocity_m_per_s mean of the solved flow at the inlet port's area.
 * @returns null where the flow runs away.
 */
export function* solveReversed(
  duct: Duct,
  options: VerifyOptions,
  share: number,
  velocity_m_per_s: number,
): Generator<ReversedProgress, SolvedChannel | null> {
  const { side_mm, cells, narrowing, reynolds } = options;
  const speed = SPEED * narrowing;
  const settings = { ...SETTINGS, side_mm, cells, speed, reynolds: reynolds * share };
  const march = solveDuct(reversedDuct(duct), settings);
  let next = march.next();
  for (; next.done !== true; next = march.next()) {
    const { step, loss } = next.value;
    yield { step, loss, done: Math.min(1, step / SETTINGS.maxSteps) };
  }
  const solved = next.value;
  if (solved.diverged) return null;
  return { solved, speed, velocity_m_per_s: velocity_m_per_s * share };
}
