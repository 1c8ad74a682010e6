/** Sections and bores of a plate with side exits. */
import type { Brief } from '../brief/index.ts';
import { apexDistance, circumradius, cosDeg } from '../design/index.ts';
import type { Section } from '../design/index.ts';
import { boreRange } from './genes.ts';
import type { SideTraits } from './side-traits.ts';

/** Section of every channel. */
export function sideSection(traits: SideTraits): Section {
  if (traits.section === 'slot') return { kind: 'slot', aspect: traits.slotAspect };
  if (traits.section === 'polygon') return { kind: 'polygon', sides: traits.sides };
  return { kind: traits.section };
}

/** How far a lying section of some bore reaches downwards and upwards [mm]. */
export function lyingReach(traits: SideTraits, bore_mm: number): readonly [number, number] {
  const section = sideSection(traits);
  switch (section.kind) {
    case 'teardrop':
      return [0.5 * bore_mm, traits.build === 'flat' ? apexDistance(bore_mm, 1) : 0.5 * bore_mm];
    case 'slot': {
      const half = 0.5 * bore_mm * (1 + (section.aspect - 1) * Math.abs(cosDeg(traits.roll_deg)));
      return [half, half];
    }
    case 'polygon': {
      const half = circumradius(section, bore_mm, 0);
      return [half, half];
    }
    case 'round':
      return [0.5 * bore_mm, 0.5 * bore_mm];
    default: {
      const never: never = section;
      return never;
    }
  }
}

/** Bores at inlet, middle and outlet, kept within the brief's span. */
export function sideBores(brief: Brief, nominal_mm: number, shares: readonly number[]): number[] {
  const [least, largest] = boreRange(brief);
  const bores = shares.map((share) => Math.min(largest, Math.max(least, share * nominal_mm)));
  return bores.every((bore) => bore === bores[0]) ? [bores[0]] : bores;
}
