/** Walls between a channel and the two faces of the plate, away from its own ports. */
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { aboveFace, mouthLength, towardsFace } from './ports.ts';
import { noteWall } from './tally.ts';
import type { Tally } from './tally.ts';

// Square of the cosine of 40 degrees, see below.
const UPRIGHT = 0.5868240888334652;
// Lean against the plate's normal from which a channel's side faces the face of the plate: not at
// all below 40 degrees, wholly above 60 degrees (sines).
const BESIDE = 0.6427876096865393;
const BELOW = 0.8660254037844386;

/** A centreline this far beyond a face has left the plate [mm]. */
const STRAY = 1e-6;

/** Allowance for rounding where blocks of stations are passed over [mm]. */
const FAR_mm = 1e-9;

/**
 * Solid between a channel's side and the faces, for one shape.
 *
 *   wall = (height of the centreline over the face - reach of the section towards it) / lean
 *
 * with lean the sine of the angle between channel and the plate's normal: exact under a bend of
 * constant radius, where it gives the radius of the inner side; a channel square to the face has no
 * such wall. Counted from `lip_mm` past the place where the channel's side meets the face; within
 * that length a sharp lip is an edge, not a wall. So a straight channel leaning by g shows
 * lip_mm / tan g.
 *
 * @returns depth by which the channel breaks through a face beyond its own port [mm], both faces.
 */
export function visitFaces(
  t: Tubes,
  tally: Tally,
  shape: number,
  lip_mm: number,
  channel: number,
): number {
  return (
    visitFace(t, tally, shape, lip_mm, channel, 0) + visitFace(t, tally, shape, lip_mm, channel, 1)
  );
}

/** The same for the face of one end. */
export function visitFace(
  t: Tubes,
  tally: Tally,
  shape: number,
  lip_mm: number,
  channel: number,
  end: 0 | 1,
): number {
  const { stations, point, tangent, reach_mm, blockSize } = t;
  const base = shape * stations;
  const step = t.length_mm[shape] / (stations - 1);
  const first = end === 0 ? base : base + stations - 1;
  // The port may be longer than that of a straight channel, but not by more than its own size.
  const longest = 2 * mouthLength(t, shape, end) + 0.5 * t.bore[first];
  let depth = 0;
  let lip = -1;
  let before = 0;
  const { thickness_mm } = t.plate;
  const way = end === 0 ? 1 : -1;
  // Next station at which a block begins, and that block.
  let block = end === 0 ? 1 : t.blocks - 2;
  let gate = end === 0 ? blockSize : (t.blocks - 1) * blockSize;
  for (let s = first - base; s >= 0 && s < stations; s += way) {
    if (s === gate) {
      if (lip >= 0) {
        // Behind the port whole blocks lie too far from the face to matter.
        while (isFar(t, tally, shape, block, end)) {
          block += way;
          gate += way * blockSize;
          if (block < 0 || block >= t.blocks) return depth;
        }
        s = gate;
      }
      block += way;
      gate += way * blockSize;
    }
    const n = end === 0 ? s : stations - 1 - s;
    const k = base + s;
    const rise = tangent[3 * k + 2];
    const height = end === 0 ? point[3 * k + 2] : thickness_mm - point[3 * k + 2];
    if (height < -STRAY) {
      // The centreline itself leaves the plate: a groove or a blind end, whatever port is near.
      if (-height > depth) depth = -height;
      const x = t.offset[2 * channel] + point[3 * k];
      const y = t.offset[2 * channel + 1] + point[3 * k + 1];
      noteWall(tally, height, 'face', x, y, point[3 * k + 2], channel, -1);
    }
    if (lip >= 0) {
      const spare = height - reach_mm[k];
      if (spare >= 0 && (rise * rise >= UPRIGHT || spare >= tally.thinnest_mm)) continue;
    }
    const clear = height - towardsFace(t, shape, k, end);
    const arc = n * step;
    if (lip < 0) {
      if (clear >= -1e-9) lip = before < 0 ? arc - (step * clear) / (clear - before) : arc;
      else if (arc >= longest) lip = longest;
    }
    if (lip >= 0) {
      if (clear < 0 && -clear > depth) depth = clear > -1e-6 ? depth : -clear;
      const past = arc - lip - lip_mm;
      const x = t.offset[2 * channel] + point[3 * k];
      const y = t.offset[2 * channel + 1] + point[3 * k + 1];
      const z = end === 0 ? 0.5 * clear : thickness_mm - 0.5 * clear;
      if (past >= 0 && past < step && n > 0) {
        // The stretch that counts begins between two stations.
        const share = past / step;
        const back = end === 0 ? k - 1 : k + 1;
        before = aboveFace(t, back, end) - towardsFace(t, shape, back, end);
        const start = clear + share * (before - clear);
        noteWall(tally, faceWall(start, rise), 'face', x, y, z, channel, -1);
      }
      if (past >= 0) {
        noteWall(tally, faceWall(clear, rise), 'face', x, y, z, channel, -1);
      }
    }
    before = clear;
  }
  return depth;
}

/** Whether no section of a block comes nearer to the face than the thinnest wall so far. */
export function isFar(t: Tubes, tally: Tally, shape: number, block: number, end: 0 | 1): boolean {
  if (block < 0 || block >= t.blocks) return false;
  const o = (shape * t.blocks + block) * BOX;
  const height = end === 0 ? t.block[o + 2] : t.plate.thickness_mm - t.block[o + 5];
  const need = tally.thinnest_mm > 0 ? tally.thinnest_mm : 0;
  return height - t.block[o + 6] > need + FAR_mm;
}

/** Wall beside a surface: clear distance over the lean against its normal, none while steep. */
export function faceWall(clear: number, rise: number): number {
  const lean = Math.sqrt(Math.max(0, 1 - rise * rise));
  if (lean <= BESIDE) return Infinity;
  if (clear <= 0) return clear;
  const share = lean >= BELOW ? 1 : (lean - BESIDE) / (BELOW - BESIDE);
  return clear / (lean * share * share * (3 - 2 * share));
}
