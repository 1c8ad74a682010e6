/**
 * How far a packed section reaches: support values and support points for any frame, also for the
 * sheared frames of ports. The direction (a, b) is the plate direction dotted with the two axes and
 * need not have unit length: every formula here is homogeneous in it, unlike `sectionSupport` of
 * the design room (a test holds both equal).
 */
import { cos, radians, sin } from '../../numeric/index.ts';
import { pocketBump, polarRadius } from '../../design/index.ts';
import type { Pocket } from '../../design/index.ts';
import { POLYGON, ROUND, SLOT, TEARDROP } from './tubes.ts';
import type { Tubes } from './tubes.ts';

const PI = radians(180);
const MOST_SIDES = 12;

/** Corner directions of regular polygons with a flat side facing the first axis. */
const CORNERS: readonly Float64Array[] = Array.from({ length: MOST_SIDES + 1 }, (_, n) => {
  const corners = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) {
    corners[2 * i] = cos((PI * (2 * i + 1)) / n);
    corners[2 * i + 1] = sin((PI * (2 * i + 1)) / n);
  }
  return corners;
});

/**
 * Reach of a section in direction (a, b), pockets included: max over its points of p . (a, b) [mm].
 *
 * @param station index over all shapes, shape * stations + k.
 */
export function sectionReach(
  t: Tubes,
  shape: number,
  station: number,
  a: number,
  b: number,
): number {
  const r = 0.5 * t.bore[station];
  const kind = t.kind[shape];
  let reach;
  if (kind === ROUND) reach = r * Math.sqrt(a * a + b * b);
  else if (kind === TEARDROP) {
    reach = Math.max(r * Math.sqrt(a * a + b * b), b * t.size[station]);
  } else if (kind === SLOT) reach = r * Math.sqrt(a * a + b * b) + t.size[station] * Math.abs(a);
  else reach = t.size[station] * greatestDot(CORNERS[t.sides[shape]], a, b);
  if (t.pocketed[station] !== 0) {
    return pocketReach(t, shape, station, a, b, reach);
  }
  return reach;
}

/** Writes to `out` the frame coordinates of the section's furthest point in direction (a, b). */
export function sectionPoint(
  t: Tubes,
  shape: number,
  station: number,
  a: number,
  b: number,
  out: Float64Array,
): void {
  const r = 0.5 * t.bore[station];
  const size = t.size[station];
  const kind = t.kind[shape];
  const n = Math.sqrt(a * a + b * b);
  const scale = n > 1e-300 ? r / n : 0;
  if (kind === POLYGON) {
    const corners = CORNERS[t.sides[shape]];
    const i = greatestAt(corners, a, b);
    out[0] = size * corners[i];
    out[1] = size * corners[i + 1];
  } else if (kind === TEARDROP && b * size > r * n) {
    out[0] = 0;
    out[1] = size;
  } else {
    out[0] = a * scale;
    out[1] = b * scale;
    if (kind === SLOT) out[0] += a < 0 ? -size : size;
  }
  if (t.pocketed[station] !== 0) {
    const reach = a * out[0] + b * out[1];
    if (pocketReach(t, shape, station, a, b, reach) > reach) {
      out[0] = pocketPoint[0];
      out[1] = pocketPoint[1];
    }
  }
}

function greatestDot(corners: Float64Array, a: number, b: number): number {
  const i = greatestAt(corners, a, b);
  return corners[i] * a + corners[i + 1] * b;
}

function greatestAt(corners: Float64Array, a: number, b: number): number {
  let at = 0;
  let best = corners[0] * a + corners[1] * b;
  for (let i = 2; i < corners.length; i += 2) {
    const dot = corners[i] * a + corners[i + 1] * b;
    if (dot > best) {
      best = dot;
      at = i;
    }
  }
  return at;
}

/** Points across a pocket's window; the chords between them are pushed out to enclose the curve. */
const WINDOW_STEPS = 16;
const pocketPoint = new Float64Array(2);
// Pockets of one plate mostly share one width, so the last table is kept.
const windowTable = new Float64Array(3 * (WINDOW_STEPS - 1));
let windowStretch = 1;
/** Cosine and sine at the end of the window. */
let windowEdge = 1;
let windowSine = 0;
let windowWidth_deg = -1;

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
 * Reach of the pockets at a station where it exceeds `least`, with its point in `pocketPoint`; else
 * `least`. What cannot exceed it by the section's greatest radius is passed over: most directions
 * look past a pocket (clearance of 100 pocketed channels 2.9 to 2.0 ms, experiments/bench/evaluate).
 */
function pocketReach(
  t: Tubes,
  shape: number,
  station: number,
  a: number,
  b: number,
  least: number,
): number {
  const pockets = t.pockets[shape];
  const kind = t.kind[shape];
  const r = 0.5 * t.bore[station];
  const size = t.size[station];
  const widest = kind === SLOT ? r + size : r > size ? r : size;
  const roof = t.roof[station];
  let best = least;
  for (let p = 0; p < pockets.length; p++) {
    const bump = stationBump(t, shape, station, pockets[p]);
    if (bump <= 0) continue;
    if (pockets[p].width_deg !== windowWidth_deg) fillWindow(pockets[p].width_deg);
    const axis = 2 * (t.pocketStart[shape] + p);
    const c0 = t.pocketAxis[axis];
    const s0 = t.pocketAxis[axis + 1];
    const ahead = windowStretch * (a * c0 + b * s0);
    const aside = windowStretch * (b * c0 - a * s0);
    // Beside the window its nearer end reaches furthest, at most by the greatest radius.
    const inside = windowEdge * windowEdge * (ahead * ahead + aside * aside);
    if (windowEdge > 0 && (ahead < 0 || ahead * ahead < inside)) {
      const end = ahead * windowEdge + Math.abs(aside) * windowSine;
      if ((widest + bump) * end <= best) continue;
    }
    for (let i = 0; i < windowTable.length; i += 3) {
      const along = ahead * windowTable[i] + aside * windowTable[i + 1];
      if ((widest + bump * windowTable[i + 2]) * along <= best) continue;
      const c = c0 * windowTable[i] - s0 * windowTable[i + 1];
      const s = s0 * windowTable[i] + c0 * windowTable[i + 1];
      const bare = kind === ROUND ? r : polarRadius(t.sections[shape], 2 * r, roof, c, s);
      const radius = bare + bump * windowTable[i + 2];
      if (radius * along > best) {
        best = radius * along;
        pocketPoint[0] = windowStretch * radius * c;
        pocketPoint[1] = windowStretch * radius * s;
      }
    }
    if (kind === TEARDROP) best = pocketCorner(t, station, c0, s0, bump, 0, 1, a, b, best);
    if (kind !== POLYGON) continue;
    const corners = CORNERS[t.sides[shape]];
    for (let i = 0; i < corners.length; i += 2) {
      best = pocketCorner(t, station, c0, s0, bump, corners[i], corners[i + 1], a, b, best);
    }
  }
  return best;
}

/** A section's corner pushed out by a pocket: the curve peaks there, between two table entries. */
function pocketCorner(
  t: Tubes,
  station: number,
  c0: number,
  s0: number,
  bump: number,
  c: number,
  s: number,
  a: number,
  b: number,
  best: number,
): number {
  const off = c0 * c + s0 * s;
  let share = 0;
  // Entries run from one end of the window to its middle; the first past the corner is the deeper.
  for (let i = 0; i <= 3 * (WINDOW_STEPS / 2 - 1); i += 3) {
    share = windowTable[i + 2];
    if (windowTable[i] > off) break;
  }
  if (off <= windowEdge) return best;
  const radius = t.size[station] + bump * share;
  const reach = radius * (a * c + b * s);
  if (reach <= best) return best;
  pocketPoint[0] = radius * c;
  pocketPoint[1] = radius * s;
  return reach;
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
