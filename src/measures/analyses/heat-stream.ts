/** The air of a plate as heat meets it: flow split at the point of work, transfer units per step. */
import { END } from '../../design/index.ts';
import type { PlateSamples, Section } from '../../design/index.ts';
import { cubicMetresPerSecond, metres } from '../../numeric/index.ts';
import {
  AIR_WAY,
  ROUND_F_RE,
  effectiveness,
  channelUnits,
  polygonFRe,
  polygonNusselt,
  roundNusselt,
  slotFRe,
  slotNusselt,
} from '../../physics/index.ts';
import type { Air, HeatFamily } from '../../physics/index.ts';
import type { Assessment } from '../assessment.ts';
import { flowAnalysis } from './flow.ts';
import { toothHeat } from './stirring.ts';

/** Air and heat transfer of every shape [M], for one channel of it. */
export interface PlateStreams {
  readonly air: Air;
  /** Total flow: where fan and plate meet, else the design flow. */
  readonly flow_m3_per_s: number;
  /** Channels of each shape [M]. */
  readonly count: Int32Array;
  readonly flowOf_m3_per_s: Float64Array;
  readonly reynolds: Float64Array;
  /** Mean Nusselt number on D_h. */
  readonly nusselt: Float64Array;
  /** x* = L/(D_h Re Pr) of the whole channel. */
  readonly length: Float64Array;
  /** Transfer units of every step [M x (S - 1)]. */
  readonly units: Float64Array;
  /** Where each shape's air comes from and goes to [M], see `AIR_WAY`. */
  readonly way: Int8Array;
  /** Shapes in an order in which streams that mix come before those that share [M]. */
  readonly order: Int32Array;
  /** Heat capacity rate m' cp of one channel [M] [W/K]. */
  readonly capacity_W_per_K: Float64Array;
  /** The same of the whole plate [W/K]. */
  readonly total_W_per_K: number;
}

function heatFamily(section: Section): HeatFamily {
  switch (section.kind) {
    case 'round':
      return { kind: 'tangential', fRe: ROUND_F_RE, developed: roundNusselt('temperature') };
    case 'teardrop':
      return { kind: 'roofed' };
    case 'slot':
      return {
        kind: 'slot',
        fRe: slotFRe(section.aspect),
        developed: slotNusselt(section.aspect, 'temperature'),
      };
    case 'polygon':
      return {
        kind: 'tangential',
        fRe: polygonFRe(section.sides),
        developed: polygonNusselt(section.sides, 'temperature'),
      };
    default: {
      const never: never = section;
      return never;
    }
  }
}

/** Ways of the air: a shape that ends in the plenum mixes there, one that begins there shares. */
function waysOf(samples: PlateSamples): { way: Int8Array; order: Int32Array } {
  const { shapeCount, sides } = samples;
  const way = new Int8Array(shapeCount);
  if (sides !== null) {
    for (let m = 0; m < shapeCount; m++) {
      if (sides.kind[2 * m + 1] === END.plenum) way[m] = AIR_WAY.mixes;
      else if (sides.kind[2 * m] === END.plenum) way[m] = AIR_WAY.shares;
    }
  }
  const order = Int32Array.from({ length: shapeCount }, (_, m) => m).toSorted(
    (a, b) => way[a] - way[b] || a - b,
  );
  return { way, order };
}

/** Heat per kelvin if the whole wall were at the temperature of the hot body [W/K]. */
export function idealConductance(streams: PlateStreams): number {
  const { count, units, capacity_W_per_K: capacity, way, order } = streams;
  const steps = units.length / count.length;
  let carried = 0;
  let mixed = 0;
  let mixing = 0;
  for (const m of order) {
    let all = 0;
    for (let j = 0; j < steps; j++) all += units[m * steps + j];
    const start = way[m] === AIR_WAY.shares && mixing > 0 ? mixed / mixing : 0;
    const warmed = count[m] * capacity[m] * (start + effectiveness(all) * (1 - start));
    if (way[m] === AIR_WAY.mixes) {
      mixed += warmed;
      mixing += count[m] * capacity[m];
    } else carried += warmed;
  }
  return carried;
}

/**
 * Transfer units of every channel at the flow where fan and plate meet (else at the design flow).
 *
 * The split among the channels is that of the design flow, scaled: all channels share one pressure
 * drop at any flow, and their shares move by a few per cent at most between the two.
 */
export function plateStreams(assessment: Assessment): PlateStreams {
  const { brief, samples } = assessment;
  const flow = assessment.get(flowAnalysis);
  const { shapeCount, stations } = samples;
  const design = flow.designFlow_m3_per_s;
  const total =
    flow.operatingFlow_m3_per_h === null
      ? design
      : cubicMetresPerSecond(flow.operatingFlow_m3_per_h);
  const { air } = flow;
  const perFlow_J_per_m3_K = air.density_kg_per_m3 * air.specificHeat_J_per_kg_K;
  const streams = {
    air,
    flow_m3_per_s: total,
    count: new Int32Array(shapeCount),
    flowOf_m3_per_s: new Float64Array(shapeCount),
    reynolds: new Float64Array(shapeCount),
    nusselt: new Float64Array(shapeCount),
    length: new Float64Array(shapeCount),
    units: new Float64Array(shapeCount * (stations - 1)),
    capacity_W_per_K: new Float64Array(shapeCount),
    ...waysOf(samples),
    total_W_per_K: perFlow_J_per_m3_K * total,
  };
  for (let n = 0; n < samples.channelCount; n++) streams.count[samples.shapeOf[n]]++;
  const arrays = {
    unit_m: metres(1),
    stations,
    tangent: samples.tangent,
    area: samples.area_mm2,
    perimeter: samples.perimeter_mm,
    bore: samples.bore_mm,
    roof: samples.roof,
    length: samples.length_mm,
  };
  const scale = total / design;
  for (let m = 0; m < shapeCount; m++) {
    const flow_m3_per_s = scale * flow.shapeFlow_m3_per_s[m];
    const reynolds = scale * flow.shapeReynolds[m];
    const out = streams.units.subarray(m * (stations - 1), (m + 1) * (stations - 1));
    const nusselt = channelUnits(
      arrays,
      m,
      heatFamily(samples.sections[m]),
      {
        flow_m3_per_s,
        reynolds,
        kinematicViscosity_m2_per_s: air.kinematicViscosity_m2_per_s,
        prandtl: air.prandtl,
        shrinkage: brief.process.holeShrinkage_mm,
        factor: toothHeat(samples, m, reynolds, air.prandtl, brief.process.holeShrinkage_mm),
      },
      out,
    );
    let all = 0;
    for (let j = 0; j < stations - 1; j++) all += out[j];
    streams.flowOf_m3_per_s[m] = flow_m3_per_s;
    streams.reynolds[m] = reynolds;
    streams.nusselt[m] = nusselt;
    streams.length[m] = all / (4 * nusselt);
    streams.capacity_W_per_K[m] = perFlow_J_per_m3_K * flow_m3_per_s;
  }
  return streams;
}
