/** Air speed over the outlet ports, at design flow. */
import type { Analysis } from '../assessment.ts';
import { bankOf } from './banks.ts';
import { flowAnalysis } from './flow.ts';
import { printedArea } from './printed-area.ts';

interface OutletSpeedReport {
  /** Bulk speed along the channel, over the printed outlet section, of the slowest and the fastest [m/s]. */
  readonly slowest_m_per_s: number;
  readonly fastest_m_per_s: number;
  /** Area-weighted uniformity 1 - sum(A |U - mean|) / (2 A mean); 1 when all ports blow alike. */
  readonly uniformity: number;
}

const SQUARE_MM = 1e-6;

export const outletSpeedAnalysis: Analysis<OutletSpeedReport> = {
  name: 'outlet speed',
  run: (assessment) => {
    const { brief, samples } = assessment;
    const report = assessment.get(flowAnalysis);
    const flow = report.shapeFlow_m3_per_s;
    const own = report.channelFlow_m3_per_s;
    const last = samples.stations - 1;
    const shrinkage_mm = brief.process.holeShrinkage_mm;
    const area_m2 = Float64Array.from(flow, (_, shape) => {
      const row = shape * samples.stations + last;
      return (
        SQUARE_MM * printedArea(samples.area_mm2[row], samples.perimeter_mm[row], shrinkage_mm)
      );
    });
    let total = 0;
    let area = 0;
    let slowest = Number.POSITIVE_INFINITY;
    let fastest = 0;
    for (const [i, shape] of samples.shapeOf.entries()) {
      if (bankOf(samples, shape) === 1) continue;
      const through = own === null ? flow[shape] : own[i];
      const speed = through / area_m2[shape];
      total += through;
      area += area_m2[shape];
      slowest = Math.min(slowest, speed);
      fastest = Math.max(fastest, speed);
    }
    const mean = total / area;
    let spread = 0;
    for (const [i, shape] of samples.shapeOf.entries()) {
      if (bankOf(samples, shape) === 1) continue;
      spread += Math.abs((own === null ? flow[shape] : own[i]) - mean * area_m2[shape]);
    }
    return {
      slowest_m_per_s: slowest,
      fastest_m_per_s: fastest,
      uniformity: 1 - spread / (2 * total),
    };
  },
};
