/** Which flows of a design are computed, as plain data that a worker takes and gives back. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { LEAST_CELLS } from '../flow/index.ts';
import { isSameCase } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { cubicMetresPerHour, sha256 } from '../numeric/index.ts';
import { planVerification, verifyPlan } from './verify.ts';
import { dustDigest } from './verify-findings.ts';
import type { VerifyState, VerifyPlan, VerifyProgress } from './verify.ts';
import { CHANNEL_ROLES, flowAt, shapeOfRole } from './verify-flow.ts';
import type { ChannelRole } from './verify-flow.ts';
import { VERSION } from './version.ts';

/** Raised whenever the same question would get another answer. */
const SOLVER_VERSION = 2;

/** One flow to be computed: plain data, so that it travels to a worker. */
export interface VerifyTask {
  /** Id of the design, or name of its file. */
  readonly name: string;
  readonly brief: Brief;
  readonly design: Design;
  readonly digest: string;
  readonly role: ChannelRole;
  readonly cells: number;
  /** Mean at the inlet port of the median channel. */
  readonly velocity_m_per_s: number;
  /** What the file will be found by. */
  readonly found: Pick<VerifyCase, 'shape' | 'velocity_m_per_s' | 'reynolds'>;
  readonly memory_bytes: number;
}

export interface VerifyChoice {
  readonly cells: number;
  /** Mean at the inlet port of the median channel; null: about the operating point. */
  readonly velocities_m_per_s: readonly number[] | null;
  /** Solves the channels of least and of greatest flow too, where they differ. */
  readonly spread: boolean;
}

export interface VerifyTasks {
  readonly tasks: readonly VerifyTask[];
  /** Flows that cannot be computed, one sentence each. */
  readonly refused: readonly string[];
}

/** Velocities that are computed when none is asked for, in times that of the operating point. */
const SHARES = [1, 0.5, 1.5];
/** Flows closer than this to the median's are not computed on their own. */
const DIFFERENT = 0.05;

/**
 * The flows of a design that are worth computing: its median channel at each velocity, and at the
 * first of them also the channels of least and of greatest flow, where they differ from it.
 */
export function verifyTasks(
  name: string,
  brief: Brief,
  design: Design,
  choice: VerifyChoice,
): VerifyTasks {
  if (choice.cells < LEAST_CELLS) {
    const plan = planVerification(brief, design, choice.cells, null);
    return { tasks: [], refused: typeof plan === 'string' ? [plan] : [] };
  }
  const velocities = choice.velocities_m_per_s ?? aboutOperatingPoint(brief, design);
  const digest = plateDigest(brief, design);
  const tasks: VerifyTask[] = [];
  const refused: string[] = [];
  velocities.forEach((velocity_m_per_s, i) => {
    const roles = i === 0 && choice.spread ? differingRoles(brief, design, velocity_m_per_s) : [];
    for (const role of ['median', ...roles] as const) {
      const plan = planVerification(brief, design, choice.cells, velocity_m_per_s, role);
      if (typeof plan === 'string') {
        refused.push(`${role} channel: ${plan}`);
        continue;
      }
      const { shape, reynolds, memory_bytes } = plan;
      const found = { shape, velocity_m_per_s: plan.velocity_m_per_s, reynolds };
      const { cells } = choice;
      const of = { name, brief, design, digest, role, cells, velocity_m_per_s };
      tasks.push({ ...of, found, memory_bytes });
    }
  });
  return { tasks, refused: [...new Set(refused)] };
}

/** Mean velocity in the median channel where fan and plate meet, half of it and half as much again. */
function aboutOperatingPoint(brief: Brief, design: Design): number[] {
  const { flow, median } = flowAt(brief, design, null);
  const design_m3_per_h = cubicMetresPerHour(flow.designFlow_m3_per_s);
  const share = (flow.operatingFlow_m3_per_h ?? design_m3_per_h) / design_m3_per_h;
  const velocity = flow.shapeVelocity_m_per_s[median] * share;
  return SHARES.map((times) => times * velocity);
}

function differingRoles(brief: Brief, design: Design, velocity: number): ChannelRole[] {
  const { samples, flow, median } = flowAt(brief, design, velocity);
  const flows = flow.shapeFlow_m3_per_s;
  return CHANNEL_ROLES.filter((role) => {
    const of = flows[shapeOfRole(samples, flows, role)];
    return role !== 'median' && Math.abs(of / flows[median] - 1) > DIFFERENT;
  });
}

/** SHA-256 of what a computed flow and the estimate beside it hang on. */
export function plateDigest(brief: Brief, design: Design): string {
  const { temperature_C, altitude_m } = brief.air;
  const { layerHeight_mm } = brief.process;
  const text = JSON.stringify([design, temperature_C, altitude_m, layerHeight_mm]);
  return sha256(new TextEncoder().encode(text));
}

/** The earlier result of a task, if it was computed on the same grid by the same solver. */
export function solvedBefore(task: VerifyTask, cases: readonly VerifyCase[]): VerifyCase | null {
  const key = { design: task.name, digest: task.digest, ...task.found };
  const dust = dustDigest(task.brief);
  const same = cases.find(
    (entry) =>
      isSameCase(entry, key) &&
      entry.cells === task.cells &&
      entry.solver === SOLVER_VERSION &&
      (entry.findings?.digest ?? dust) === dust,
  );
  return same ?? null;
}

/** What the state of a task belongs to: the task and the program that marched it. */
export function stateKey(task: VerifyTask): string {
  const { digest, role, cells, found } = task;
  return [VERSION, SOLVER_VERSION, digest, role, cells, found.velocity_m_per_s].join(' ');
}

/** Results of a plate under a name, slow to fast. */
export function casesFor(
  name: string,
  brief: Brief,
  design: Design,
  cases: readonly VerifyCase[],
): VerifyCase[] {
  const digest = plateDigest(brief, design);
  return cases.filter((entry) => entry.design === name && entry.digest === digest);
}

/** What a worker gives back: the result, and its field as files. */
export interface VerifySolved {
  readonly result: VerifyCase;
  /** Velocity field as VTK ImageData, and the middle plane as SVG. */
  readonly field: string;
  readonly slice: string;
  /** Where dust landed, as VTK PolyData. */
  readonly landings: string;
}

/**
 * Computes a task.
 *
 * @param from goes on from there; a state of the same task by the same solver.
 * @throws RangeError when the flow runs away, or `from` belongs to another grid.
 */
export function* solveTask(
  task: VerifyTask,
  from: VerifyState | null = null,
): Generator<VerifyProgress, VerifySolved> {
  const { brief, design, cells, velocity_m_per_s, role } = task;
  const plan = planVerification(brief, design, cells, velocity_m_per_s, role);
  if (typeof plan === 'string') throw new Error(`A planned flow is refused: ${plan}`);
  const verified = yield* verifyPlan(plan, from);
  const { pressureDrop_Pa, uncertainty_Pa, recovery_Pa, difference, trust, verdict } = verified;
  const [coarse, fine] = verified.grids;
  const result: VerifyCase = {
    design: task.name,
    digest: task.digest,
    solver: SOLVER_VERSION,
    ...planned(plan),
    cells,
    medianVelocity_m_per_s: velocity_m_per_s,
    pressureDrop_Pa,
    uncertainty_Pa,
    recovery_Pa,
    difference,
    grids: [coarse, fine],
    trust,
    verdict,
    field: null,
    slice: null,
    findings: verified.found.findings,
    landings: null,
  };
  const { field, slice, found } = verified;
  return { result, field, slice, landings: found.landings };
}

/** What of a plan stands in its result. */
function planned(plan: VerifyPlan): Pick<VerifyCase, keyof VerifyPlan & keyof VerifyCase> {
  return {
    role: plan.role,
    shape: plan.shape,
    shapes: plan.shapes,
    channels: plan.channels,
    velocity_m_per_s: plan.velocity_m_per_s,
    reynolds: plan.reynolds,
    density_kg_per_m3: plan.density_kg_per_m3,
    estimate_Pa: plan.estimate_Pa,
    features: plan.features,
  };
}
