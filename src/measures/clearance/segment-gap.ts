/** Solid between two pieces of channel, each the hull of two neighbouring sections. */
import { ROUND, ROW } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { sectionReach } from './section-reach.ts';
import { convexGap } from './convex-gap.ts';

/** Change of inradius over one piece from which a round piece counts as a cone [mm]. */
const CONE_mm = 0.05;

/** Details of the last pair looked at by `segmentGap`. */
export interface Contact {
  /** Unit direction from A to B between the nearest points of the centrelines. */
  dx: number;
  dy: number;
  dz: number;
  /** Share along each piece of its nearest point. */
  s: number;
  t: number;
  /** Greater |d . tangent| of the two, when a limit of it was asked for. */
  lean: number;
  /** Middle of the wall, relative to A's offset [mm]. */
  x: number;
  y: number;
  z: number;
}

export const contact: Contact = { dx: 0, dy: 0, dz: 0, s: 0, t: 0, lean: 0, x: 0, y: 0, z: 0 };

/**
 * Gap between the walls of two pieces [mm], negative by the depth where they overlap.
 *
 *   gap = |d| - h_A(d) - h_B(-d) - bulges
 *
 * with d between the nearest points of the two centreline chords, h the greater reach of the two
 * sections of a piece in direction d, and the bulges what the arcs add to their chords on that side.
 * A bound from below for any section; where that is not sharp (corners, roofs, pockets, cones) the
 * direction is improved by `convexGap`, unless the inscribed tubes overlap already.
 *
 * @param i,j first stations of the pieces.
 * @param cut a gap of at least this is of no interest: any number >= cut may be returned.
 * @param leanLimit pairs whose connecting line leans more along either piece are left out: Infinity
 *   is returned [cosine].
 * Source: nearest points of segments, Ericson 2005, Real-Time Collision Detection, 5.1.9.
 */
export function segmentGap(
  t: Tubes,
  shapeA: number,
  i: number,
  shapeB: number,
  j: number,
  ox: number,
  oy: number,
  cut: number,
  leanLimit = 1,
): number {
  const { row } = t;
  const p = i * ROW;
  const q = j * ROW;
  const ux = row[p + ROW] - row[p];
  const uy = row[p + ROW + 1] - row[p + 1];
  const uz = row[p + ROW + 2] - row[p + 2];
  const vx = row[q + ROW] - row[q];
  const vy = row[q + ROW + 1] - row[q + 1];
  const vz = row[q + ROW + 2] - row[q + 2];
  const rx = row[p] - row[q] - ox;
  const ry = row[p + 1] - row[q + 1] - oy;
  const rz = row[p + 2] - row[q + 2];
  const a = ux * ux + uy * uy + uz * uz;
  const e = vx * vx + vy * vy + vz * vz;
  const b = ux * vx + uy * vy + uz * vz;
  const c = ux * rx + uy * ry + uz * rz;
  const f = vx * rx + vy * ry + vz * rz;
  const denominator = a * e - b * b;
  let s = denominator > 1e-12 * a * e ? (b * f - c * e) / denominator : 0;
  s = s < 0 ? 0 : s > 1 ? 1 : s;
  let w = (b * s + f) / e;
  if (w < 0) {
    w = 0;
    s = -c / a;
    s = s < 0 ? 0 : s > 1 ? 1 : s;
  } else if (w > 1) {
    w = 1;
    s = (b - c) / a;
    s = s < 0 ? 0 : s > 1 ? 1 : s;
  }
  let dx = vx * w - ux * s - rx;
  let dy = vy * w - uy * s - ry;
  let dz = vz * w - uz * s - rz;
  const distance = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const spare = row[p + 9] + row[q + 9];
  const reachA = row[p + 5] > row[p + ROW + 5] ? row[p + 5] : row[p + ROW + 5];
  const reachB = row[q + 5] > row[q + ROW + 5] ? row[q + 5] : row[q + ROW + 5];
  if (distance < 1e-9) {
    // The centrelines cross: their common normal is the way out.
    dx = uy * vz - uz * vy;
    dy = uz * vx - ux * vz;
    dz = ux * vy - uy * vx;
    let n = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (n < 1e-9) {
      dx = t.first[3 * i];
      dy = t.first[3 * i + 1];
      dz = t.first[3 * i + 2];
      n = Math.sqrt(dx * dx + dy * dy + dz * dz);
    }
    dx /= n;
    dy /= n;
    dz /= n;
  } else {
    const scale = 1 / distance;
    dx *= scale;
    dy *= scale;
    dz *= scale;
  }
  if (leanLimit < 1) {
    const lean = Math.max(leanAt(t, i, s, dx, dy, dz), leanAt(t, j, w, dx, dy, dz));
    if (lean > leanLimit) return Infinity;
    contact.lean = lean;
  }
  const hollowA = dx * row[p + 6] + dy * row[p + 7] + dz * row[p + 8];
  const hollowB = dx * row[q + 6] + dy * row[q + 7] + dz * row[q + 8];
  const outA = hollowA < 0 ? -hollowA : 0;
  const outB = hollowB > 0 ? hollowB : 0;
  const bendA = t.bend[i] > t.bend[i + 1] ? t.bend[i] : t.bend[i + 1];
  const bendB = t.bend[j] > t.bend[j + 1] ? t.bend[j] : t.bend[j + 1];
  // Capsules around the pieces bound the gap as well; they win where d leans along a piece.
  const capsules =
    distance - reachA - reachB - spare - outA * (1 + bendA * reachA) - outB * (1 + bendB * reachB);
  if (capsules >= cut) return capsules;
  const alongA = dx * ux + dy * uy + dz * uz;
  const alongB = dx * vx + dy * vy + dz * vz;
  const a0 = reachTowards(t, shapeA, i, dx, dy, dz) - s * alongA;
  const a1 = reachTowards(t, shapeA, i + 1, dx, dy, dz) + (1 - s) * alongA;
  const b0 = reachTowards(t, shapeB, j, -dx, -dy, -dz) + w * alongB;
  const b1 = reachTowards(t, shapeB, j + 1, -dx, -dy, -dz) - (1 - w) * alongB;
  const towardsB = a0 > a1 ? a0 : a1;
  const towardsA = b0 > b1 ? b0 : b1;
  const bulge = spare + outA * (1 + bendA * towardsB) + outB * (1 + bendB * towardsA);
  let gap = distance - towardsB - towardsA - bulge;
  if (gap < capsules) gap = capsules;
  if (gap >= cut) return gap;
  if (
    !(isPlain(t, shapeA, i) && isPlain(t, shapeB, j)) &&
    distance > inner(row, p) + inner(row, q)
  ) {
    const turned =
      convexGap(
        t,
        shapeA,
        i,
        shapeB,
        j,
        ox,
        oy,
        cut + bulge,
        dx * distance,
        dy * distance,
        dz * distance,
      ) - bulge;
    if (turned > gap) gap = turned;
    if (gap >= cut) return gap;
  }
  const out = towardsB + 0.5 * (distance - towardsB - towardsA);
  contact.dx = dx;
  contact.dy = dy;
  contact.dz = dz;
  contact.s = s;
  contact.t = w;
  contact.x = row[p] + s * ux + out * dx;
  contact.y = row[p + 1] + s * uy + out * dy;
  contact.z = row[p + 2] + s * uz + out * dz;
  return gap;
}

/** Reach of one section in a plate direction. */
function reachTowards(
  t: Tubes,
  shape: number,
  station: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const { first, second } = t;
  const i = 3 * station;
  const a = dx * first[i] + dy * first[i + 1] + dz * first[i + 2];
  const b = dx * second[i] + dy * second[i + 1] + dz * second[i + 2];
  if (t.kind[shape] === ROUND && t.pocketed[station] === 0) {
    return t.row[station * ROW + 3] * Math.sqrt(a * a + b * b);
  }
  return sectionReach(t, shape, station, a, b);
}

/** |d . T| at a share of the step that starts at a station. */
function leanAt(
  t: Tubes,
  station: number,
  share: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const { tangent } = t;
  const i = 3 * station;
  const x = tangent[i] + share * (tangent[i + 3] - tangent[i]);
  const y = tangent[i + 1] + share * (tangent[i + 4] - tangent[i + 1]);
  const z = tangent[i + 2] + share * (tangent[i + 5] - tangent[i + 2]);
  return Math.abs(x * dx + y * dy + z * dz) / Math.sqrt(x * x + y * y + z * z);
}

/** Round and nearly cylindrical: the line between the centrelines meets the wall squarely. */
function isPlain(t: Tubes, shape: number, station: number): boolean {
  const o = station * ROW;
  return (
    t.kind[shape] === ROUND &&
    t.pocketed[station] === 0 &&
    t.pocketed[station + 1] === 0 &&
    Math.abs(t.row[o + 3] - t.row[o + ROW + 3]) <= CONE_mm
  );
}

function inner(row: Float64Array, o: number): number {
  return row[o + 3] < row[o + ROW + 3] ? row[o + 3] : row[o + ROW + 3];
}
