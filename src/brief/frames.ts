/** Mounting holes of common axial-fan frames. */

interface FanFrame {
  /** Edge of the square frame [mm]. */
  readonly frame_mm: number;
  /** Distance between neighbouring mounting holes [mm]. */
  readonly holeSpacing_mm: number;
  readonly holeDiameter_mm: number;
  /** Bore swept by the blades, about [mm]. */
  readonly sweptBore_mm: number;
}

/**
 * Common square frames, 40 to 140 mm. Status: common practice, no source; makers differ by some
 * 0.2 mm, so check against the fan at hand. Frames of 200 mm vary too much to be listed: give
 * their holes one by one.
 */
export const FAN_FRAMES: readonly FanFrame[] = [
  { frame_mm: 40, holeSpacing_mm: 32, holeDiameter_mm: 4.3, sweptBore_mm: 38 },
  { frame_mm: 50, holeSpacing_mm: 40, holeDiameter_mm: 4.3, sweptBore_mm: 48 },
  { frame_mm: 60, holeSpacing_mm: 50, holeDiameter_mm: 4.3, sweptBore_mm: 58 },
  { frame_mm: 70, holeSpacing_mm: 60, holeDiameter_mm: 4.3, sweptBore_mm: 67 },
  { frame_mm: 80, holeSpacing_mm: 71.5, holeDiameter_mm: 4.3, sweptBore_mm: 76 },
  { frame_mm: 92, holeSpacing_mm: 82.5, holeDiameter_mm: 4.3, sweptBore_mm: 88 },
  { frame_mm: 120, holeSpacing_mm: 105, holeDiameter_mm: 4.3, sweptBore_mm: 116 },
  { frame_mm: 140, holeSpacing_mm: 124.5, holeDiameter_mm: 4.3, sweptBore_mm: 134 },
];

/** A straight round hole through the plate. */
export interface MountingHole {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly diameter_mm: number;
}

/** How a brief states its mounting holes. */
export type Mounting =
  | { readonly kind: 'none' }
  | { readonly kind: 'frame'; readonly frame_mm: number }
  | { readonly kind: 'holes'; readonly holes: readonly MountingHole[] };

/**
 * The mounting holes a brief asks for: none, four of a fan frame (counter-clockwise from +x +y),
 * or those given one by one.
 *
 * @example mountingHoles({ kind: 'frame', frame_mm: 80 })[2].x_mm // -35.75
 * @example mountingHoles({ kind: 'none' }).length // 0
 */
export function mountingHoles(mounting: Mounting): MountingHole[] {
  if (mounting.kind === 'none') return [];
  if (mounting.kind === 'holes') return mounting.holes.map((hole) => ({ ...hole }));
  const frame = FAN_FRAMES.find((entry) => entry.frame_mm === mounting.frame_mm);
  if (frame === undefined) throw new RangeError(`no fan frame of ${mounting.frame_mm} mm is known`);
  const half = frame.holeSpacing_mm / 2;
  return [
    [half, half],
    [-half, half],
    [-half, -half],
    [half, -half],
  ].map(([x_mm, y_mm]) => ({ x_mm, y_mm, diameter_mm: frame.holeDiameter_mm }));
}
