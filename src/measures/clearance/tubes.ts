/**
 * Channels packed for the clearance kernels: an array for each quantity of a station, of the piece that
 * starts there, of a block of pieces, of a shape.
 *
 * Between two stations a channel is the convex hull of its two sections. Mounting holes and the
 * inward corners of an outline are packed as straight extra shapes, so that one kernel serves all.
 * Near its own ports a section that would stick out of the plate is sheared along the tangent until
 * it ends at the face: that is the shape of the real, cut-off port.
 */
import type { Plate, PlateSamples, Pocket, Section } from '../../design/index.ts';

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
  // Borrowed from the samples, see there. Hot loops read them here: whatever form the engine keeps a
  // sampled plate in, a `Tubes` is one plain object whose fields the compiler can address directly.
  plate: Plate;
  sections: readonly Section[];
  pockets: readonly (readonly Pocket[])[];
  length_mm: Float64Array;
  tangent: Float64Array;
  curvature: Float64Array;
  /** Axes of the sections before any port was sheared. */
  uprightFirst: Float64Array;
  uprightSecond: Float64Array;
  roof: Float64Array;
  reach_mm: Float64Array;
  pocketStart: Int32Array;
  pocketAxis: Float64Array;
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
  /** How often each channel's shape stands, and the first channel that has it [channelShapes]. */
  standing: Int32Array;
  example: Int32Array;
  kind: Uint8Array; // [shapes]
  /** Sides of a polygonal section [shapes]. */
  sides: Uint8Array;
  /** Centreline, relative to the placement [shapes x stations x 3]. */
  point: Float64Array;
  /** Inscribed diameter [shapes x stations]. */
  bore: Float64Array;
  /**
   * Half a slot's straight side, a teardrop's apex distance, a polygon's circumradius; 0 for round
   * [shapes x stations].
   */
  size: Float64Array;
  /** Greatest distance of the wall from the centreline, in the sheared section [shapes x stations]. */
  reach: Float64Array;
  /** Axes of the sections, sheared at ports [shapes x stations x 3]. */
  first: Float64Array;
  second: Float64Array;
  /** Curvature of each station [1/mm]. */
  bend: Float64Array; // [shapes x stations]
  /** 1 where a pocket widens the station [shapes x stations]. */
  pocketed: Uint8Array;
  /** Where the hull of a pocketed station begins in `hulls`, -1 until asked [shapes x stations]. */
  hullAt: Int32Array;
  /** Hulls of pockets one after another, see pocket-hulls.ts, and where they end. */
  hulls: Float64Array;
  hullEnd: number;
  /**
   * Of the piece from each station to the next [shapes x stations]: its arc leaves its chord by this
   * times the sum of the curvature vectors at both ends, ...
   */
  bulge: Float64Array;
  /** ... by this in any direction besides, ... */
  spare: Float64Array;
  /** ... and this is the greatest distance of its wall from its chord. */
  swell: Float64Array;
  /** Half the length of a piece [shapes]. */
  half: Float64Array;
  block: Float64Array; // [shapes x blocks x BOX]
  box: Float64Array; // [shapes x BOX]
  /** Turn of the arc from its first station, counted with the peaks between stations [rad]. */
  turn: Float64Array; // [shapes x stations]
  /** Greatest curvature anywhere on a shape, peaks between stations included [1/mm]. */
  sharpest: Float64Array; // [shapes]
}

/** Makes a `Tubes` point at the arrays of other samples. */
export function borrow(out: Tubes, samples: PlateSamples): void {
  out.samples = samples;
  out.stations = samples.stations;
  out.plate = samples.plate;
  out.sections = samples.sections;
  out.pockets = samples.pockets;
  out.length_mm = samples.length_mm;
  out.tangent = samples.tangent;
  out.curvature = samples.curvature_per_mm;
  out.uprightFirst = samples.first;
  out.uprightSecond = samples.second;
  out.roof = samples.roof;
  out.reach_mm = samples.reach_mm;
  out.pocketStart = samples.pocketStart;
  out.pocketAxis = samples.pocketAxis;
}

export function createTubes(samples: PlateSamples): Tubes {
  return {
    samples,
    stations: 0,
    plate: samples.plate,
    sections: samples.sections,
    pockets: samples.pockets,
    length_mm: samples.length_mm,
    tangent: samples.tangent,
    curvature: samples.curvature_per_mm,
    uprightFirst: samples.first,
    uprightSecond: samples.second,
    roof: samples.roof,
    reach_mm: samples.reach_mm,
    pocketStart: samples.pocketStart,
    pocketAxis: samples.pocketAxis,
    finite: true,
    blockSize: 8,
    blocks: 0,
    channelShapes: 0,
    shapes: 0,
    channels: 0,
    placed: 0,
    shapeOf: new Int32Array(0),
    offset: new Float64Array(0),
    standing: new Int32Array(0),
    example: new Int32Array(0),
    kind: new Uint8Array(0),
    sides: new Uint8Array(0),
    point: new Float64Array(0),
    bore: new Float64Array(0),
    size: new Float64Array(0),
    reach: new Float64Array(0),
    first: new Float64Array(0),
    second: new Float64Array(0),
    bend: new Float64Array(0),
    pocketed: new Uint8Array(0),
    hullAt: new Int32Array(0),
    hulls: new Float64Array(0),
    hullEnd: 0,
    bulge: new Float64Array(0),
    spare: new Float64Array(0),
    swell: new Float64Array(0),
    half: new Float64Array(0),
    block: new Float64Array(0),
    box: new Float64Array(0),
    turn: new Float64Array(0),
    sharpest: new Float64Array(0),
  };
}
