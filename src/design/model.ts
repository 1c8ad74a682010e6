/**
 * What a plate is: the explicit form that measures, meshing, drawing and export all read.
 *
 * Plate coordinates: x and y lie in the plate, origin at its centre; z runs with the air from
 * the inlet face z = 0 to the outlet face z = thickness. Lengths in mm, angles in degrees.
 */
import type { Outline } from '../brief/index.ts';

/** Mounting hole: a straight round hole through the plate. */
export interface Hole {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly diameter_mm: number;
}

/** flat: built along +z, inlet face on the bed. edge: built along +y, standing on its -y edge. */
export type Build = 'flat' | 'edge';

export interface Plate {
  readonly outline: Outline;
  readonly thickness_mm: number;
  /** Solid border kept free of channels [mm]. */
  readonly rim_mm: number;
  readonly holes: readonly Hole[];
  readonly build: Build;
}

/**
 * Cross-section of a channel, normal to its centreline. Its size is the *bore*: the diameter of
 * the inscribed circle.
 * - round: circle.
 * - teardrop: circle with a roof whose flanks rise at 45 degrees where the channel lies flat and
 *   that fades to the plain circle where it stands upright; the apex points up in build direction.
 * - slot: obround; short side = bore, long side = aspect * bore along the frame's first axis.
 * - polygon: regular polygon of `sides` about the bore, a flat side facing the first axis.
 */
export type Section =
  | { readonly kind: 'round' }
  | { readonly kind: 'teardrop' }
  | { readonly kind: 'slot'; readonly aspect: number }
  | { readonly kind: 'polygon'; readonly sides: number };

/**
 * Side pocket: the wall bulges out to one side and returns, with 45-degree ramps at both ends so
 * that its roof supports itself. A modulation of the wall, not a separate body.
 */
export interface Pocket {
  /** Arc position of the pocket's middle, as a share of the channel's length [0..1]. */
  readonly at: number;
  /** Mouth length along the channel [mm], ramps included. */
  readonly length_mm: number;
  /** Greatest depth beyond the wall [mm]. */
  readonly depth_mm: number;
  /** Mouth width around the channel [deg of circumference]. */
  readonly width_deg: number;
  /**
   * Side it bulges to: angle from the first towards the second axis of the frame that is carried
   * along from `roll_deg` without twist [deg]. (A teardrop's own frame turns to the build direction;
   * samples give the angle there.)
   */
  readonly side_deg: number;
  /**
   * Height of a lip at the downstream edge of the mouth [mm]: the pocket's closing ramp goes on inwards
   * beyond the wall and falls back at 45 degrees, over the same window. None when left out.
   */
  readonly lip_mm?: number | undefined;
}

/**
 * Saw teeth along the wall of a round, polygonal or teardrop channel, all around it, to stir the air.
 * They stand inwards from the wall; see teeth.ts for their form.
 */
export interface Teeth {
  readonly height_mm: number;
  /** From tooth to tooth along the channel. */
  readonly pitch_mm: number;
}

/** One standing of a channel in the plate: mirrored (x to -x) first, then turned, then moved. */
export interface Placement {
  readonly x_mm: number;
  readonly y_mm: number;
  /** Turn about z, counter-clockwise seen against the air stream (from +z) [deg]. */
  readonly turn_deg: number;
  readonly mirrored: boolean;
}

/**
 * Where a channel begins or ends: on its face of the plate (z = 0 for the inlet, z = thickness for
 * the outlet), on the outer surface of the rim, or on the surface of the plenum.
 */
export type ChannelEnd = 'face' | 'rim' | 'plenum';

/**
 * One channel shape and every place where it stands.
 *
 * The centreline is the C2 cubic spline through `points_mm` (chord-length parameter), along the air
 * from the inlet to the outlet; it starts and ends along `inletDirection` / `outletDirection`.
 * Points are relative to each placement.
 */
export interface Channel {
  readonly points_mm: readonly (readonly [number, number, number])[];
  /** Unit vectors along the air stream at the two ends; null leaves the end free (natural spline). */
  readonly inletDirection: readonly [number, number, number] | null;
  readonly outletDirection: readonly [number, number, number] | null;
  readonly section: Section;
  /** Bore at equal steps of arc length from inlet to outlet, monotone-cubic between; at least one value [mm]. */
  readonly bore_mm: readonly number[];
  /** Turn of the section's first axis from +x about the inlet direction; carried along without twist [deg]. */
  readonly roll_deg: number;
  readonly pockets: readonly Pocket[];
  /** Stirring teeth; a channel has teeth or pockets. */
  readonly teeth?: Teeth;
  readonly placements: readonly Placement[];
  /** Where the air comes in and goes out; on the faces when left out. */
  readonly inlet?: ChannelEnd;
  readonly outlet?: ChannelEnd;
}

/**
 * A cavity inside the plate in which channels meet: a ring about the plate's z axis, or a disc.
 *
 * Its section (r, z) has a flat floor and plumb walls up to the eaves; from there the roof leans in
 * at 45 degrees from both walls (of a disc: from the one), so that it supports itself in a plate
 * printed flat, up to a flat top.
 */
export interface Plenum {
  /** 0 makes a disc [mm]. */
  readonly innerRadius_mm: number;
  readonly outerRadius_mm: number;
  /** Heights of floor, eaves and top over the inlet face [mm]. */
  readonly floor_mm: number;
  readonly eaves_mm: number;
  readonly top_mm: number;
}

export interface Design {
  readonly plate: Plate;
  readonly channels: readonly Channel[];
  /** Where channels with an end in the plenum meet. */
  readonly plenum?: Plenum;
}
