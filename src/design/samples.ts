/**
 * A design sampled into typed arrays: the form the hot loops read.
 *
 * A *shape* is one channel as mirrored and turned but not yet moved; every placement of the same
 * channel with the same mirror and turn shares it, so what depends on shape alone is computed once.
 * A shape has `stations` samples at equal steps of arc length, both ends included.
 */
import { atan2 } from './angles.ts';
import type { Section, Pocket, Plate, Plenum } from './model.ts';
import type { PlateTeeth } from './teeth.ts';

/** What a plate has beyond channels from face to face. */
export interface SideEnds {
  /** Kind of the inlet and the outlet of each shape, see `END` [M x 2]. */
  readonly kind: Uint8Array;
  /**
   * Unit vector across the surface that each end opens into, along the air [M x 2 x 3]: +z at a
   * face, the outline's normal at the rim, the plenum's at the plenum.
   */
  readonly axis: Float64Array;
  readonly plenum: Plenum | null;
}

/** Kinds of ends in `SideEnds.kind`. */
export const END = { face: 0, rim: 1, plenum: 2 } as const;

export interface PlateSamples {
  readonly plate: Plate;
  /** Samples per shape, S. */
  readonly stations: number;
  /** Number of distinct shapes, M. */
  readonly shapeCount: number;
  /** Number of placed channels, N. */
  readonly channelCount: number;
  /** Shape of each placed channel [N]; channels are ordered as in the design. */
  readonly shapeOf: Int32Array;
  /** Translation of each placed channel [N x 2], x y [mm]. */
  readonly offset_mm: Float64Array;
  /** Index of the design's channel behind each shape [M]. */
  readonly channelOfShape: Int32Array;
  readonly sections: readonly Section[];
  /** Pockets of each shape [M]; `side_deg` refers to the frame in this struct. */
  readonly pockets: readonly (readonly Pocket[])[];
  /** Total arc length of each shape [M] [mm]. */
  readonly length_mm: Float64Array;
  /** Centreline points relative to the offset [M x S x 3]. */
  readonly point_mm: Float64Array;
  /** Unit tangents [M x S x 3]. */
  readonly tangent: Float64Array;
  /** First axis of the section frame, unit, normal to the tangent [M x S x 3]; second = tangent x first. */
  readonly first: Float64Array;
  readonly second: Float64Array;
  /** Inscribed diameter [M x S]. */
  readonly bore_mm: Float64Array;
  /** Teardrop roof, 0 = plain circle .. 1 = full 45-degree roof [M x S]; 0 for other sections. Apex along `second`. */
  readonly roof: Float64Array;
  /** Curvature vector dT/ds [M x S x 3] [1/mm]. */
  readonly curvature_per_mm: Float64Array;
  /** Section area and wetted perimeter without pockets [M x S]. */
  readonly area_mm2: Float64Array;
  readonly perimeter_mm: Float64Array;
  /** Greatest distance from the centreline to the wall at a station, pockets included [M x S]. */
  readonly reach_mm: Float64Array;
  /**
   * Cosine and sine of the angle from the carried axis to `first`, about the tangent [M x S x 2].
   * The carried axis starts at the channel's roll and follows the centreline without twist. 1 0
   * except in teardrops, whose frame turns towards the build direction instead and may swing round
   * within one step where the channel stands upright. Rings of neighbouring stations must be joined
   * at equal *carried* angles, carried = frame angle + twist (see `ringPoint`).
   */
  readonly twist: Float64Array;
  /** First pocket of each shape in the two arrays below [M + 1]. */
  readonly pocketStart: Int32Array;
  /** Cosine and sine of each pocket's side in the section frame [P x 2]. */
  readonly pocketAxis: Float64Array;
  /** Upper half of each pocket's enclosing polygon for unit depth, see `windowHull` [P x 9 x 2]. */
  readonly pocketHull: Float64Array;
  /**
   * Ends elsewhere than on the faces, and the plenum; null for a plate of channels from face to
   * face. A channel with such an end shares its shape with no other.
   */
  readonly sides: SideEnds | null;
  /**
   * Teeth on the walls, null for a plate without any. All arrays above are those of the wall they
   * stand on (the roots); see `toothedSamples` and `tipSamples`.
   */
  readonly teeth: PlateTeeth | null;
}

/**
 * Angle from the carried axis to `first` at a station [rad], see `PlateSamples.twist`. Not stored:
 * only meshes and rasters ask for it.
 *
 * @param row shape * stations + station.
 */
export function twistAngle({ twist }: PlateSamples, row: number): number {
  return atan2(twist[2 * row + 1], twist[2 * row]);
}
