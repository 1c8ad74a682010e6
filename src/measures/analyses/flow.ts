/** Pressure drop, flow split and operating point of a plate. */
import type { Brief } from '../../brief/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { cubicMetresPerHour, metres } from '../../numeric/index.ts';
import {
  POINT_TOLERANCE,
  SPLIT_TOLERANCE,
  channelPressure,
  createDigests,
  createFlowSplit,
  digestChannels,
  guessFlows,
  openStream,
  operatingPoint,
  roomAir,
  shapeFlowFacts,
  shapeFriction,
  splitFlow,
  splitSlope,
} from '../../physics/index.ts';
import type {
  Air,
  ChannelDigests,
  DigestRoom,
  FanCurve,
  LossParts,
  PlateChannels,
} from '../../physics/index.ts';
import type { Analysis, Assessment } from '../assessment.ts';
import { calibratedPressure, emptyParts, scaleParts } from './calibrated.ts';
import { digestPlate, plateChannels } from './flow-channels.ts';
import { correctedPressure, createCorrector, explainShapes, timesFactor } from './corrected.ts';
import type { Corrected } from './corrected.ts';
import { createPlenumFlow } from './plenum-flow.ts';
import { shadedPressure, sortShade } from './shade.ts';
import type { Shade } from './shade.ts';
import { designFlow_m3_per_s, fanOf } from './supply.ts';

export interface FlowReport {
  readonly air: Air;
  /** Total flow at which pressure drop and the shape arrays are given [m3/s]. */
  readonly designFlow_m3_per_s: number;
  /** Total pressure before the plate minus ambient pressure behind it, at design flow. */
  readonly pressureDrop_Pa: number;
  /** Flow and pressure where fan and plate meet; null when the brief names a flow, not a fan. */
  readonly operatingFlow_m3_per_h: number | null;
  readonly operatingPressure_Pa: number | null;
  /** Further, smaller flows at which the fan may also settle. */
  readonly otherCrossings_m3_per_h: readonly number[];
  /**
   * At design flow, for each placed channel [N]; null where all channels of a shape carry the same,
   * which is but for those in the shadow of a fan's hub or corners.
   */
  readonly channelFlow_m3_per_s: Float64Array | null;
  /** At design flow, per shape and for one channel of it, on average [M]. */
  readonly shapeFlow_m3_per_s: Float64Array;
  /** Mean along the channel, on D_h. */
  readonly shapeReynolds: Float64Array;
  /** Bulk velocity at the inlet port, and at the narrowest place. */
  readonly shapeVelocity_m_per_s: Float64Array;
  readonly shapePeakVelocity_m_per_s: Float64Array;
  /** Developed Darcy friction factor at the mean Reynolds number. */
  readonly friction: Float64Array;
  /** Roughness over hydraulic diameter. */
  readonly roughness: Float64Array;
  readonly maxVelocity_m_per_s: number;
  readonly maxReynolds: number;
  /** Parts of the pressure drop of one shape, worked out when asked. */
  breakdown(shape: number): LossParts;
  /** What computed flows say of the estimate of one shape; null where no correction applies. */
  readonly corrected: ((shape: number) => Corrected) | null;
}

/**
 * Flow through a plate: all channels share one pressure drop, plenum pressure taken as even on both
 * faces (true while the approach velocity pressure is small against the drop; close to an axial
 * fan's blades it is not).
 */
export const flowAnalysis: Analysis<FlowReport> = { name: 'flow', run: analyseFlow };

/** Memory of the last plain digest, used again by the next; holds nothing that outlives `analyseFlow`. */
let workspace: DigestRoom | undefined;

/** Digests of a plate whose kernel does not serve. */
function digestPlainly(plate: PlateChannels): DigestRoom {
  workspace = createDigests(plate.shapes, plate.arrays.stations, workspace);
  digestChannels(workspace, plate);
  return workspace;
}

/**
 * Relative spread of pressures, and move of the flow, at which the fast form stops. The last step's
 * own error is of second order: pressure drop and operating flow move by less than 3e-4, a channel's
 * velocity by less than 3e-3, and a hundred different channels are asked 5 times in place of 11.
 */
const FAST_TOLERANCE = 3e-2;

/** Air, fan and design flow of a brief. */
interface Drive {
  readonly brief: Brief;
  readonly air: Air;
  readonly fan: FanCurve | null;
  readonly designFlow: number;
}

/** Of the last brief met: a search has one. */
let drive: Drive | undefined;

function driveOf(brief: Brief): Drive {
  if (drive?.brief === brief) return drive;
  const air = roomAir(brief.air.temperature_C, brief.air.altitude_m);
  const fan = fanOf(brief, air.density_kg_per_m3);
  drive = { brief, air, fan, designFlow: designFlow_m3_per_s(brief) };
  return drive;
}

function analyseFlow({ brief, samples, exact }: Assessment): FlowReport {
  const { air, fan, designFlow } = driveOf(brief);
  const channels = plateChannels(samples, brief, air);
  const stream = openStream(channels);
  const digests = stream?.digests ?? digestPlainly(channels);
  const shapes = samples.shapeCount;
  const count = new Float64Array(shapes);
  for (let i = 0; i < samples.channelCount; i += 1) count[samples.shapeOf[i]] += 1;
  const guess = new Float64Array(shapes);
  guessFlows(digests, shapes, designFlow / samples.channelCount, guess);
  const corrector =
    brief.correction === undefined ? null : createCorrector(brief.correction, samples);
  const portReynolds = (shape: number): number =>
    (shapeFlowFacts(digests, shape).port_per_m2 *
      metres(samples.bore_mm[shape * samples.stations])) /
    air.kinematicViscosity_m2_per_s;
  const own = correctedPressure(
    calibratedPressure(digests, brief.calibration),
    corrector,
    portReynolds,
  );
  const shade = samples.sides?.plenum ? null : sortShade(samples, brief, air.density_kg_per_m3);
  const split = shade
    ? createFlowSplit(
        shade.count,
        Float64Array.from(shade.shapeOf, (shape) => guess[shape]),
      )
    : createFlowSplit(count, guess);
  const plain = shade ? shadedPressure(shade, own) : own;
  const closely = exact ? SPLIT_TOLERANCE : FAST_TOLERANCE;
  const plenum = samples.sides?.plenum;
  const merged = plenum ? createPlenumFlow(samples, plenum, air, plain) : null;
  const ask =
    stream === null || merged !== null || corrector !== null || brief.calibration !== undefined
      ? plain
      : stream.pressures(shade?.shapeOf ?? allShapes(shapes), shade?.loss ?? null);
  const solve = (flow: number, tolerance: number): number =>
    merged ? merged.solve(flow) : splitFlow(split, flow, ask, tolerance);
  const pressureDrop_Pa = solve(designFlow, closely);
  const branchFlow = (merged ? merged.shapeFlow_m3_per_s : split.flow_m3_per_s).slice();
  const shapeFlow = shade ? meanFlows(shade, branchFlow, count) : branchFlow;
  const point = fan
    ? operatingPoint(
        fan,
        designFlow,
        (flow, out, tolerance) => {
          // The fan's search starts from the split that is solved already.
          out[0] = flow === designFlow ? pressureDrop_Pa : solve(flow, tolerance);
          out[1] = merged ? merged.slope_Pa() : splitSlope(split);
        },
        exact ? POINT_TOLERANCE : FAST_TOLERANCE,
      )
    : null;
  // Reynolds numbers now: the next plate takes the digests' memory.
  const explain =
    corrector === null
      ? null
      : explainShapes(
          corrector,
          shapeFlow.map((Q, m) => Q * portReynolds(m)),
        );
  return {
    air,
    designFlow_m3_per_s: designFlow,
    pressureDrop_Pa,
    operatingFlow_m3_per_h: point ? cubicMetresPerHour(point.flow_m3_per_s) : null,
    operatingPressure_Pa: point ? point.pressure_Pa : null,
    otherCrossings_m3_per_h: point ? point.others_m3_per_s.map(cubicMetresPerHour) : [],
    channelFlow_m3_per_s: shade
      ? Float64Array.from(shade.branchOf, (branch) => branchFlow[branch])
      : null,
    ...describeShapes(
      digests,
      samples,
      shapeFlow,
      shade ? mostFlows(shade, branchFlow, shapes) : shapeFlow,
    ),
    breakdown: (shape) => {
      const parts = emptyParts();
      const fresh = digestPlate(samples, brief, air);
      channelPressure(fresh, shape, shapeFlow[shape], new Float64Array(2), parts);
      if (brief.calibration !== undefined) scaleParts(parts, brief.calibration);
      return explain === null ? parts : timesFactor(parts, explain(shape).factor);
    },
    corrected: explain,
  };
}

let counted = new Int32Array(0);

/** Each shape once. */
function allShapes(shapes: number): Int32Array {
  if (counted.length !== shapes) {
    counted = new Int32Array(shapes);
    for (let m = 0; m < shapes; m += 1) counted[m] = m;
  }
  return counted;
}

/** Flow through a channel of each shape, on average over those under the blades and in the shadow. */
function meanFlows(shade: Shade, branchFlow: Float64Array, count: Float64Array): Float64Array {
  const mean = new Float64Array(count.length);
  for (let b = 0; b < branchFlow.length; b += 1) {
    const shape = shade.shapeOf[b];
    mean[shape] += (shade.count[b] * branchFlow[b]) / count[shape];
  }
  return mean;
}

/** Greatest flow through any channel of each shape. */
function mostFlows(shade: Shade, branchFlow: Float64Array, shapes: number): Float64Array {
  const most = new Float64Array(shapes);
  for (let b = 0; b < branchFlow.length; b += 1) {
    const shape = shade.shapeOf[b];
    most[shape] = Math.max(most[shape], branchFlow[b]);
  }
  return most;
}

function describeShapes(
  digests: ChannelDigests,
  samples: PlateSamples,
  shapeFlow_m3_per_s: Float64Array,
  mostFlow_m3_per_s: Float64Array,
): Pick<
  FlowReport,
  | 'shapeFlow_m3_per_s'
  | 'shapeReynolds'
  | 'shapeVelocity_m_per_s'
  | 'shapePeakVelocity_m_per_s'
  | 'friction'
  | 'roughness'
  | 'maxVelocity_m_per_s'
  | 'maxReynolds'
> {
  const shapes = samples.shapeCount;
  const shapeReynolds = new Float64Array(shapes);
  const shapeVelocity_m_per_s = new Float64Array(shapes);
  const shapePeakVelocity_m_per_s = new Float64Array(shapes);
  const friction = new Float64Array(shapes);
  const roughness = new Float64Array(shapes);
  let maxVelocity_m_per_s = 0;
  let maxReynolds = 0;
  for (let m = 0; m < shapes; m += 1) {
    const facts = shapeFlowFacts(digests, m);
    const Q = shapeFlow_m3_per_s[m];
    const Re = facts.reynolds_s_per_m3 * Q;
    shapeReynolds[m] = Re;
    shapeVelocity_m_per_s[m] = facts.port_per_m2 * Q;
    shapePeakVelocity_m_per_s[m] = facts.narrowest_per_m2 * Q;
    roughness[m] = facts.roughness;
    friction[m] = shapeFriction(digests, m, Re);
    const most = mostFlow_m3_per_s[m];
    maxVelocity_m_per_s = Math.max(maxVelocity_m_per_s, facts.narrowest_per_m2 * most);
    maxReynolds = Math.max(maxReynolds, facts.reynolds_s_per_m3 * most);
  }
  return {
    shapeFlow_m3_per_s,
    shapeReynolds,
    shapeVelocity_m_per_s,
    shapePeakVelocity_m_per_s,
    friction,
    roughness,
    maxVelocity_m_per_s,
    maxReynolds,
  };
}
