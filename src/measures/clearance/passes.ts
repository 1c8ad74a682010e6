/** The passes of a clearance measurement in their plain form: the reference of the compiled one. */
import { visitBends } from './bend-walls.ts';
import { visitFaces } from './face-walls.ts';
import { visitSelf } from './own-walls.ts';
import { visitPairs } from './plate-pairs.ts';
import { shearPorts } from './ports.ts';
import type { Tally } from './tally.ts';
import { packBounds } from './tube-bounds.ts';
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';

/** What most of the time goes to; both forms give the same results to the last bit. */
export interface Passes {
  /** Makes the arrays large enough for the counts of a `Tubes`; what they held is lost. */
  makeRoom(t: Tubes): void;
  /**
   * Shears the ports of a plate of channels from face to face, and bounds all channels.
   *
   * @returns a sum that is finite only when all numbers are.
   */
  pack(t: Tubes): number;
  /** The walls inside bends. */
  visitBends(t: Tubes, tally: Tally): void;
  /** All pairs, then each channel against itself and, without ends in the sides, against the faces. */
  visitWalls(t: Tubes, tally: Tally, lip_mm: number): void;
}

export const plainPasses: Passes = {
  makeRoom,
  pack(t) {
    let sum = 0;
    for (let m = 0; m < t.channelShapes; m++) {
      if (t.samples.sides === null) shearPorts(t, m);
      sum += packBounds(t, m);
    }
    return sum;
  },
  visitBends(t, tally) {
    const { standing, example } = t;
    for (let m = 0; m < t.channelShapes; m++) {
      if (standing[m] === 0) continue;
      tally.overlaps_mm.bend += standing[m] * visitBends(t, tally, m, example[m]);
    }
  },
  visitWalls(t, tally, lip_mm) {
    const { standing, example, samples } = t;
    const { overlaps_mm } = tally;
    visitPairs(t, tally);
    for (let m = 0; m < t.channelShapes; m++) {
      if (standing[m] === 0) continue;
      overlaps_mm.self += standing[m] * visitSelf(t, tally, m, example[m]);
      if (samples.sides !== null) continue;
      overlaps_mm.face += standing[m] * visitFaces(t, tally, m, lip_mm, example[m]);
    }
  },
};

function makeRoom(out: Tubes): void {
  const rows = out.shapes * out.stations;
  if (out.point.length < 3 * rows) {
    out.point = new Float64Array(3 * rows);
    out.bore = new Float64Array(rows);
    out.size = new Float64Array(rows);
    out.reach = new Float64Array(rows);
    out.bend = new Float64Array(rows);
    out.turn = new Float64Array(rows);
    out.bulge = new Float64Array(rows);
    out.spare = new Float64Array(rows);
    out.swell = new Float64Array(rows);
    out.first = new Float64Array(3 * rows);
    out.second = new Float64Array(3 * rows);
  }
  if (out.pocketed.length < rows) {
    out.pocketed = new Uint8Array(rows);
    out.hullAt = new Int32Array(rows);
  }
  if (out.block.length < out.shapes * out.blocks * BOX) {
    out.block = new Float64Array(out.shapes * out.blocks * BOX);
  }
  if (out.kind.length < out.shapes) {
    out.kind = new Uint8Array(out.shapes);
    out.sides = new Uint8Array(out.shapes);
    out.box = new Float64Array(out.shapes * BOX);
    out.sharpest = new Float64Array(out.shapes);
    out.half = new Float64Array(out.shapes);
    out.standing = new Int32Array(out.shapes);
    out.example = new Int32Array(out.shapes);
  }
  if (out.shapeOf.length < out.placed) {
    out.shapeOf = new Int32Array(out.placed);
    out.offset = new Float64Array(2 * out.placed);
  }
}
