/** What the clearance kernels report into: the thinnest wall so far and the overlap by kind. */

/** Between which surfaces a wall stands or an overlap lies. */
export type WallKind = 'between' | 'self' | 'bend' | 'face' | 'edge' | 'hole' | 'pocket';

/** Overlap summed over the plate, by kind [mm]. */
export type Overlaps = Record<WallKind, number>;

export interface Tally {
  /** Thinnest wall so far [mm]; starts at the cap. */
  thinnest_mm: number;
  /** null while nothing is thinner than the cap. */
  kind: WallKind | null;
  x_mm: number;
  y_mm: number;
  z_mm: number;
  /** Placed channels at the thinnest wall; -1 where there is no second one. */
  channel: number;
  other: number;
  overlaps_mm: Overlaps;
}

export function createTally(cap_mm: number): Tally {
  return {
    thinnest_mm: cap_mm,
    kind: null,
    x_mm: 0,
    y_mm: 0,
    z_mm: 0,
    channel: -1,
    other: -1,
    overlaps_mm: { between: 0, self: 0, bend: 0, face: 0, edge: 0, hole: 0, pocket: 0 },
  };
}

/** Notes a wall if it is the thinnest so far. */
export function noteWall(
  tally: Tally,
  wall_mm: number,
  kind: WallKind,
  x_mm: number,
  y_mm: number,
  z_mm: number,
  channel: number,
  other: number,
): void {
  if (wall_mm >= tally.thinnest_mm) return;
  tally.thinnest_mm = wall_mm;
  tally.kind = kind;
  tally.x_mm = x_mm;
  tally.y_mm = y_mm;
  tally.z_mm = z_mm;
  tally.channel = channel;
  tally.other = other;
}
