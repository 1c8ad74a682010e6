/** Walls of plates with exits in the rim or a plenum: what differs from channels between two faces. */
import {
  END,
  insideDistance,
  outwards,
  plenumDistance,
  plenumSection,
} from '../../design/index.ts';
import type { Plenum, SideEnds } from '../../design/index.ts';
import { cos, sin } from '../../numeric/index.ts';
import { stationEdge } from './edge-walls.ts';
import { faceWall, visitFace } from './face-walls.ts';
import { aboveFace, towardsFace } from './ports.ts';
import { sectionReach } from './section-reach.ts';
import { noteWall } from './tally.ts';
import type { Tally, WallKind } from './tally.ts';
import type { Tubes } from './tubes.ts';

/** Intrusions below this are rounding [mm]. */
const TOUCH_mm = 1e-6;
/** Places around the plenum where its wall to the outline is looked at. */
const AROUND = 72;
const way = new Float64Array(3);

/**
 * Notes the walls of every channel to faces, rim and plenum, and those of the plenum itself.
 *
 * Merging is meant only where a channel ends: there, and within `lip_mm` past the place where its
 * side meets the surface, an edge is no wall (see `visitFaces`). To any other face, rim or plenum it
 * keeps its wall everywhere. A channel that leads through the rim may lie in the solid border.
 */
export function visitSides(t: Tubes, tally: Tally, sides: SideEnds, lip_mm: number): void {
  const { overlaps_mm: overlaps } = tally;
  const section = sides.plenum ? plenumSection(sides.plenum) : null;
  for (let i = 0; i < t.channels; i++) {
    const m = t.shapeOf[i];
    for (let end: 0 | 1 = 0; ; end = 1) {
      const isOwn = sides.kind[2 * m + end] === END.face;
      overlaps.face += isOwn ? visitFace(t, tally, m, lip_mm, i, end) : blindFace(t, tally, i, end);
      if (end === 1) break;
    }
    overlaps.edge += visitRim(t, tally, sides, i, lip_mm);
    if (section !== null) overlaps.between += visitPlenum(t, tally, sides, section, i, lip_mm);
  }
  if (sides.plenum) ownWalls(t, tally, sides.plenum);
}

/** Walls to a face that the channel does not open in; returns the depth by which it breaks through. */
function blindFace(t: Tubes, tally: Tally, channel: number, end: 0 | 1): number {
  const shape = t.shapeOf[channel];
  let depth = 0;
  for (let k = shape * t.stations; k < (shape + 1) * t.stations; k++) {
    const height = aboveFace(t, k, end);
    if (height - t.reach_mm[k] >= Math.max(0, tally.thinnest_mm)) continue;
    const clear = height - towardsFace(t, shape, k, end);
    if (-clear > Math.max(depth, TOUCH_mm)) depth = -clear;
    note(t, tally, 'face', faceWall(clear, t.tangent[3 * k + 2]), channel, k);
  }
  return depth;
}

function note(
  t: Tubes,
  tally: Tally,
  kind: WallKind,
  wall: number,
  channel: number,
  k: number,
): void {
  const x = t.offset[2 * channel] + t.point[3 * k];
  const y = t.offset[2 * channel + 1] + t.point[3 * k + 1];
  noteWall(tally, wall, kind, x, y, t.point[3 * k + 2], channel, -1);
}

/** Clear distance of a station's wall to a surface, and how steeply the channel meets it. */
interface Look {
  clear_mm: number;
  rise: number;
}
type LookAt = (station: number, out: Look) => void;
const look: Look = { clear_mm: 0, rise: 0 };

/**
 * Walks from an end that opens in a surface, as `visitFace` does from a port.
 *
 * @returns depth by which the channel breaks through the surface again [mm].
 */
function walkFrom(
  t: Tubes,
  tally: Tally,
  channel: number,
  end: 0 | 1,
  lip_mm: number,
  kind: WallKind,
  lookAt: LookAt,
): number {
  const shape = t.shapeOf[channel];
  const base = shape * t.stations;
  const step = t.length_mm[shape] / (t.stations - 1);
  const first = end === 0 ? base : base + t.stations - 1;
  const longest = 4 * t.reach_mm[first] + 0.5 * t.bore[first];
  let lip = -1;
  let depth = 0;
  for (let n = 0; n < t.stations; n++) {
    const k = end === 0 ? base + n : base + t.stations - 1 - n;
    lookAt(k, look);
    if (lip < 0 && (look.clear_mm >= -TOUCH_mm || n * step >= longest)) lip = n * step;
    if (lip < 0) continue;
    if (-look.clear_mm > Math.max(depth, TOUCH_mm)) depth = -look.clear_mm;
    if (n * step - lip < lip_mm) continue;
    note(t, tally, kind, faceWall(look.clear_mm, look.rise), channel, k);
  }
  return depth;
}

/** Walls to the outline; the depth by which a channel without an exit there reaches into the rim. */
function visitRim(
  t: Tubes,
  tally: Tally,
  { kind }: SideEnds,
  channel: number,
  lip_mm: number,
): number {
  const { outline, rim_mm } = t.plate;
  const shape = t.shapeOf[channel];
  const ox = t.offset[2 * channel];
  const oy = t.offset[2 * channel + 1];
  const { uprightFirst: first, uprightSecond: second, tangent, point } = t;
  const lookAt: LookAt = (k, out) => {
    const i = 3 * k;
    const x = point[i] + ox;
    const y = point[i + 1] + oy;
    outwards(outline, x, y, way);
    // The section as it stands, not as cut off at the rim: else every mouth would end at once.
    const a = way[0] * first[i] + way[1] * first[i + 1];
    const b = way[0] * second[i] + way[1] * second[i + 1];
    out.clear_mm = insideDistance(outline, x, y) - sectionReach(t, shape, k, a, b);
    out.rise = tangent[i] * way[0] + tangent[i + 1] * way[1];
  };
  const inlet = kind[2 * shape] === END.rim;
  const outlet = kind[2 * shape + 1] === END.rim;
  if (inlet && outlet) {
    const there = walkFrom(t, tally, channel, 0, lip_mm, 'edge', lookAt);
    // From the other end its own mouth is no wall either: only what both walks see counts.
    return Math.min(there, walkFrom(t, tally, channel, 1, lip_mm, 'edge', lookAt));
  }
  if (inlet || outlet) return walkFrom(t, tally, channel, inlet ? 0 : 1, lip_mm, 'edge', lookAt);
  let least = rim_mm;
  for (let k = shape * t.stations; k < (shape + 1) * t.stations; k++) {
    const wall = stationEdge(t, shape, k, point[3 * k] + ox, point[3 * k + 1] + oy);
    note(t, tally, 'edge', wall, channel, k);
    least = Math.min(least, wall);
  }
  return rim_mm - least > TOUCH_mm ? rim_mm - least : 0;
}

/** Walls to the plenum; the depth by which a channel breaks into it elsewhere than at its end. */
function visitPlenum(
  t: Tubes,
  tally: Tally,
  { kind }: SideEnds,
  section: Float64Array,
  channel: number,
  lip_mm: number,
): number {
  const shape = t.shapeOf[channel];
  const ox = t.offset[2 * channel];
  const oy = t.offset[2 * channel + 1];
  const { uprightFirst: first, uprightSecond: second, tangent, point } = t;
  const lookAt: LookAt = (k, out) => {
    const i = 3 * k;
    const away = plenumDistance(section, point[i] + ox, point[i + 1] + oy, point[i + 2], way);
    const a = -(way[0] * first[i] + way[1] * first[i + 1] + way[2] * first[i + 2]);
    const b = -(way[0] * second[i] + way[1] * second[i + 1] + way[2] * second[i + 2]);
    out.clear_mm = away - sectionReach(t, shape, k, a, b);
    out.rise = tangent[i] * way[0] + tangent[i + 1] * way[1] + tangent[i + 2] * way[2];
  };
  for (let end: 0 | 1 = 0; ; end = 1) {
    if (kind[2 * shape + end] === END.plenum) {
      return walkFrom(t, tally, channel, end, lip_mm, 'between', lookAt);
    }
    if (end === 1) break;
  }
  let depth = 0;
  for (let k = shape * t.stations; k < (shape + 1) * t.stations; k++) {
    lookAt(k, look);
    if (-look.clear_mm > Math.max(depth, TOUCH_mm)) depth = -look.clear_mm;
    note(t, tally, 'between', look.clear_mm, channel, k);
  }
  return depth;
}

/** Walls of the plenum to faces, rim and mounting holes. */
function ownWalls(t: Tubes, tally: Tally, plenum: Plenum): void {
  const { outline, rim_mm, thickness_mm, holes } = t.plate;
  const { innerRadius_mm: ri, outerRadius_mm: ro, floor_mm, top_mm } = plenum;
  const middle = 0.5 * (floor_mm + top_mm);
  const roof = thickness_mm - top_mm;
  noteWall(tally, floor_mm, 'face', ro, 0, 0.5 * floor_mm, -1, -1);
  noteWall(tally, roof, 'face', ro, 0, thickness_mm - 0.5 * roof, -1, -1);
  let edge = rim_mm;
  for (let k = 0; k < AROUND; k++) {
    const angle = (2 * Math.PI * k) / AROUND;
    const x = ro * cos(angle);
    const y = ro * sin(angle);
    const wall = insideDistance(outline, x, y);
    noteWall(tally, wall, 'edge', x, y, middle, -1, -1);
    edge = Math.min(edge, wall);
  }
  if (rim_mm - edge > TOUCH_mm) tally.overlaps_mm.edge += rim_mm - edge;
  for (const { x_mm, y_mm, diameter_mm } of holes) {
    const r = Math.sqrt(x_mm * x_mm + y_mm * y_mm);
    const gap = Math.max(r - ro, ri - r) - 0.5 * diameter_mm;
    noteWall(tally, gap, 'hole', x_mm, y_mm, middle, -1, -1);
    if (gap < 0) tally.overlaps_mm.hole -= gap;
  }
}
