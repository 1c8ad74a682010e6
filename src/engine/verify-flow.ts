/** The flow that a verification computes: which channel of a plate, how fast, in how wide a cell. */
import type { Brief } from '../brief/index.ts';
import type { Design, PlateSamples } from '../design/index.ts';
import { flowAnalysis } from '../measures/index.ts';
import type { FlowReport } from '../measures/index.ts';
import { cubicMetresPerHour } from '../numeric/index.ts';
import { assessDesign } from './evaluator.ts';

/** Which channel of a plate: that of least, of median or of greatest flow. */
export const CHANNEL_ROLES = ['least', 'median', 'widest'] as const;
export type ChannelRole = (typeof CHANNEL_ROLES)[number];

export interface PlateFlow {
  readonly samples: PlateSamples;
  readonly flow: FlowReport;
  /** Shape of the median channel, on which a velocity is given. */
  readonly median: number;
}

/** A brief without what is learnt from prints or flows, bores as drawn: what a solver sees. */
export function drawnBrief(brief: Brief): Brief {
  const { calibration: _, correction: __, ...drawn } = brief;
  return { ...drawn, process: { ...brief.process, holeShrinkage_mm: 0 } };
}

/** Flow of the drawn plate, scaled to a velocity in its median channel; the design flow for null. */
export function flowAt(brief: Brief, design: Design, velocity: number | null): PlateFlow {
  const drawn = drawnBrief(brief);
  let at = assessDesign(drawn, design, 'refined');
  let flow = at.get(flowAnalysis);
  const median = shapeOfRole(at.samples, flow.shapeFlow_m3_per_s, 'median');
  // Twice, since the split between different channels shifts a little with the flow.
  const passes = velocity === null ? 0 : 2;
  for (let pass = 0; pass < passes; pass++) {
    const scale = (velocity ?? 0) / flow.shapeVelocity_m_per_s[median];
    const flow_m3_per_h = scale * cubicMetresPerHour(flow.designFlow_m3_per_s);
    const air = { ...brief.air, supply: { kind: 'flow' as const, flow_m3_per_h } };
    at = assessDesign({ ...drawn, air }, design, 'refined');
    flow = at.get(flowAnalysis);
  }
  return { samples: at.samples, flow, median };
}

/** The shape that carries the least, the median or the greatest flow of all placed channels. */
export function shapeOfRole(samples: PlateSamples, flows: Float64Array, role: ChannelRole): number {
  const order = Array.from(samples.shapeOf).toSorted((a, b) => flows[a] - flows[b] || a - b);
  const at = { least: 0, median: order.length >> 1, widest: order.length - 1 };
  return order[at[role]];
}

export function narrowest(values: Float64Array, { stations }: PlateSamples, shape: number): number {
  return values.subarray(shape * stations, (shape + 1) * stations).reduce((a, b) => Math.min(a, b));
}
