/**
 * Channels packed for the clearance kernels: one row per station, bounds per segment, block, shape.
 *
 * Between two stations a channel is the convex hull of its two sections. Mounting holes and the
 * inward corners of an outline are packed as straight extra shapes, so that one kernel serves all.
 * Near its own ports a section that would stick out of the plate is sheared along the tangent until
 * it ends at the face: that is the shape of the real, cut-off port.
 */
import type { PlateSamples } from '../../design/index.ts';

/**
 * Row of a station: point 0-2, inradius 3, size 4 (slot: half its straight side; teardrop: apex
 * distance; polygon: circumradius), reach 5, bulge vector of the segment that starts here 6-8 (how
 * far the arc leaves its chord), spare bulge of that segment 9.
 */
export const ROW = 10;
/** Segment: middle 0-2, radius of a ball around the whole piece 3. */
export const SEGMENT = 4;
/** Box: least 0-2, greatest 3-5 of the centreline, greatest reach 6. */
export const BOX = 8;

export const ROUND = 0;
export const TEARDROP = 1;
export const SLOT = 2;
export const POLYGON = 3;

/** Packed channels; memory is reused from design to design. */
export interface Tubes {
  samples: PlateSamples;
  stations: number;
  /** Whether every packed number is finite. */
  finite: boolean;
  /** Segments per block. */
  blockSize: number;
  blocks: number;
  /** Shapes of channels, then extra shapes. */
  channelShapes: number;
  shapes: number;
  /** Placed channels, then mounting holes and inward corners. */
  channels: number;
  placed: number;
  shapeOf: Int32Array; // [placed]
  offset: Float64Array; // [placed x 2]
  kind: Uint8Array; // [shapes]
  /** Sides of a polygonal section [shapes]. */
  sides: Uint8Array;
  row: Float64Array; // [shapes x stations x ROW]
  /** Axes of the sections, sheared at ports [shapes x stations x 3]. */
  first: Float64Array;
  second: Float64Array;
  /** Curvature of each station [1/mm]. */
  bend: Float64Array; // [shapes x stations]
  /** 1 where a pocket widens the station [shapes x stations]. */
  pocketed: Uint8Array;
  segment: Float64Array; // [shapes x (stations - 1) x SEGMENT]
  block: Float64Array; // [shapes x blocks x BOX]
  box: Float64Array; // [shapes x BOX]
}

export function createTubes(samples: PlateSamples): Tubes {
  return {
    samples,
    stations: 0,
    finite: true,
    blockSize: 8,
    blocks: 0,
    channelShapes: 0,
    shapes: 0,
    channels: 0,
    placed: 0,
    shapeOf: new Int32Array(0),
    offset: new Float64Array(0),
    kind: new Uint8Array(0),
    sides: new Uint8Array(0),
    row: new Float64Array(0),
    first: new Float64Array(0),
    second: new Float64Array(0),
    bend: new Float64Array(0),
    pocketed: new Uint8Array(0),
    segment: new Float64Array(0),
    block: new Float64Array(0),
    box: new Float64Array(0),
  };
}
