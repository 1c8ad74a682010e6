/** Where the channels of a decoded plate stand: lattice, motif, and what fits the plate. */
import {
  apexDistance,
  circumradius,
  cosDeg,
  insideDistance,
  layPorts,
  outlineBounds,
  sinDeg,
} from '../design/index.ts';
import type { Plate, Port } from '../design/index.ts';
import { atan2, degrees } from '../numeric/index.ts';
import { FREE_SLOTS } from './genes.ts';
import { GRADES, gradeScale, gradingOf, pitches, sectionOf } from './pitch.ts';
import { pointsOf } from './route.ts';
import type { Route } from './route.ts';
import type { Traits } from './traits.ts';

/** A port that fits, with how its channel stands and differs from the drawn one. */
export interface Stand {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly turn_deg: number;
  readonly mirrored: boolean;
  /** Step in depth, 0 .. steps - 1. */
  readonly step: number;
  /** Size class, 0 at the centre .. GRADES - 1 at the edge. */
  readonly grade: number;
  /** Slot of own offsets in a free motif; 0 in others. */
  readonly slot: number;
  /** Course of its channel as drawn. */
  readonly route: Route;
}

/** How far to lay the lattice: ports over the most channels, and rows beyond; at last to the edge. */
const REACHES = [
  [1.25, 1],
  [3, 2],
  [Infinity, 0],
] as const;

/**
 * All channels that stand on the plate, from the centre outwards. A channel fits when its openings
 * and its bends lie within the rim and clear of the mounting holes by the minimum wall; others are
 * dropped, and beyond `maxChannels` the outermost. (A centreline may swing a little wider than its
 * bends' points: that is for the measures to see.)
 *
 * @returns null when the lattice would be too fine to lay out.
 */
export function standChannels(
  traits: Traits,
  plate: Plate,
  wall_mm: number,
  maxChannels: number,
): Stand[] | null {
  const { along_mm, across_mm } = pitches(traits);
  const box = outlineBounds(plate.outline);
  const reachX = Math.max(-box.minX_mm, box.maxX_mm);
  const reachY = Math.max(-box.minY_mm, box.maxY_mm);
  const radius =
    plate.outline.kind === 'round'
      ? 0.5 * plate.outline.diameter_mm
      : Math.sqrt(reachX * reachX + reachY * reachY);
  const lattice = {
    kind: traits.lattice,
    pitch_mm: along_mm,
    rowPitch_mm: across_mm,
    stagger: traits.stagger,
    rotation_deg: traits.rotation_deg,
  };
  if (Math.PI * radius * radius > 15000 * along_mm * across_mm) return null;
  // More channels than allowed are cut from outside, so a fine lattice need not reach the edge: a
  // quarter more ports than that mostly do, three times as many where rim and holes take some.
  for (const [spare, margin] of REACHES) {
    const area_mm2 = spare * maxChannels * along_mm * across_mm;
    const reach = Math.sqrt(area_mm2 / Math.PI) + margin * along_mm;
    const ports = layPorts(lattice, Math.min(radius, reach));
    const stands = keepFitting(ports, traits, plate, wall_mm, along_mm, maxChannels);
    if (reach >= radius || stands.length === maxChannels) return stands;
  }
  return [];
}

function keepFitting(
  ports: readonly Port[],
  traits: Traits,
  plate: Plate,
  wall_mm: number,
  pitch_mm: number,
  most: number,
): Stand[] {
  const box = outlineBounds(plate.outline);
  const halfSize = 0.5 * Math.max(box.maxX_mm - box.minX_mm, box.maxY_mm - box.minY_mm);
  const usable = Math.max(halfSize - plate.rim_mm, 1e-6);
  const graded = gradingOf(traits) !== 0;
  const footprint = footprintOf(traits, plate, wall_mm);
  const stands: Stand[] = [];
  const routes = new Map<number, Drawn>();
  // From the centre outwards, so that what goes beyond the most is the outermost.
  for (let order = 0; order < ports.length && stands.length < most; order++) {
    const port = ports[order];
    const phase = phaseOf(traits, port);
    const hasSteps = traits.motif === 'stepped' || traits.motif === 'free';
    const step = hasSteps ? modulo(phase, traits.steps) : 0;
    const slot = traits.motif === 'free' ? order % FREE_SLOTS : 0;
    const key = 4 * slot + step;
    let drawn = routes.get(key);
    if (!drawn) {
      const route = pointsOf(traits, step, slot, pitch_mm);
      drawn = { route, swing_mm: swingOf(route) };
      routes.set(key, drawn);
    }
    const grade = graded
      ? Math.min(GRADES - 1, Math.round(((GRADES - 1) * port.distance_mm) / usable))
      : 0;
    const stand: Stand = {
      x_mm: port.x_mm,
      y_mm: port.y_mm,
      turn_deg: turnOf(traits, port, phase),
      mirrored: traits.motif === 'mirrored' && modulo(phase, 2) === 1,
      step,
      grade,
      slot,
      route: drawn.route,
    };
    const scale = graded ? gradeScale(traits, grade) : 1;
    if (standsFree(footprint, port, drawn.swing_mm, scale) || fits(footprint, stand, scale)) {
      stands.push(stand);
    }
  }
  return stands;
}

/** A route, and how far its points swing from its port [mm]. */
interface Drawn {
  readonly route: Route;
  readonly swing_mm: number;
}

function swingOf(route: Route): number {
  let square = 0;
  for (const [x, y] of route) square = Math.max(square, x * x + y * y);
  return Math.sqrt(square);
}

/** Radial turns to a billionth of a degree: ports a like turn apart then share their shape. */
function turnOf(traits: Traits, port: Port, phase: number): number {
  const facing =
    traits.lattice === 'rings' && traits.facesOutwards && port.row > 0
      ? Math.round(degrees(atan2(port.y_mm, port.x_mm)) * 1e9) / 1e9
      : traits.rotation_deg;
  return facing + (traits.motif === 'turned' ? 90 * modulo(phase, 4) : 0);
}

/**
 * Counts neighbours so that the next port of a row and the next row differ by a step. On the
 * hexagonal lattice three steps give three neighbours of three kinds.
 */
function phaseOf(traits: Traits, port: Port): number {
  if (traits.lattice !== 'hexagonal') return port.row + port.column;
  return port.column - Math.floor(port.row / 2) + 2 * port.row;
}

function modulo(n: number, m: number): number {
  return ((n % m) + m) % m;
}

/** What a channel takes up at its points, before it is scaled, turned and moved. */
interface Footprint {
  readonly plate: Plate;
  readonly wall_mm: number;
  /** Radius at inlet, bends and outlet, and what pockets add at the bends [mm]. */
  readonly inlet_mm: number;
  readonly bend_mm: number;
  readonly outlet_mm: number;
  readonly pocket_mm: number;
  /** Half length of a slot's middle line as drawn, in radii; 0 for other sections. */
  readonly alongX: number;
  readonly alongY: number;
  /** Turn last met, its cosine and sine: most channels of a plate share a few. */
  turn_deg: number;
  c: number;
  s: number;
}

function footprintOf(traits: Traits, plate: Plate, wall_mm: number): Footprint {
  const section = sectionOf(traits);
  const slopeX = traits.leanX_mm / traits.thickness_mm;
  const slopeY = traits.leanY_mm / traits.thickness_mm;
  let stretch = traits.endsAlongLean ? Math.sqrt(1 + slopeX * slopeX + slopeY * slopeY) : 1;
  if (section.kind === 'polygon') stretch *= circumradius(section, 2, 0);
  else if (section.kind === 'teardrop' && plate.build === 'edge') stretch *= apexDistance(2, 1);
  // A slot is a segment with round ends; the others are taken as circles.
  const half = section.kind === 'slot' ? section.aspect - 1 : 0;
  const radius = 0.5 * traits.bore_mm * stretch;
  return {
    plate,
    wall_mm,
    inlet_mm: radius * traits.inletBore,
    bend_mm: radius * traits.middleBore,
    outlet_mm: radius * traits.outletBore,
    pocket_mm: traits.pockets > 0 ? traits.pocketDepth_mm : 0,
    alongX: half * cosDeg(traits.roll_deg),
    alongY: half * sinDeg(traits.roll_deg),
    turn_deg: 0,
    c: 1,
    s: 0,
  };
}

/** Whether a port stands so free that its channel fits however it is turned: most do. */
function standsFree(footprint: Footprint, port: Port, swing_mm: number, scale: number): boolean {
  const { plate, wall_mm, inlet_mm, bend_mm, outlet_mm, pocket_mm, alongX, alongY } = footprint;
  const radius = scale * Math.max(inlet_mm, bend_mm, outlet_mm) + pocket_mm;
  const long = 1 + Math.sqrt(alongX * alongX + alongY * alongY);
  return isClear(plate, port.x_mm, port.y_mm, 0, 0, swing_mm + radius * long, wall_mm);
}

/** Whether openings and bends keep within the rim and clear of the mounting holes. */
function fits(footprint: Footprint, stand: Stand, scale: number): boolean {
  if (stand.turn_deg !== footprint.turn_deg) {
    footprint.turn_deg = stand.turn_deg;
    footprint.c = cosDeg(stand.turn_deg);
    footprint.s = sinDeg(stand.turn_deg);
  }
  const { plate, wall_mm, c, s, alongX, alongY } = footprint;
  const { route } = stand;
  const flip = stand.mirrored ? -1 : 1;
  const ax = c * flip * alongX - s * alongY;
  const ay = s * flip * alongX + c * alongY;
  let checked = -1;
  for (let i = 0; i < route.length; i++) {
    let radius = scale * footprint.bend_mm + footprint.pocket_mm;
    if (i === 0) radius = scale * footprint.inlet_mm;
    else if (i === route.length - 1) radius = scale * footprint.outlet_mm;
    // A straight upright channel takes up the same circle at both ends.
    if (i > 0 && route[i][0] === route[0][0] && route[i][1] === route[0][1] && radius <= checked) {
      continue;
    }
    if (i === 0) checked = radius;
    const px = flip * route[i][0];
    const py = route[i][1];
    const x = stand.x_mm + c * px - s * py;
    const y = stand.y_mm + s * px + c * py;
    if (!isClear(plate, x, y, radius * ax, radius * ay, radius, wall_mm)) return false;
  }
  return true;
}

/** Whether a segment (x, y) +- (ax, ay) with round ends lies within rim and clear of the holes. */
function isClear(
  plate: Plate,
  x: number,
  y: number,
  ax: number,
  ay: number,
  radius: number,
  wall_mm: number,
): boolean {
  const reach = radius + plate.rim_mm;
  if (insideDistance(plate.outline, x + ax, y + ay) < reach) return false;
  const square = ax * ax + ay * ay;
  if (square > 0 && insideDistance(plate.outline, x - ax, y - ay) < reach) return false;
  for (const hole of plate.holes) {
    const dx = hole.x_mm - x;
    const dy = hole.y_mm - y;
    const t = square > 0 ? (dx * ax + dy * ay) / square : 0;
    const share = Math.min(1, Math.max(-1, t));
    const gx = dx - share * ax;
    const gy = dy - share * ay;
    const least = radius + wall_mm + 0.5 * hole.diameter_mm;
    if (gx * gx + gy * gy < least * least) return false;
  }
  return true;
}
