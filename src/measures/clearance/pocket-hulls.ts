/**
 * Points that enclose the pockets of a station, in its section frame: a pocket's reach in any
 * direction is the greatest dot product with them. What they are depends on the station alone, so
 * they are worked out when a station is first asked about, and kept for the rest of the plate.
 */
import { cos, radians, sin } from '../../numeric/index.ts';
import { pocketBump, polarRadius } from '../../design/index.ts';
import type { Pocket } from '../../design/index.ts';
import { CORNERS, MOST_SIDES } from './polygon-corners.ts';
import { POLYGON, ROUND, TEARDROP } from './tubes.ts';
import type { Tubes } from './tubes.ts';

const PI = radians(180);

/** Points across a pocket's window; the chords between them are pushed out to enclose the curve. */
const WINDOW_STEPS = 16;
// Pockets of one plate mostly share one width, so the last table is kept.
const windowTable = new Float64Array(3 * (WINDOW_STEPS - 1));
let windowStretch = 1;
/** Cosine and sine at the end of the window. */
let windowEdge = 1;
let windowSine = 0;
let windowWidth_deg = -1;

/**
 * A hull: index of its end, then pocket by pocket the index of the pocket's end, cosine and sine of
 * its side, square of the cosine, cosine and sine of half its width, its greatest radius, points.
 */
const HEAD = 7;
/** Most numbers that one pocket takes. */
const MOST = HEAD + 2 * (WINDOW_STEPS - 1 + MOST_SIDES);

/** Where in `hulls` the last call of `pocketReach` found its point; -1 where the section reaches further. */
export const furthest = { at: -1 };

function fillWindow(width_deg: number): void {
  windowWidth_deg = width_deg;
  const width = (width_deg * PI) / 180;
  windowEdge = cos(0.5 * width);
  windowSine = sin(0.5 * width);
  windowStretch = 1 / cos((0.5 * width) / WINDOW_STEPS);
  for (let i = 1; i < WINDOW_STEPS; i++) {
    const share = i / WINDOW_STEPS - 0.5;
    const c = cos(PI * share);
    windowTable[3 * i - 3] = cos(width * share);
    windowTable[3 * i - 2] = sin(width * share);
    windowTable[3 * i - 1] = c * c;
  }
}

/**
 * Reach of the pockets at a station where it exceeds `least`, with its point in `furthest`; else
 * `least`. What cannot exceed it by the pocket's greatest radius is passed over: most directions
 * look past a pocket.
 */
export function pocketReach(
  t: Tubes,
  shape: number,
  station: number,
  a: number,
  b: number,
  least: number,
): number {
  let at = t.hullAt[station];
  if (at < 0) at = packHull(t, shape, station);
  const { hulls } = t;
  const end = hulls[at];
  let best = least;
  let found = -1;
  for (let p = at + 1; p < end;) {
    const next = hulls[p];
    const c0 = hulls[p + 1];
    const s0 = hulls[p + 2];
    const ahead = a * c0 + b * s0;
    const aside = b * c0 - a * s0;
    // Beside the window its nearer end reaches furthest, at most by the greatest radius.
    const inside = hulls[p + 3] * (ahead * ahead + aside * aside);
    if (
      (ahead >= 0 && ahead * ahead >= inside) ||
      hulls[p + 6] * (ahead * hulls[p + 4] + Math.abs(aside) * hulls[p + 5]) > best
    ) {
      for (let q = p + HEAD; q < next; q += 2) {
        const reach = a * hulls[q] + b * hulls[q + 1];
        if (reach > best) {
          best = reach;
          found = q;
        }
      }
    }
    p = next;
  }
  furthest.at = found;
  return best;
}

/** Numbers that the hulls of a plate take at most. */
export function hullRoom({ pockets, stations }: Tubes): number {
  let room = 0;
  for (const ofShape of pockets) {
    if (ofShape.length > 0) room += stations * (1 + MOST * ofShape.length);
  }
  return room;
}

/** Works out the hull of a station; returns where it begins. */
export function packHull(t: Tubes, shape: number, station: number): number {
  const pockets = t.pockets[shape];
  const at = t.hullEnd;
  const most = at + 1 + MOST * pockets.length;
  if (t.hulls.length < most) {
    const grown = new Float64Array(2 * most);
    grown.set(t.hulls.subarray(0, at));
    t.hulls = grown;
  }
  let end = at + 1;
  for (let p = 0; p < pockets.length; p++) {
    const bump = stationBump(t, shape, station, pockets[p]);
    if (bump <= 0) continue;
    if (pockets[p].width_deg !== windowWidth_deg) fillWindow(pockets[p].width_deg);
    end = packPocket(t, shape, station, t.pocketStart[shape] + p, bump, end);
  }
  t.hulls[at] = end;
  t.hullAt[station] = at;
  t.hullEnd = end;
  return at;
}

/** Writes the points of one pocket from `at` on; returns where they end. */
function packPocket(
  t: Tubes,
  shape: number,
  station: number,
  pocket: number,
  bump: number,
  at: number,
): number {
  const { hulls, pocketAxis } = t;
  const kind = t.kind[shape];
  const section = t.sections[shape];
  const bore = t.bore[station];
  const roof = t.roof[station];
  const c0 = pocketAxis[2 * pocket];
  const s0 = pocketAxis[2 * pocket + 1];
  let end = at + HEAD;
  let widest = 0;
  for (let i = 0; i < windowTable.length; i += 3) {
    const c = c0 * windowTable[i] - s0 * windowTable[i + 1];
    const s = s0 * windowTable[i] + c0 * windowTable[i + 1];
    const bare = kind === ROUND ? 0.5 * bore : polarRadius(section, bore, roof, c, s);
    const radius = windowStretch * (bare + bump * windowTable[i + 2]);
    if (radius > widest) widest = radius;
    hulls[end++] = radius * c;
    hulls[end++] = radius * s;
  }
  // A section's corner pushed out by a pocket: the curve peaks there, between two table entries.
  const corners = kind === TEARDROP ? APEX : kind === POLYGON ? CORNERS[t.sides[shape]] : NONE;
  for (let i = 0; i < corners.length; i += 2) {
    const off = c0 * corners[i] + s0 * corners[i + 1];
    if (off <= windowEdge) continue;
    const radius = t.size[station] + bump * shareNear(off);
    if (radius > widest) widest = radius;
    hulls[end++] = radius * corners[i];
    hulls[end++] = radius * corners[i + 1];
  }
  hulls[at] = end;
  hulls[at + 1] = c0;
  hulls[at + 2] = s0;
  // A window of half a turn and more: -ahead + |aside| is no less than the direction is long.
  const isWide = windowEdge <= 0;
  hulls[at + 3] = isWide ? 0 : windowEdge * windowEdge;
  hulls[at + 4] = isWide ? -1 : windowEdge;
  hulls[at + 5] = isWide ? 1 : windowSine;
  hulls[at + 6] = widest;
  return end;
}

const APEX = Float64Array.of(0, 1);
const NONE = new Float64Array(0);

/** Share of the depth at a corner that stands off the pocket's side by an angle of this cosine. */
function shareNear(off: number): number {
  let share = 0;
  // Entries run from one end of the window to its middle; the first past the corner is the deeper.
  for (let i = 0; i <= 3 * (WINDOW_STEPS / 2 - 1); i += 3) {
    share = windowTable[i + 2];
    if (windowTable[i] > off) break;
  }
  return share;
}

/**
 * Depth of a pocket as a station sees it [mm]: the deepest within a quarter step either side, and
 * the station nearest to its middle sees the full depth, so that no pocket hides between stations.
 */
export function stationBump(t: Tubes, shape: number, station: number, pocket: Pocket): number {
  const length_mm = t.length_mm[shape];
  const step = length_mm / (t.stations - 1);
  const middle = pocket.at * length_mm;
  const off = (station - shape * t.stations) * step - middle;
  const away = Math.abs(off) <= 0.5 * step ? 0 : Math.abs(off) - 0.25 * step;
  return pocketBump(pocket, middle + away, length_mm);
}
