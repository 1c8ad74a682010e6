/** The estimate of one channel's pressure drop against a computed flow. */
import type { Brief } from '../brief/index.ts';
import { cosDeg, outlineArea, polarRadius, sinDeg } from '../design/index.ts';
import type { Design, PlateSamples } from '../design/index.ts';
import {
  LEAST_CELLS,
  VALID_REYNOLDS,
  channelDuct,
  fieldFile,
  sliceFile,
  verifyBytes,
  verifyDuct,
} from '../flow/index.ts';
import type { Duct, GridResult, VerifyOptions, VerifyProgress } from '../flow/index.ts';
import { flowAnalysis } from '../measures/index.ts';
import type { FlowReport } from '../measures/index.ts';
import { cubicMetresPerHour, metres } from '../numeric/index.ts';
import { assessDesign } from './evaluator.ts';

export type { VerifyProgress } from '../flow/index.ts';

/** What will be solved, and what the estimate says of it. */
export interface VerifyPlan {
  /** Distinct shape that is solved, counted from 0 in the order of the design, of how many. */
  readonly shape: number;
  readonly shapes: number;
  /** Channels that have it. */
  readonly channels: number;
  readonly velocity_m_per_s: number;
  readonly reynolds: number;
  readonly density_kg_per_m3: number;
  /** Handbook estimate for the drawn bore at that velocity. */
  readonly estimate_Pa: number;
  readonly memory_bytes: number;
  readonly duct: Duct;
  readonly options: VerifyOptions;
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
  /** Which number to trust, in words. */
  readonly verdict: string;
  /** Velocity field as VTK ImageData, and the middle plane as SVG. */
  readonly field: string;
  readonly slice: string;
}

/** Most memory that one solve may take [bytes]. */
const MOST_BYTES = 600e6;
/**
 * Side of the square a channel stands in, in times the width of its ports: at least and at most. The
 * most is that of the channels the solver was compared with; a wider square costs time.
 */
const SIDE_RANGE = { least: 1.25, most: 1.62 } as const;

/**
 * The channel shape with the median flow, ready to be solved; or why it cannot be.
 *
 * @param cells cells across the narrowest bore, on the coarser of two grids.
 * @param velocity_m_per_s mean at the inlet port; that of the design flow when null.
 */
export function planVerification(
  brief: Brief,
  design: Design,
  cells: number,
  velocity_m_per_s: number | null,
): VerifyPlan | string {
  if (cells < LEAST_CELLS) {
    return `${cells} cells across the bore do not resolve the flow; take at least ${LEAST_CELLS}`;
  }
  const { samples, flow, shape } = flowAt(brief, design, velocity_m_per_s);
  const duct = channelDuct(samples, shape);
  if (typeof duct === 'string') return duct;
  const velocity = flow.shapeVelocity_m_per_s[shape];
  const viscosity = flow.air.viscosity_Pa_s / flow.air.density_kg_per_m3;
  const bore_mm = narrowest(samples.bore_mm, samples, shape);
  const reynolds = (velocity * metres(duct.bore_mm)) / viscosity;
  const narrowing = narrowest(samples.area_mm2, samples, shape) / duct.area_mm2;
  // Counted where the stream is narrowest, which is where its Reynolds number is largest.
  const worst = (reynolds * bore_mm) / duct.bore_mm / narrowing;
  if (worst > VALID_REYNOLDS) {
    const valid = (velocity * VALID_REYNOLDS) / worst;
    return `Re ${worst.toFixed(0)} at ${velocity.toFixed(2)} m/s is above ${VALID_REYNOLDS}, up to which the solver was checked; the nearest velocity it answers for is ${(0.99 * valid).toFixed(2)} m/s (--velocity)`;
  }
  const options = {
    side_mm: sideOf(samples, shape),
    cells: (cells * duct.bore_mm) / bore_mm,
    reynolds,
    narrowing,
  };
  const memory_bytes = verifyBytes(duct, options);
  if (memory_bytes > MOST_BYTES) {
    return `the grid would take ${(memory_bytes / 1e6).toFixed(0)} MB, more than the ${MOST_BYTES / 1e6} MB allowed; take fewer cells`;
  }
  let channels = 0;
  for (const of of samples.shapeOf) if (of === shape) channels++;
  return {
    shape,
    shapes: samples.shapeCount,
    channels,
    velocity_m_per_s: velocity,
    reynolds,
    density_kg_per_m3: flow.air.density_kg_per_m3,
    estimate_Pa: flow.pressureDrop_Pa,
    memory_bytes,
    duct,
    options,
  };
}

/** Solves what was planned. @throws RangeError when the flow runs away. */
export function* verifyPlan(plan: VerifyPlan): Generator<VerifyProgress, Verified> {
  const solved = yield* verifyDuct(plan.duct, plan.options);
  const { velocity_m_per_s: U, density_kg_per_m3, estimate_Pa } = plan;
  const pressureDrop_Pa = solved.loss * 0.5 * density_kg_per_m3 * U * U;
  const uncertainty_Pa = pressureDrop_Pa * solved.uncertainty;
  const open = plan.duct.area_mm2 / (plan.options.side_mm * plan.options.side_mm);
  const recovery_Pa = open * (1 - open) * density_kg_per_m3 * U * U;
  return {
    plan,
    pressureDrop_Pa,
    uncertainty_Pa,
    grids: solved.grids,
    difference: estimate_Pa / pressureDrop_Pa - 1,
    recovery_Pa,
    verdict: verdictOf(estimate_Pa - pressureDrop_Pa, uncertainty_Pa, recovery_Pa, solved.grids),
    field: fieldFile(solved.field, U, solved.speed),
    slice: sliceFile(solved.field, U, solved.speed),
  };
}

/** Which of the two numbers to trust. */
function verdictOf(
  excess_Pa: number,
  uncertainty_Pa: number,
  recovery_Pa: number,
  grids: readonly [GridResult, GridResult],
): string {
  if (!grids[1].converged) {
    return 'Trust neither alone: the flow did not come to rest, so the computed value is a mean over an unsteady flow.';
  }
  if (Math.abs(excess_Pa) <= uncertainty_Pa) {
    return 'The estimate agrees with the computed flow within its uncertainty: trust either.';
  }
  if (excess_Pa > 0 && excess_Pa <= uncertainty_Pa + recovery_Pa) {
    return `The estimate counts as lost what neighbouring jets may win back behind the plate, up to ${recovery_Pa.toPrecision(2)} Pa, and that may be the whole difference: trust the computed value where the air flows on freely behind the plate, the estimate where it does not.`;
  }
  return 'Trust the computed value: the estimate lies outside its uncertainty.';
}

/** Flow of the drawn plate, no shrinkage and no calibration, scaled to a velocity of its median shape. */
function flowAt(
  brief: Brief,
  design: Design,
  velocity: number | null,
): { samples: PlateSamples; flow: FlowReport; shape: number } {
  const { calibration: _, ...drawn } = brief;
  const process = { ...brief.process, holeShrinkage_mm: 0 };
  let at = assessDesign({ ...drawn, process }, design, 'refined');
  let flow = at.get(flowAnalysis);
  const shape = medianShape(at.samples, flow.shapeFlow_m3_per_s);
  // Twice, since the split between different channels shifts a little with the flow.
  const passes = velocity === null ? 0 : 2;
  for (let pass = 0; pass < passes; pass++) {
    const scale = (velocity ?? 0) / flow.shapeVelocity_m_per_s[shape];
    const flow_m3_per_h = scale * cubicMetresPerHour(flow.designFlow_m3_per_s);
    const air = { ...brief.air, supply: { kind: 'flow' as const, flow_m3_per_h } };
    at = assessDesign({ ...drawn, process, air }, design, 'refined');
    flow = at.get(flowAnalysis);
  }
  return { samples: at.samples, flow, shape };
}

/** The shape that carries the median channel's flow. */
function medianShape(samples: PlateSamples, flows: Float64Array): number {
  const order = Array.from(samples.shapeOf).toSorted((a, b) => flows[a] - flows[b] || a - b);
  return order[order.length >> 1];
}

function narrowest(values: Float64Array, { stations }: PlateSamples, shape: number): number {
  return values.subarray(shape * stations, (shape + 1) * stations).reduce((a, b) => Math.min(a, b));
}

/** Side of the square of plate that one channel serves, within `SIDE_RANGE`. */
function sideOf(samples: PlateSamples, shape: number): number {
  const first = shape * samples.stations;
  const ports = Math.max(
    portRadius(samples, shape, first),
    portRadius(samples, shape, first + samples.stations - 1),
  );
  const share = Math.sqrt(outlineArea(samples.plate.outline) / samples.channelCount);
  return Math.min(Math.max(share, SIDE_RANGE.least * 2 * ports), SIDE_RANGE.most * 2 * ports);
}

/** Directions in which a port is looked at: every corner of a slot and nearly so of a polygon. */
const PORT_DIRECTIONS = 24;

/** Greatest radius of the section at a row, without pockets [mm]. */
function portRadius(samples: PlateSamples, shape: number, row: number): number {
  let greatest = 0;
  for (let i = 0; i < PORT_DIRECTIONS; i++) {
    const turn = (360 * i) / PORT_DIRECTIONS;
    const { bore_mm, roof, sections } = samples;
    const c = cosDeg(turn);
    const s = sinDeg(turn);
    greatest = Math.max(greatest, polarRadius(sections[shape], bore_mm[row], roof[row], c, s));
  }
  return greatest;
}
