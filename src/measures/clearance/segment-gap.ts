/** Solid between two pieces of channel, each the hull of two neighbouring sections. */
import { ROUND } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { sectionReach } from './section-reach.ts';
import { convexGap, turned } from './convex-gap.ts';

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

/** Direction from A to B that showed the last pair whose gap was no less than asked to be so. */
export const parting = new Float64Array(3);

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
  const { point, reach, bend } = t;
  const p = 3 * i;
  const q = 3 * j;
  const px = point[p];
  const py = point[p + 1];
  const pz = point[p + 2];
  const qx = point[q];
  const qy = point[q + 1];
  const qz = point[q + 2];
  const ux = point[p + 3] - px;
  const uy = point[p + 4] - py;
  const uz = point[p + 5] - pz;
  const vx = point[q + 3] - qx;
  const vy = point[q + 4] - qy;
  const vz = point[q + 5] - qz;
  const rx = px - qx - ox;
  const ry = py - qy - oy;
  const rz = pz - qz;
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
  const spare = t.spare[i] + t.spare[j];
  const reachA = reach[i] > reach[i + 1] ? reach[i] : reach[i + 1];
  const reachB = reach[j] > reach[j + 1] ? reach[j] : reach[j + 1];
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
  const hollowA = hollow(t, i, dx, dy, dz);
  const hollowB = hollow(t, j, dx, dy, dz);
  const outA = hollowA < 0 ? -hollowA : 0;
  const outB = hollowB > 0 ? hollowB : 0;
  const bendA = bend[i] > bend[i + 1] ? bend[i] : bend[i + 1];
  const bendB = bend[j] > bend[j + 1] ? bend[j] : bend[j + 1];
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
  if (gap >= cut) {
    parting[0] = dx;
    parting[1] = dy;
    parting[2] = dz;
    return gap;
  }
  if (!(isPlain(t, shapeA, i) && isPlain(t, shapeB, j)) && distance > inner(t, i) + inner(t, j)) {
    const improved =
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
    if (improved > gap) gap = improved;
    if (gap >= cut) {
      parting.set(turned);
      return gap;
    }
  }
  const out = towardsB + 0.5 * (distance - towardsB - towardsA);
  contact.dx = dx;
  contact.dy = dy;
  contact.dz = dz;
  contact.s = s;
  contact.t = w;
  contact.x = px + s * ux + out * dx;
  contact.y = py + s * uy + out * dy;
  contact.z = pz + s * uz + out * dz;
  return gap;
}

/** How far the arc of a piece leaves its chord in a direction; posts have neither arc nor curvature. */
function hollow(t: Tubes, station: number, dx: number, dy: number, dz: number): number {
  const { curvature } = t;
  const bulge = t.bulge[station];
  if (bulge === 0) return 0;
  const i = 3 * station;
  return (
    dx * ((curvature[i] + curvature[i + 3]) * bulge) +
    dy * ((curvature[i + 1] + curvature[i + 4]) * bulge) +
    dz * ((curvature[i + 2] + curvature[i + 5]) * bulge)
  );
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
    return 0.5 * t.bore[station] * Math.sqrt(a * a + b * b);
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
export function isPlain(t: Tubes, shape: number, station: number): boolean {
  return (
    t.kind[shape] === ROUND &&
    t.pocketed[station] === 0 &&
    t.pocketed[station + 1] === 0 &&
    Math.abs(0.5 * t.bore[station] - 0.5 * t.bore[station + 1]) <= CONE_mm
  );
}

function inner(t: Tubes, station: number): number {
  const { bore } = t;
  return 0.5 * (bore[station] < bore[station + 1] ? bore[station] : bore[station + 1]);
}
