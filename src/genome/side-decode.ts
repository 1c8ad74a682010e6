/** From side traits to an explicit design. */
import type { Brief } from '../brief/index.ts';
import {
  cosDeg,
  insideDistance,
  normalTurn,
  outlineReach,
  plateOf,
  sinDeg,
} from '../design/index.ts';
import type { Channel, Placement, Plate } from '../design/index.ts';
import { atan2, degrees } from '../numeric/index.ts';
import type { Decoded } from './decode.ts';
import { turnedRound } from './side-direction.ts';
import { spreadExits } from './side-exits.ts';
import { pocketReach, withSidePockets } from './side-pockets.ts';
import { SIDE_SLOTS, inletReach, sideRouteOf } from './side-genes.ts';
import { plenumDesign } from './side-plenum.ts';
import { lyingReach, sideBores, sideSection } from './side-sections.ts';
import type { SideTraits } from './side-traits.ts';

/** A straight end shorter than this gives a spline no direction [mm]. */
const SHORT_MM = 0.3;
/** How far a spline may bow out of the turn into the way out [mm]. */
const BOW_MM = 0.15;
/** Lengths are rounded to this, so that channels a turn apart are found to be alike [1/mm]. */
const ROUND = 1e9;

// Cosines and sines of 30, 60 and 90 degrees: with fewer points the spline bends unevenly.
const ARC = [
  [0.8660254037844387, 0.5],
  [0.5, 0.8660254037844386],
  [0, 1],
] as const;

type Point = readonly [number, number, number];

/** The design that side traits describe, or why there is none. */
export function sideDesignOf(brief: Brief, traits: SideTraits): Decoded {
  const plate = plateOf(brief, traits.thickness_mm, traits.build);
  return traits.hasPlenum ? plenumDesign(brief, traits, plate) : bendDesign(brief, traits, plate);
}

/** Channels with an exit each: rings of inlets whose channels turn and run out at their heights. */
function bendDesign(brief: Brief, traits: SideTraits, plate: Plate): Decoded {
  const route = sideRouteOf(brief);
  const { exit_deg, inlet_deg } = spreadExits(
    route.sectors,
    traits.channels,
    traits.exitShift,
    traits.gather,
    (j) => (traits.isFree ? 0.5 * traits.own[3 * (j % SIDE_SLOTS)] : 0),
  );
  const wall = brief.process.minimumWall_mm;
  const widest = traits.bore_mm * Math.max(traits.middleBore, traits.outletBore);
  const reaches = lyingReach(traits, widest);
  // An inward plate is drawn upside down and turned over at the end.
  const [down, up] = route.direction === 'inward' ? reaches.toReversed() : reaches;
  const bulge = pocketReach(traits);
  const lowest = wall + down + BOW_MM + bulge;
  const highest = plate.thickness_mm - wall - up - BOW_MM - bulge;
  if (highest < lowest) {
    const reason = `A bore of ${widest} mm does not fit between the faces; use finer bores.`;
    return { ok: false, reason };
  }
  const reach = inletReach(brief);
  const groups = new Map<string, { points: Point[]; placements: Placement[] }>();
  for (let j = 0; j < exit_deg.length; j++) {
    const ring = j % traits.rings;
    const own = 3 * (j % SIDE_SLOTS);
    const ownRadius = traits.isFree ? traits.own[own + 1] : 0;
    const ownHeight = traits.isFree ? traits.own[own + 2] : 0;
    const height = lowest + traits.heights[ring] * (highest - lowest) + 0.5 * traits.bore_mm * ownHeight; // prettier-ignore
    const r = Math.max(0, traits.radii[ring] * reach + traits.bore_mm * ownRadius);
    // The inlets are turned, not the exits, which keep to their sectors.
    const x = r * cosDeg(inlet_deg[j] - traits.sweep_deg);
    const y = r * sinDeg(inlet_deg[j] - traits.sweep_deg);
    const c = cosDeg(exit_deg[j]);
    const s = sinDeg(exit_deg[j]);
    const rim = outlineReach(plate.outline, 0, 0, c, s);
    const dx = rim * c - x;
    const dy = rim * s - y;
    const length = Math.round(Math.sqrt(dx * dx + dy * dy) * ROUND) / ROUND;
    const held = Math.min(highest, Math.max(lowest, height));
    const points = courseOf(traits, length, held, lowest, highest);
    if (points === null || !standsClear(brief, traits, plate, x, y, dx, dy, length)) continue;
    const turn_deg = normalTurn(Math.round(degrees(atan2(dy, dx)) * ROUND) / ROUND);
    const key = points.map((point) => point.join(' ')).join(' ');
    const placement = { x_mm: x, y_mm: y, turn_deg, mirrored: false };
    const group = groups.get(key);
    if (group) group.placements.push(placement);
    else groups.set(key, { points, placements: [placement] });
  }
  if (groups.size === 0) {
    return { ok: false, reason: 'No channel has room to turn between its inlet and the rim.' };
  }
  const courses = [...groups.values()];
  const channels = courses.map(({ points, placements }) =>
    sideChannel(brief, traits, points, placements),
  );
  const design = turnedRound(brief, { plate, channels });
  if (traits.pockets === 0) return { ok: true, design };
  const pocketed = design.channels.map((channel, i) =>
    withSidePockets(traits, channel, courses[i].points),
  );
  return { ok: true, design: { ...design, channels: pocketed } };
}

/** Up from the face, round the turn along +x, and out; null where there is no room. */
function courseOf(
  traits: SideTraits,
  length: number,
  height: number,
  lowest: number,
  highest: number,
): Point[] | null {
  const bend = Math.min(traits.turn * traits.bore_mm, height, length - SHORT_MM);
  if (bend < 0.25 * traits.bore_mm) return null;
  const run = length - bend;
  const end = Math.min(highest, Math.max(lowest, height + traits.climb * run));
  const points: Point[] = [[0, 0, 0]];
  if (height - bend > SHORT_MM) points.push([0, 0, height - bend]);
  for (const [c, s] of ARC) points.push([bend * (1 - c), 0, height - bend * (1 - s)]);
  // A point soon after the turn keeps a long way out from bowing.
  const soon = Math.min(bend, 0.3 * run);
  if (soon > SHORT_MM) points.push([bend + soon, 0, height + (soon / run) * (end - height)]);
  if (Math.abs(traits.swing) > 0.02 && run > 4 * SHORT_MM) {
    points.push([bend + 0.5 * run, 0.5 * traits.swing * run, 0.5 * (height + end)]);
  }
  points.push([length, 0, end]);
  return points;
}

/** Whether the inlet keeps within the rim, and the way out clear of the mounting holes. */
function standsClear(
  brief: Brief,
  traits: SideTraits,
  plate: Plate,
  x: number,
  y: number,
  dx: number,
  dy: number,
  length: number,
): boolean {
  const radius = 0.5 * traits.bore_mm * traits.inletBore;
  if (insideDistance(plate.outline, x, y) < radius + plate.rim_mm) return false;
  const wall = brief.process.minimumWall_mm;
  const shares = Math.max(traits.middleBore, traits.outletBore);
  const widest = 0.5 * traits.bore_mm * shares + pocketReach(traits);
  for (const hole of plate.holes) {
    const hx = hole.x_mm - x;
    const hy = hole.y_mm - y;
    const along = Math.min(1, Math.max(0, (hx * dx + hy * dy) / (length * length)));
    const gx = hx - along * dx;
    const gy = hy - along * dy;
    const least = Math.max(radius, widest) + wall + 0.5 * hole.diameter_mm;
    if (gx * gx + gy * gy < least * least) return false;
  }
  return true;
}

function sideChannel(
  brief: Brief,
  traits: SideTraits,
  points: readonly Point[],
  placements: readonly Placement[],
): Channel {
  const shares = [traits.inletBore, traits.middleBore, traits.outletBore];
  return {
    points_mm: points,
    inletDirection: [0, 0, 1],
    outletDirection: lastWay(points),
    section: sideSection(traits),
    bore_mm: sideBores(brief, traits.bore_mm, shares),
    roll_deg: traits.section === 'slot' || traits.section === 'polygon' ? traits.roll_deg : 0,
    pockets: [],
    placements,
    outlet: 'rim',
  };
}

/** Unit vector along the last piece of a course: a free end would bow. */
function lastWay(points: readonly Point[]): Point {
  const [a, b] = points.slice(-2);
  const [x, y, z] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const length = Math.sqrt(x * x + y * y + z * z);
  return [x / length, y / length, z / length];
}
