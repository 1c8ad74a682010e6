/** One design closely looked at: what the pictures of a report show. */
import type { Brief } from '../brief/index.ts';
import { LOSS_PARTS } from '../brief/index.ts';
import type { LossPart } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import {
  diffuseAnalysis,
  dustAnalysis,
  fanOf,
  flowAnalysis,
  leakAnalysis,
  soundAnalysis,
} from '../measures/index.ts';
import type { Assessment } from '../measures/index.ts';
import { cubicMetresPerHour } from '../numeric/index.ts';
import { FINE_TEST_DUST } from '../physics/index.ts';
import { createLayerTable, pictureLayer, rasterPrint } from '../print/index.ts';
import type { LayerPicture, LayerTable } from '../print/index.ts';
import { assessDesign } from './evaluator.ts';
import { designFlow_m3_per_h, pressureCurve } from './pressure-curve.ts';
import type { PressurePoint } from './pressure-curve.ts';

export interface Portrait {
  readonly designFlow_m3_per_h: number;
  /** Pressure drop of the plate over flow, from rest to beyond its point of use. */
  readonly plateCurve: readonly PressurePoint[];
  /** Fan at its speed and in the brief's air; null for a given flow. */
  readonly fanCurve: readonly PressurePoint[] | null;
  readonly operating: PressurePoint | null;
  /** Parts of the pressure drop at the design flow, weighted by flow [Pa]. */
  readonly losses_Pa: Readonly<Record<LossPart, number>>;
  /** Share of each size class that stays in the plate. */
  readonly dust: readonly { readonly diameter_um: number; readonly captured: number }[];
  readonly sound: readonly { readonly centre_Hz: number; readonly loss_dB: number }[];
  /** Share of diffuse light that gets through: straight, and in all for walls of a reflectance. */
  readonly light: {
    readonly straight: number;
    readonly walls: readonly { readonly reflectance: number; readonly through: number }[];
  };
  readonly layers: LayerTable;
  /** The layer of which most hangs. */
  readonly worstLayer: LayerPicture;
}

/** Flows of the plate's curve as shares of the greatest shown. */
const CURVE_SHARES = [0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];
/** Walls of black, grey and white printed plastic; typical values, from memory. */
const REFLECTANCES = [0.05, 0.3, 0.8];

/** Works out everything at once, in the exact form; some seconds for a dense plate. */
export function portrayDesign(brief: Brief, design: Design): Portrait {
  const assessment = assessDesign(brief, design, 'exact');
  const flow = assessment.get(flowAnalysis);
  const design_m3_per_h = designFlow_m3_per_h(brief);
  const { operatingFlow_m3_per_h: used_m3_per_h, operatingPressure_Pa } = flow;
  const most_m3_per_h = 1.4 * Math.max(design_m3_per_h, used_m3_per_h ?? 0);
  const layers = createLayerTable(assessment.samples, brief.process);
  rasterPrint(assessment.samples, brief.process, layers);
  return {
    designFlow_m3_per_h: design_m3_per_h,
    plateCurve: pressureCurve(
      brief,
      design,
      CURVE_SHARES.map((share) => share * most_m3_per_h),
    ),
    fanCurve: fanCurve(brief, flow.air.density_kg_per_m3),
    operating:
      used_m3_per_h === null || operatingPressure_Pa === null
        ? null
        : { flow_m3_per_h: used_m3_per_h, pressureDrop_Pa: operatingPressure_Pa },
    losses_Pa: lossesOf(assessment),
    dust: dustOf(assessment),
    sound: assessment.get(soundAnalysis).bands,
    light: lightOf(brief, design, assessment),
    layers,
    worstLayer: pictureLayer(assessment.samples, brief.process, null),
  };
}

function fanCurve(brief: Brief, density_kg_per_m3: number): PressurePoint[] | null {
  const fan = fanOf(brief, density_kg_per_m3);
  if (fan === null) return null;
  return Array.from(fan.flow_m3_per_s, (flow, i) => ({
    flow_m3_per_h: cubicMetresPerHour(flow),
    pressureDrop_Pa: fan.pressure_Pa[i],
  }));
}

/** Parts of the pressure drop, each shape weighted by the flow it carries. */
function lossesOf(assessment: Assessment): Record<LossPart, number> {
  const flow = assessment.get(flowAnalysis);
  const { shapeOf, shapeCount } = assessment.samples;
  const count = new Float64Array(shapeCount);
  for (const shape of shapeOf) count[shape]++;
  const sums = { friction: 0, ends: 0, curvature: 0, areaChanges: 0 };
  for (let shape = 0; shape < shapeCount; shape++) {
    const parts = flow.breakdown(shape);
    const weight = (count[shape] * flow.shapeFlow_m3_per_s[shape]) / flow.designFlow_m3_per_s;
    for (const part of LOSS_PARTS) sums[part] += weight * parts[`${part}_Pa`];
  }
  return sums;
}

function dustOf(assessment: Assessment): Portrait['dust'] {
  const classes = assessment.brief.dust.classes ?? FINE_TEST_DUST;
  const { captureOfClass } = assessment.get(dustAnalysis);
  return classes
    .map(({ diameter_um }, i) => ({ diameter_um, captured: captureOfClass[i] }))
    .toSorted((a, b) => a.diameter_um - b.diameter_um);
}

function lightOf(brief: Brief, design: Design, assessment: Assessment): Portrait['light'] {
  const { gloss } = brief.light ?? { gloss: 0 };
  const walls = REFLECTANCES.map((reflectance) => {
    const lit = assessDesign(
      { ...brief, light: { wallReflectance: reflectance, gloss } },
      design,
      'exact',
    );
    return { reflectance, through: lit.get(diffuseAnalysis).plate };
  });
  return { straight: assessment.get(leakAnalysis).plate, walls };
}
