/** Which side of a channel a pocket should bulge to. */
import { atan2, degrees } from './angles.ts';
import type { Channel, Plate } from './model.ts';
import type { PlateSamples } from './samples.ts';
import { sampleDesign } from './sampling.ts';

const STATIONS = 24;
const UPRIGHT = { x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false } as const;
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
  const bare: Channel = {
    ...channel,
    section: { kind: 'round' },
    pockets: [],
    placements: [UPRIGHT],
  };
  samples = sampleDesign({ plate: PLATE, channels: [bare] }, STATIONS, samples);
  const { curvature_per_mm: k, first, second } = samples;
  return at.map((share) => {
    const i = 3 * Math.round(share * (STATIONS - 1));
    const c = -(k[i] * first[i] + k[i + 1] * first[i + 1] + k[i + 2] * first[i + 2]);
    const s = -(k[i] * second[i] + k[i + 1] * second[i + 1] + k[i + 2] * second[i + 2]);
    return c * c + s * s < 1e-12 ? 0 : degrees(atan2(s, c));
  });
}
