/** Pressure drop over flow of one design: for the chart beside the fan's curve, and for the bench. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { designFlow_m3_per_s, flowAnalysis } from '../measures/index.ts';
import { cubicMetresPerHour } from '../numeric/index.ts';
import { assessDesign } from './evaluator.ts';

export interface PressurePoint {
  readonly flow_m3_per_h: number;
  readonly pressureDrop_Pa: number;
}

/** Flow at which a brief quotes pressure drop. */
export function designFlow_m3_per_h(brief: Brief): number {
  return cubicMetresPerHour(designFlow_m3_per_s(brief));
}

/** Exact pressure drop at each flow, in the brief's air. @param flows_m3_per_h all above 0. */
export function pressureCurve(
  brief: Brief,
  design: Design,
  flows_m3_per_h: readonly number[],
): PressurePoint[] {
  return flows_m3_per_h.map((flow_m3_per_h) => {
    const supply = { kind: 'flow', flow_m3_per_h } as const;
    const at = assessDesign({ ...brief, air: { ...brief.air, supply } }, design, 'exact');
    return { flow_m3_per_h, pressureDrop_Pa: at.get(flowAnalysis).pressureDrop_Pa };
  });
}
