/**
 * Cross-sections: what a section's outline is in its own frame.
 *
 * Every function takes the section, its bore (diameter of the inscribed circle, R = bore / 2) and
 * the teardrop's roof (0 = plain circle, 1 = flanks at 45 degrees; ignored by other sections). A
 * direction is given by its cosine and sine in the frame (first, second). All outlines are convex,
 * star-shaped about the centreline, and nothing here allocates.
 */
import { PI, SQRT2, acos, cos, sin, tan } from './angles.ts';
import type { Section } from './model.ts';

/** Fewest and most sides of a polygonal section. */
export const POLYGON_SIDES = { min: 3, max: 12 } as const;

/** Unit normals of the sides and unit directions of the corners, for each number of sides. */
interface PolygonTable {
  readonly normal: Float64Array; // [n x 2]
  readonly corner: Float64Array; // [n x 2]
  /** Circumradius over inradius, 1 / cos(pi / n). */
  readonly stretch: number;
  /** tan(pi / n). */
  readonly tangent: number;
}

function polygonTable(sides: number): PolygonTable {
  const normal = new Float64Array(2 * sides);
  const corner = new Float64Array(2 * sides);
  for (let i = 0; i < sides; i++) {
    const side = (2 * PI * i) / sides;
    normal[2 * i] = cos(side);
    normal[2 * i + 1] = sin(side);
    corner[2 * i] = cos(side + PI / sides);
    corner[2 * i + 1] = sin(side + PI / sides);
  }
  return { normal, corner, stretch: 1 / cos(PI / sides), tangent: tan(PI / sides) };
}

const POLYGONS: readonly PolygonTable[] = Array.from({ length: POLYGON_SIDES.max + 1 }, (_, n) =>
  polygonTable(Math.max(n, POLYGON_SIDES.min)),
);

/**
 * Distance of a teardrop's apex from the centreline [mm].
 *
 *   a = R (1 + (sqrt 2 - 1) roof)
 *
 * @example apexDistance(10, 0) // 5
 * @example apexDistance(10, 1) // 7.0710678
 */
export function apexDistance(bore_mm: number, roof: number): number {
  return 0.5 * bore_mm * (1 + (SQRT2 - 1) * roof);
}

/**
 * Greatest distance from the centreline to the section's outline [mm].
 *
 * @example circumradius({ kind: 'slot', aspect: 3 }, 4, 0) // 6
 */
export function circumradius(section: Section, bore_mm: number, roof: number): number {
  const r = 0.5 * bore_mm;
  switch (section.kind) {
    case 'round':
      return r;
    case 'teardrop':
      return apexDistance(bore_mm, roof);
    case 'slot':
      return r * section.aspect;
    case 'polygon':
      return r * POLYGONS[section.sides].stretch;
    default:
      return unknownSection(section);
  }
}

/**
 * Area of the section [mm2].
 *
 *   round pi R^2; slot R^2 (pi + 4 (aspect - 1)); polygon n R^2 tan(pi / n);
 *   teardrop R^2 (pi - phi + tan phi), cos phi = R / a
 *
 * @example sectionArea({ kind: 'polygon', sides: 4 }, 5, 0) // 25
 * @example sectionArea({ kind: 'teardrop' }, 2, 1) // 3.35619449
 * Source: plane geometry.
 */
export function sectionArea(section: Section, bore_mm: number, roof: number): number {
  const r = 0.5 * bore_mm;
  return r * r * halfGirth(section, roof);
}

/**
 * Wetted perimeter of the section [mm].
 *
 * Every side of a round, polygonal or teardrop section touches the inscribed circle, hence
 * perimeter = 2 area / R and a hydraulic diameter equal to the bore. Slot: R (2 pi + 4 (aspect - 1)).
 *
 * @example sectionPerimeter({ kind: 'polygon', sides: 4 }, 5, 0) // 20
 * @example sectionPerimeter({ kind: 'slot', aspect: 2 }, 2, 0) // 10.28318531
 * Source: plane geometry.
 */
export function sectionPerimeter(section: Section, bore_mm: number, roof: number): number {
  const r = 0.5 * bore_mm;
  if (section.kind === 'slot') return r * (2 * PI + 4 * (section.aspect - 1));
  return 2 * r * halfGirth(section, roof);
}

/** Area over R^2. */
function halfGirth(section: Section, roof: number): number {
  switch (section.kind) {
    case 'round':
      return PI;
    case 'teardrop': {
      if (roof === 0) return PI;
      const a = 1 + (SQRT2 - 1) * roof;
      return PI - acos(1 / a) + Math.sqrt(a * a - 1);
    }
    case 'slot':
      return PI + 4 * (section.aspect - 1);
    case 'polygon':
      return section.sides * POLYGONS[section.sides].tangent;
    default:
      return unknownSection(section);
  }
}

/**
 * Support function [mm]: how far the section reaches in a direction,
 * h(u) = max over its points p of p . u, for u = (c, s) of unit length.
 *
 *   round R; slot R + (aspect - 1) R |c|; teardrop max(R, a s); polygon: its furthest corner
 *
 * @example sectionSupport({ kind: 'slot', aspect: 2 }, 4, 0, 1, 0) // 4
 * @example sectionSupport({ kind: 'teardrop' }, 4, 1, 0, 1) // 2.82842712
 * Source: convex geometry.
 */
export function sectionSupport(
  section: Section,
  bore_mm: number,
  roof: number,
  c: number,
  s: number,
): number {
  const r = 0.5 * bore_mm;
  switch (section.kind) {
    case 'round':
      return r;
    case 'teardrop':
      return Math.max(r, s * apexDistance(bore_mm, roof));
    case 'slot':
      return r + (section.aspect - 1) * r * Math.abs(c);
    case 'polygon': {
      const table = POLYGONS[section.sides];
      return r * table.stretch * greatestDot(table.corner, c, s);
    }
    default:
      return unknownSection(section);
  }
}

/**
 * Polar radius [mm]: distance from the centreline to the outline in the direction (c, s).
 *
 * @example polarRadius({ kind: 'round' }, 4, 0, 1, 0) // 2
 * @example polarRadius({ kind: 'slot', aspect: 2 }, 4, 0, 1, 0) // 4
 * Source: plane geometry.
 */
export function polarRadius(
  section: Section,
  bore_mm: number,
  roof: number,
  c: number,
  s: number,
): number {
  const r = 0.5 * bore_mm;
  switch (section.kind) {
    case 'round':
      return r;
    case 'teardrop': {
      const a = 1 + (SQRT2 - 1) * roof;
      // The flanks start where the ray leaves the circle above the tangent points, s = R / a.
      if (s * a <= 1) return r;
      return (r * a) / (s + Math.sqrt(a * a - 1) * Math.abs(c));
    }
    case 'slot': {
      const e = (section.aspect - 1) * r;
      const along = Math.abs(c);
      const across = Math.abs(s);
      if (along * r <= e * across) return r / across;
      return e * along + Math.sqrt(Math.max(0, r * r - e * e * s * s));
    }
    case 'polygon':
      return r / greatestDot(POLYGONS[section.sides].normal, c, s);
    default:
      return unknownSection(section);
  }
}

function greatestDot(directions: Float64Array, c: number, s: number): number {
  let best = -1;
  for (let i = 0; i < directions.length; i += 2) {
    const dot = directions[i] * c + directions[i + 1] * s;
    if (dot > best) best = dot;
  }
  return best;
}

function unknownSection(section: never): never {
  throw new Error(`Unknown section ${JSON.stringify(section)}.`);
}
