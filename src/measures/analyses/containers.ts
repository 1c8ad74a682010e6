/** The regular openings that contain a section, per millimetre of bore. */
import { apexDistance, circumradius, cosDeg, sectionSupport, sinDeg } from '../../design/index.ts';
import type { Section } from '../../design/index.ts';
import type { Containers } from '../../physics/index.ts';

/** Directions looked at within a quarter turn: squares come out at most 0.1 % too large. */
const TURNS = 180;

const polygons = new Map<number, Containers>();

/**
 * Narrowest slot, smallest square and smallest round opening that contain a section of bore 1 mm.
 * A bore of b needs b times as much.
 *
 * A teardrop's flanks lie on the square about its circle: it fits that square for every roof.
 *
 * @example containersOf({ kind: 'slot', aspect: 3 }, 0).round // 3
 * @example containersOf({ kind: 'polygon', sides: 4 }, 0).square // 1
 * Source: plane geometry.
 */
export function containersOf(section: Section, roof: number): Containers {
  switch (section.kind) {
    case 'round':
      return ROUND;
    case 'teardrop':
      return { slot: 1, square: 1, round: 0.5 + apexDistance(1, roof) };
    case 'slot': {
      const { aspect } = section;
      return { slot: 1, square: 1 + (aspect - 1) * Math.SQRT1_2, round: aspect };
    }
    case 'polygon': {
      let known = polygons.get(section.sides);
      if (known === undefined) {
        known = aboutPolygon(section);
        polygons.set(section.sides, known);
      }
      return known;
    }
    default:
      return unknownSection(section);
  }
}

const ROUND: Containers = { slot: 1, square: 1, round: 1 };

function aboutPolygon(section: Section): Containers {
  let slot = Infinity;
  let square = Infinity;
  for (let i = 0; i <= TURNS; i++) {
    const turn_deg = (90 * i) / TURNS;
    const width = widthAt(section, turn_deg);
    const height = widthAt(section, turn_deg + 90);
    slot = Math.min(slot, width, height);
    square = Math.min(square, Math.max(width, height));
  }
  return { slot, square, round: 2 * circumradius(section, 1, 0) };
}

function widthAt(section: Section, turn_deg: number): number {
  const c = cosDeg(turn_deg);
  const s = sinDeg(turn_deg);
  return sectionSupport(section, 1, 0, c, s) + sectionSupport(section, 1, 0, -c, -s);
}

function unknownSection(section: never): never {
  throw new Error(`Unknown section ${JSON.stringify(section)}.`);
}
