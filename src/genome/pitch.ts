/** How far apart the ports of a decoded plate stand. */
import { apexDistance, cosDeg, sectionSupport, sinDeg } from '../design/index.ts';
import type { Section } from '../design/index.ts';
import type { Traits } from './traits.ts';

/** Sizes of bore between centre and edge of a graded plate. */
export const GRADES = 8;
const DEAD_BAND = 0.05;

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

/** Directions in which two ports may be parted by a straight ligament [deg]. */
const PARTINGS_DEG = [0, 15, 30, 45, 60, 75, 90, 105, 120, 135, 150, 165];

/**
 * Distances between neighbours along a row (or between rings) and between rows (or along a ring),
 * such that a straight ligament fits between any two neighbours [mm].
 *
 * Two convex ports whose centres are (dx, dy) apart leave a ligament w across direction u when
 * dx u_x + dy u_y >= width(u) + w. Rows and columns stand at the least distances for which each
 * neighbour has such a direction.
 */
export function pitches(traits: Traits): { along_mm: number; across_mm: number } {
  // Leaning channels pass each other at the cosine of their lean; between ends normal to the
  // faces they lean half as steep again.
  const steep = (traits.endsAlongLean ? 1 : 1.5) / traits.thickness_mm;
  const leanX = traits.leanX_mm * steep;
  const leanY = traits.leanY_mm * steep;
  const stretchX = Math.sqrt(1 + leanX * leanX);
  const stretchY = Math.sqrt(1 + leanY * leanY);
  const need = PARTINGS_DEG.map((angle) => widthAt(traits, angle) + traits.ligament_mm);
  if (traits.lattice === 'rings') {
    if (traits.facesOutwards) {
      return { along_mm: need[0] * stretchX, across_mm: need[6] * stretchY };
    }
    const both = Math.max(...need) * Math.max(stretchX, stretchY);
    return { along_mm: both, across_mm: both };
  }
  let along = Infinity;
  for (let i = 0; i < need.length; i++) {
    const c = Math.abs(cosDeg(PARTINGS_DEG[i]));
    if (c > 0.4) along = Math.min(along, need[i] / c);
  }
  const shift = traits.lattice === 'hexagonal' ? 0.5 : traits.stagger;
  let across = 0.5 * rowDistance(need, 0);
  for (const columns of [shift - 1, shift, shift + 1]) {
    across = Math.max(across, rowDistance(need, columns * along));
  }
  return { along_mm: along * stretchX, across_mm: across * stretchY };
}

/** Least distance of two rows for ports `dx` apart along them [mm]. */
function rowDistance(need: readonly number[], dx: number): number {
  let least = Infinity;
  for (let i = 1; i < need.length; i++) {
    const angle = PARTINGS_DEG[i];
    least = Math.min(least, (need[i] - dx * cosDeg(angle)) / sinDeg(angle));
  }
  return Math.max(least, 0);
}

/** Width of the widest port across a direction of the lattice [mm]. */
function widthAt(traits: Traits, angle_deg: number): number {
  const widest = Math.max(traits.inletBore, traits.middleBore, traits.outletBore);
  const bore = traits.bore_mm * widest * (1 + Math.abs(gradingOf(traits)));
  const section = sectionOf(traits);
  if (section.kind === 'teardrop') {
    if (traits.build === 'flat') return bore;
    // On edge the roof points to +y of the plate, wherever the lattice is turned to.
    const up = sinDeg(angle_deg + traits.rotation_deg);
    return 0.5 * bore + Math.max(0.5 * bore, Math.abs(up) * apexDistance(bore, 1));
  }
  const c = cosDeg(angle_deg - traits.roll_deg);
  const s = sinDeg(angle_deg - traits.roll_deg);
  return sectionSupport(section, bore, 0, c, s) + sectionSupport(section, bore, 0, -c, -s);
}
