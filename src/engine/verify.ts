/** The estimate of one channel's pressure drop against a computed flow. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import {
  LEAST_CELLS,
  VALID_REYNOLDS,
  channelDuct,
  fieldFile,
  memoryRefusal,
  repeatingCell,
  sliceFile,
  verifyBytes,
  verifyDuct,
} from '../flow/index.ts';
import type { Duct, GridResult, VerifyOptions, VerifyState } from '../flow/index.ts';
import type { Trust } from '../formats/index.ts';
import { featuresAt } from '../measures/index.ts';
import type { FeatureValues } from '../measures/index.ts';
import { metres } from '../numeric/index.ts';
import { findInFlow, planFindings } from './verify-findings.ts';
import type { FindingsPlan, Found } from './verify-findings.ts';
import { flowAt, narrowest, shapeOfRole } from './verify-flow.ts';
import type { ChannelRole } from './verify-flow.ts';

export type { Trust } from '../formats/index.ts';
export type { VerifyState } from '../flow/index.ts';

/** How far a verification is. */
export interface VerifyProgress {
  /** Grid 1 or 2. */
  readonly pass: number;
  readonly step: number;
  readonly loss: number;
  /** Share of all the work that is done, 0 to 1. */
  readonly done: number;
  /** All that is needed to go on from here; null where the rest is short. Before the next step only. */
  readonly save: (() => VerifyState) | null;
}

/** What will be solved, and what the estimate says of it. */
export interface VerifyPlan {
  readonly role: ChannelRole;
  /** Distinct shape that is solved, counted from 0 in the order of the design, of how many. */
  readonly shape: number;
  readonly shapes: number;
  /** Channels that have it. */
  readonly channels: number;
  readonly velocity_m_per_s: number;
  readonly reynolds: number;
  readonly density_kg_per_m3: number;
  /** What a correction of the estimate looks at. */
  readonly features: FeatureValues;
  /** Handbook estimate for the drawn bore at that velocity. */
  readonly estimate_Pa: number;
  readonly memory_bytes: number;
  /** Area of plate that the channel serves. */
  readonly cell_mm2: number;
  readonly duct: Duct;
  readonly options: VerifyOptions;
  readonly findings: FindingsPlan;
}

export interface Verified {
  readonly plan: VerifyPlan;
  readonly pressureDrop_Pa: number;
  readonly uncertainty_Pa: number;
  readonly grids: readonly [GridResult, GridResult];
  /** Estimate over computed, minus 1. */
  readonly difference: number;
  /**
   * Most that neighbouring jets can win back behind the plate, which the computed value credits in
   * part and the estimate not at all: 2 s (1 - s) rho U^2 / 2, s the open share (Borda-Carnot).
   */
  readonly recovery_Pa: number;
  /** Which number to trust, as a word and in words. */
  readonly trust: Trust;
  readonly verdict: string;
  /** Velocity field as VTK ImageData, and the middle plane as SVG. */
  readonly field: string;
  readonly slice: string;
  /** Wall shear, backward flow and dust; where it landed as VTK PolyData. */
  readonly found: Found;
}

/**
 * Below this the relaxation time exceeds 1 on 15 cells, and walls by interpolated bounce-back begin to
 * depend on the viscosity (from memory, common to one-time relaxation; not compared).
 */
const LEAST_REYNOLDS = 7;
/**
 * A channel of a plate, ready to be solved; or why it cannot be.
 *
 * @param cells cells across the narrowest bore, on the coarser of two grids.
 * @param velocity_m_per_s mean at the inlet port of the median channel; at the design flow when null.
 *   The other channels are solved at the same pressure drop of the plate.
 */
export function planVerification(
  brief: Brief,
  design: Design,
  cells: number,
  velocity_m_per_s: number | null,
  role: ChannelRole = 'median',
): VerifyPlan | string {
  if (cells < LEAST_CELLS) {
    return `${cells} cells across the bore do not resolve the flow; take at least ${LEAST_CELLS}`;
  }
  const { samples, flow, median } = flowAt(brief, design, velocity_m_per_s);
  const shape = shapeOfRole(samples, flow.shapeFlow_m3_per_s, role);
  const duct = channelDuct(samples, shape);
  if (typeof duct === 'string') return duct;
  const velocity = flow.shapeVelocity_m_per_s[shape];
  const viscosity = flow.air.viscosity_Pa_s / flow.air.density_kg_per_m3;
  const bore_mm = narrowest(samples.bore_mm, samples, shape);
  const reynolds = (velocity * metres(duct.bore_mm)) / viscosity;
  const narrowing = narrowest(samples.area_mm2, samples, shape) / duct.area_mm2;
  // Counted where the stream is narrowest, which is where its Reynolds number is largest.
  const worst = (reynolds * bore_mm) / duct.bore_mm / narrowing;
  const asked = flow.shapeVelocity_m_per_s[median];
  if (worst > VALID_REYNOLDS) {
    const nearest = Math.floor((99 * asked * VALID_REYNOLDS) / worst) / 100;
    return `Re ${worst.toFixed(0)} at ${asked.toFixed(2)} m/s is above ${VALID_REYNOLDS}, up to which the solver was checked; the nearest velocity it answers for is ${nearest.toFixed(2)} m/s (--velocity)`;
  }
  if (reynolds < LEAST_REYNOLDS) {
    const nearest = Math.ceil((101 * asked * LEAST_REYNOLDS) / reynolds) / 100;
    return `Re ${reynolds.toPrecision(2)} at ${asked.toPrecision(2)} m/s is below ${LEAST_REYNOLDS}, where the grid's walls creep; the nearest velocity it answers for is ${nearest.toFixed(2)} m/s (--velocity)`;
  }
  const side_mm = repeatingCell(samples, shape);
  const options = {
    side_mm,
    cells: (cells * duct.bore_mm) / bore_mm,
    reynolds,
    narrowing,
  };
  const refusal = memoryRefusal(duct, options);
  if (refusal !== null) return refusal;
  const memory_bytes = verifyBytes(duct, options);
  let channels = 0;
  for (const of of samples.shapeOf) if (of === shape) channels++;
  return {
    role,
    shape,
    shapes: samples.shapeCount,
    channels,
    velocity_m_per_s: velocity,
    reynolds,
    density_kg_per_m3: flow.air.density_kg_per_m3,
    features: featuresAt(samples, shape, reynolds),
    estimate_Pa: flow.pressureDrop_Pa,
    memory_bytes,
    cell_mm2: side_mm[0] * side_mm[1],
    duct,
    options,
    findings: planFindings(brief, { samples, shape, air: flow.air }),
  };
}

/**
 * Solves what was planned.
 *
 * @param from goes on from there, with the same plan.
 * @throws RangeError when the flow runs away, or `from` belongs to another grid.
 */
export function* verifyPlan(
  plan: VerifyPlan,
  from: VerifyState | null = null,
): Generator<VerifyProgress, Verified> {
  const march = verifyDuct(plan.duct, plan.options, from ?? undefined);
  let next = march.next();
  for (; next.done !== true; next = march.next()) {
    const at = next.value;
    const { pass, step, loss } = at;
    yield { pass, step, loss, done: FLOW_SHARE * at.done, save: () => at.save() };
  }
  const solved = next.value;
  const { velocity_m_per_s: U, density_kg_per_m3, estimate_Pa } = plan;
  const channel = { solved: solved.field, velocity_m_per_s: U, speed: solved.speed };
  const search = findInFlow(channel, plan.duct, plan.options, plan.findings);
  let step = search.next();
  for (; step.done !== true; step = search.next()) {
    // Its states are none of this flow's.
    yield { ...step.value, done: FLOW_SHARE + (1 - FLOW_SHARE) * step.value.done, save: null };
  }
  const found = step.value;
  const pressureDrop_Pa = solved.loss * 0.5 * density_kg_per_m3 * U * U;
  const uncertainty_Pa = pressureDrop_Pa * solved.uncertainty;
  const open = plan.duct.area_mm2 / plan.cell_mm2;
  const recovery_Pa = open * (1 - open) * density_kg_per_m3 * U * U;
  return {
    plan,
    pressureDrop_Pa,
    uncertainty_Pa,
    grids: solved.grids,
    difference: estimate_Pa / pressureDrop_Pa - 1,
    recovery_Pa,
    ...judge(estimate_Pa - pressureDrop_Pa, uncertainty_Pa, recovery_Pa, solved.grids),
    field: fieldFile(solved.field, U, solved.speed),
    slice: sliceFile(solved.field, U, solved.speed),
    found,
  };
}

/** Share of the work that the flow takes; the rest is dust and what else is found in it. */
const FLOW_SHARE = 0.8;

/** Which of the two numbers to trust. */
function judge(
  excess_Pa: number,
  uncertainty_Pa: number,
  recovery_Pa: number,
  grids: readonly [GridResult, GridResult],
): { trust: Trust; verdict: string } {
  if (!grids[1].converged) {
    const verdict =
      'Trust neither alone: the flow did not come to rest, so the computed value is a mean over an unsteady flow.';
    return { trust: 'neither', verdict };
  }
  if (Math.abs(excess_Pa) <= uncertainty_Pa) {
    const verdict =
      'The estimate agrees with the computed flow within its uncertainty: trust either.';
    return { trust: 'either', verdict };
  }
  if (excess_Pa > 0 && excess_Pa <= uncertainty_Pa + recovery_Pa) {
    const verdict = `The estimate counts as lost what neighbouring jets may win back behind the plate, up to ${recovery_Pa.toPrecision(2)} Pa, and that may be the whole difference: trust the computed value where the air flows on freely behind the plate, the estimate where it does not.`;
    return { trust: 'by place', verdict };
  }
  const verdict = 'Trust the computed value: the estimate lies outside its uncertainty.';
  return { trust: 'computed', verdict };
}
