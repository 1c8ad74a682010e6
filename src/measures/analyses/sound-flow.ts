/** Noise that the air itself makes: an index of it, and which channels may whistle. */
import { SOUND_DEFAULTS } from '../../brief/index.ts';
import { metres } from '../../numeric/index.ts';
import { flowNoiseIndex, speedPower, whistleRange } from '../../physics/index.ts';
import type { Analysis } from '../assessment.ts';
import { flowAnalysis } from './flow.ts';

interface FlowNoiseReport {
  readonly index_dB: number;
  /** Channels short enough to whistle, and the frequencies at which they may; 0 and NaN if none. */
  readonly whistling: number;
  readonly lowest_Hz: number;
  readonly highest_Hz: number;
}

const PER_SQUARE_MM = 1e6;

export const flowNoiseAnalysis: Analysis<FlowNoiseReport> = {
  name: 'flow noise',
  run: (assessment) => {
    const { brief, samples } = assessment;
    const { noiseExponent } = brief.sound ?? SOUND_DEFAULTS;
    const { shapeFlow_m3_per_s: flow, shapePeakVelocity_m_per_s: peak } =
      assessment.get(flowAnalysis);
    // Area times speed^n at the narrowest place is flow times speed^(n - 1).
    const noise = Float64Array.from(
      peak,
      (speed, shape) => PER_SQUARE_MM * flow[shape] * speedPower(speed, noiseExponent - 1),
    );
    const ranges = Array.from(peak, (speed, shape) => {
      const bore_m = metres(samples.bore_mm[shape * samples.stations]);
      return whistleRange(metres(samples.length_mm[shape]), bore_m, speed);
    });
    let sum = 0;
    let whistling = 0;
    let lowest = Number.POSITIVE_INFINITY;
    let highest = 0;
    for (const shape of samples.shapeOf) {
      sum += noise[shape];
      const range = ranges[shape];
      if (range === null) continue;
      whistling++;
      lowest = Math.min(lowest, range[0]);
      highest = Math.max(highest, range[1]);
    }
    return {
      index_dB: flowNoiseIndex(sum),
      whistling,
      lowest_Hz: whistling > 0 ? lowest : Number.NaN,
      highest_Hz: whistling > 0 ? highest : Number.NaN,
    };
  },
};
