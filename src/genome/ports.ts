/** Where the channels of a decoded plate stand: lattice, motif, and what fits the plate. */
import {
  apexDistance,
  cosDeg,
  insideDistance,
  layPorts,
  outlineBounds,
  sectionSupport,
  sinDeg,
} from '../design/index.ts';
import type { Plate, Port, Section } from '../design/index.ts';
import { atan2, degrees } from '../numeric/index.ts';
import type { Traits } from './traits.ts';

/** Sizes of bore between centre and edge of a graded plate. */
export const GRADES = 8;
const DEAD_BAND = 0.05;

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
  /** Slot of own offsets in a free motif. */
  readonly slot: number;
}

export function sectionOf(traits: Traits): Section {
  switch (traits.section) {
    case 'slot':
      return { kind: 'slot', aspect: traits.slotAspect };
    case 'polygon':
      return { kind: 'polygon', sides: traits.sides };
    case 'round':
    case 'teardrop':
      return { kind: traits.section };
    default: {
      const unknown: never = traits.section;
      throw new Error(`Unknown section ${String(unknown)}.`);
    }
  }
}

/** Grading beyond the band within which all channels are alike. */
export function gradingOf(traits: Traits): number {
  const { grading } = traits;
  return Math.sign(grading) * Math.max(0, Math.abs(grading) - DEAD_BAND);
}

/** Bore of a size class over the nominal bore. */
export function gradeScale(traits: Traits, grade: number): number {
  return 1 + gradingOf(traits) * ((2 * grade) / (GRADES - 1) - 1);
}

/** Distances between neighbours along a row and between rows [mm]. */
export function pitches(traits: Traits): { along_mm: number; across_mm: number } {
  const widest = Math.max(traits.inletBore, traits.middleBore, traits.outletBore);
  const bore = traits.bore_mm * widest * (1 + Math.abs(gradingOf(traits)));
  const section = sectionOf(traits);
  // Leaning channels pass each other at the cosine of their lean; between ends normal to the
  // faces they lean half as steep again.
  const steep = (traits.endsAlongLean ? 1 : 1.5) / traits.thickness_mm;
  const leanX = traits.leanX_mm * steep;
  const leanY = traits.leanY_mm * steep;
  const width = extent(traits, section, bore, 1, 0) + traits.ligament_mm;
  const height = extent(traits, section, bore, 0, 1) + traits.ligament_mm;
  const along = width * Math.sqrt(1 + leanX * leanX);
  const across = height * Math.sqrt(1 + leanY * leanY);
  if (traits.lattice === 'rings') {
    if (traits.facesOutwards) return { along_mm: along, across_mm: across };
    const both = Math.max(along, across);
    return { along_mm: both, across_mm: both };
  }
  if (traits.lattice === 'square') return { along_mm: along, across_mm: across };
  // Half a pitch aside, the next row may come closer: its ports are segments with round ends.
  const least = Math.min(width, height);
  const flatX = (width - least) * (along / width);
  const flatY = (height - least) * (across / height);
  const aside = Math.max(0, 0.5 * along - flatX);
  const nearest = (least * across) / height;
  const gap = Math.min(aside / (along / width), least);
  const rise = Math.sqrt(Math.max(0, least * least - gap * gap));
  return { along_mm: along, across_mm: flatY + (rise * nearest) / least };
}

/** Width of the section in a direction of the lattice [mm]. */
function extent(traits: Traits, section: Section, bore: number, x: number, y: number): number {
  if (section.kind === 'teardrop') {
    if (traits.build === 'flat') return bore;
    // On edge the roof points to +y of the plate, wherever the lattice is turned to.
    const up = x * sinDeg(traits.rotation_deg) + y * cosDeg(traits.rotation_deg);
    return 0.5 * bore + Math.max(0.5 * bore, Math.abs(up) * apexDistance(bore, 1));
  }
  const c = cosDeg(traits.roll_deg);
  const s = sinDeg(traits.roll_deg);
  const u = x * c + y * s;
  const v = y * c - x * s;
  return sectionSupport(section, bore, 0, u, v) + sectionSupport(section, bore, 0, -u, -v);
}

/**
 * All channels that stand on the plate, from the centre outwards. A port counts when both its
 * openings lie within the rim and clear of the mounting holes by the minimum wall; beyond
 * `maxChannels` the outermost are dropped.
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
  for (const port of ports) {
    const distance = Math.sqrt(port.x_mm * port.x_mm + port.y_mm * port.y_mm);
    const grade = graded ? Math.min(GRADES - 1, Math.round(((GRADES - 1) * distance) / usable)) : 0;
    const stand = standAt(traits, port, grade, stands.length);
    if (fits(traits, section, plate, stand, wall_mm, graded ? gradeScale(traits, grade) : 1)) {
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
    slot: order,
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

/** Whether both openings keep within the rim and clear of the mounting holes. */
function fits(
  traits: Traits,
  section: Section,
  plate: Plate,
  stand: Stand,
  wall_mm: number,
  scale: number,
): boolean {
  const c = cosDeg(stand.turn_deg);
  const s = sinDeg(stand.turn_deg);
  const flip = stand.mirrored ? -1 : 1;
  const leanX = 0.5 * flip * traits.leanX_mm;
  const leanY = 0.5 * traits.leanY_mm;
  const shiftX = c * leanX - s * leanY;
  const shiftY = s * leanX + c * leanY;
  const slope = (2 * Math.sqrt(leanX * leanX + leanY * leanY)) / traits.thickness_mm;
  const stretch = traits.endsAlongLean ? Math.sqrt(1 + slope * slope) : 1;
  const bore = traits.bore_mm * scale * Math.max(traits.inletBore, traits.outletBore);
  let radius = 0.5 * bore * stretch;
  let alongX = 0;
  let alongY = 0;
  if (section.kind === 'slot') {
    const half = (section.aspect - 1) * radius;
    const rollX = flip * cosDeg(traits.roll_deg);
    const rollY = sinDeg(traits.roll_deg);
    alongX = half * (c * rollX - s * rollY);
    alongY = half * (s * rollX + c * rollY);
  } else if (section.kind === 'polygon') {
    radius *= sectionSupport(
      section,
      2,
      0,
      cosDeg(180 / section.sides),
      sinDeg(180 / section.sides),
    );
  } else if (section.kind === 'teardrop' && plate.build === 'edge') {
    radius = apexDistance(2 * radius, 1);
  }
  for (const end of [-1, 1]) {
    const x = stand.x_mm + end * shiftX;
    const y = stand.y_mm + end * shiftY;
    for (const side of [-1, 1]) {
      const inside = insideDistance(plate.outline, x + side * alongX, y + side * alongY);
      if (inside - plate.rim_mm < radius) return false;
    }
    for (const hole of plate.holes) {
      const dx = hole.x_mm - x;
      const dy = hole.y_mm - y;
      const square = alongX * alongX + alongY * alongY;
      const t = square > 0 ? (dx * alongX + dy * alongY) / square : 0;
      const share = Math.min(1, Math.max(-1, t));
      const gx = dx - share * alongX;
      const gy = dy - share * alongY;
      if (Math.sqrt(gx * gx + gy * gy) - 0.5 * hole.diameter_mm - wall_mm < radius) return false;
    }
  }
  return true;
}
