/** The flow that a verification computes: which channel of a plate, how fast, in how wide a cell. */
import type { Brief } from '../brief/index.ts';
import { cosDeg, outlineArea, polarRadius, sinDeg } from '../design/index.ts';
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

/**
 * Side of the square a channel stands in, in times the width of its ports: at least and at most. The
 * most is that of the channels the solver was compared with; a wider square costs time.
 */
const SIDE_RANGE = { least: 1.25, most: 1.62 } as const;

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

/** Side of the square of plate that one channel serves, within `SIDE_RANGE`. */
export function sideOf(samples: PlateSamples, shape: number): number {
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
