/** Which side of a channel a pocket should bulge to. */
import { atan2, degrees } from './angles.ts';
import type { Channel, Plate } from './model.ts';
import type { PlateSamples } from './samples.ts';
import { sampleDesign, traceCentreline } from './sampling.ts';
import { crossAxes } from './section-frames.ts';

const STATIONS = 24;
const BARE: Pick<Channel, 'section' | 'pockets' | 'placements'> = {
  section: { kind: 'round' },
  pockets: [],
  placements: [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }],
};
const PLATE: Plate = {
  outline: { kind: 'round', diameter_mm: 10 },
  thickness_mm: 1,
  rim_mm: 0,
  holes: [],
  build: 'flat',
};

let samples: PlateSamples | undefined;

/**
 * Outer side of the bend at each arc position of a channel, as a pocket's `side_deg`: away from the
 * centre of curvature, in the carried frame, for the channel as drawn. 0 (the first axis) where the
 * channel runs straight.
 *
 * @param at arc positions as shares of the length [0..1].
 * @returns angles [deg], one per position.
 */
export function outerSides(channel: Channel, at: readonly number[]): number[] {
  samples ??= sampleDesign({ plate: PLATE, channels: [{ ...channel, ...BARE }] }, STATIONS);
  // Only the first shape's centreline is traced anew: sampling a design for every channel took most
  // of the time of decoding a hundred pocketed ones (experiments/bench/evaluate).
  traceCentreline(samples, 0, channel);
  crossAxes(samples.tangent, samples.first, samples.second, 0, STATIONS);
  const { curvature_per_mm: k, first, second } = samples;
  return at.map((share) => {
    const i = 3 * Math.round(share * (STATIONS - 1));
    const c = -(k[i] * first[i] + k[i + 1] * first[i + 1] + k[i + 2] * first[i + 2]);
    const s = -(k[i] * second[i] + k[i + 1] * second[i + 1] + k[i + 2] * second[i + 2]);
    return c * c + s * s < 1e-12 ? 0 : degrees(atan2(s, c));
  });
}
