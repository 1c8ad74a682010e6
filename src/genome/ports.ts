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
import type { Plate, Port, Section } from '../design/index.ts';
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
}

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
  // More channels than allowed are cut from outside, so a fine lattice need not reach the edge.
  const enough = Math.sqrt((3 * maxChannels * along_mm * across_mm) / Math.PI) + 2 * along_mm;
  let stands = keepFitting(layPorts(lattice, Math.min(radius, enough)), traits, plate, wall_mm);
  if (enough < radius && stands.length < maxChannels) {
    stands = keepFitting(layPorts(lattice, radius), traits, plate, wall_mm);
  }
  return stands.length > maxChannels ? stands.slice(0, maxChannels) : stands;
}

function keepFitting(
  ports: readonly Port[],
  traits: Traits,
  plate: Plate,
  wall_mm: number,
): Stand[] {
  const box = outlineBounds(plate.outline);
  const halfSize = 0.5 * Math.max(box.maxX_mm - box.minX_mm, box.maxY_mm - box.minY_mm);
  const usable = Math.max(halfSize - plate.rim_mm, 1e-6);
  const section = sectionOf(traits);
  const graded = gradingOf(traits) !== 0;
  const stands: Stand[] = [];
  const routes = new Map<number, Route>();
  for (let order = 0; order < ports.length; order++) {
    const port = ports[order];
    const distance = Math.sqrt(port.x_mm * port.x_mm + port.y_mm * port.y_mm);
    const grade = graded ? Math.min(GRADES - 1, Math.round(((GRADES - 1) * distance) / usable)) : 0;
    const stand = standAt(traits, port, grade, order);
    const key = 4 * stand.slot + stand.step;
    let route = routes.get(key);
    if (!route) {
      route = pointsOf(traits, stand.step, stand.slot);
      routes.set(key, route);
    }
    const scale = graded ? gradeScale(traits, grade) : 1;
    if (fits(traits, section, plate, stand, wall_mm, scale, route)) {
      stands.push(stand);
    }
  }
  return stands;
}

function standAt(traits: Traits, port: Port, grade: number, order: number): Stand {
  const { motif } = traits;
  const phase = phaseOf(traits, port);
  const outwards =
    traits.lattice === 'rings' && traits.facesOutwards && port.row > 0
      ? degrees(atan2(port.y_mm, port.x_mm))
      : traits.rotation_deg;
  return {
    x_mm: port.x_mm,
    y_mm: port.y_mm,
    turn_deg: outwards + (motif === 'turned' ? 90 * modulo(phase, 4) : 0),
    mirrored: motif === 'mirrored' && modulo(phase, 2) === 1,
    step: motif === 'stepped' || motif === 'free' ? modulo(phase, traits.steps) : 0,
    grade,
    slot: motif === 'free' ? order % FREE_SLOTS : 0,
  };
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

/** Whether openings and bends keep within the rim and clear of the mounting holes. */
function fits(
  traits: Traits,
  section: Section,
  plate: Plate,
  stand: Stand,
  wall_mm: number,
  scale: number,
  route: Route,
): boolean {
  const c = cosDeg(stand.turn_deg);
  const s = sinDeg(stand.turn_deg);
  const flip = stand.mirrored ? -1 : 1;
  const slopeX = traits.leanX_mm / traits.thickness_mm;
  const slopeY = traits.leanY_mm / traits.thickness_mm;
  const slant = traits.endsAlongLean ? Math.sqrt(1 + slopeX * slopeX + slopeY * slopeY) : 1;
  const bore = traits.bore_mm * scale;
  let stretch = slant;
  if (section.kind === 'polygon') stretch *= circumradius(section, 2, 0);
  else if (section.kind === 'teardrop' && plate.build === 'edge') stretch *= apexDistance(2, 1);
  // A slot is a segment with round ends; the others are taken as circles.
  let alongX = 0;
  let alongY = 0;
  if (section.kind === 'slot') {
    const rollX = flip * cosDeg(traits.roll_deg);
    const rollY = sinDeg(traits.roll_deg);
    alongX = (section.aspect - 1) * (c * rollX - s * rollY);
    alongY = (section.aspect - 1) * (s * rollX + c * rollY);
  }
  for (let i = 0; i < route.length; i++) {
    const share =
      i === 0 ? traits.inletBore : i === route.length - 1 ? traits.outletBore : traits.middleBore;
    const radius = 0.5 * bore * share * stretch;
    const px = flip * route[i][0];
    const py = route[i][1];
    const x = stand.x_mm + c * px - s * py;
    const y = stand.y_mm + s * px + c * py;
    if (!isClear(plate, x, y, radius * alongX, radius * alongY, radius, wall_mm)) return false;
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
