/** The part of a section's wall that hangs over, in closed form: one station of the fast estimate. */
import { apexDistance } from '../design/index.ts';
import type { Section } from '../design/index.ts';
import { cos, sin, tan } from '../numeric/index.ts';

/** Overhanging roof of one section. */
export interface Roof {
  /** Overhanging length of the section's perimeter [mm]. */
  length_mm: number;
  /** Width of the opening that the overhanging roof closes [mm]. */
  width_mm: number;
  /** The roof's flat share of the width [mm]; the rest is curved and closes in by steps. */
  flat_mm: number;
  /** Greatest normal . up of the roof [0..1]. */
  up: number;
}

/**
 * acos for 0 <= x <= 1 to 7e-5 rad: the estimate asks for it at every lying station.
 *
 * Source: Abramowitz & Stegun 1964, 4.4.45 (coefficients from memory, error tested).
 */
export function quickAcos(x: number): number {
  return Math.sqrt(1 - x) * (1.5707288 + x * (-0.2121144 + x * (0.074261 - 0.0187293 * x)));
}

const SIDE_NORMALS: readonly (readonly [Float64Array, Float64Array])[] = Array.from(
  { length: 13 },
  (_, n) => [
    Float64Array.from({ length: n }, (_side, i) => cos((2 * Math.PI * i) / n)),
    Float64Array.from({ length: n }, (_side, i) => sin((2 * Math.PI * i) / n)),
  ],
);
const SIDE_LENGTHS = Float64Array.from({ length: 13 }, (_, n) =>
  n < 3 ? 0 : 2 * tan(Math.PI / n),
);

/**
 * Overhanging roof of a section, its wall taken as running along the tangent.
 *
 * With c = sqrt(1 - (t . up)^2) the wall at angle phi from the top rises with normal c cos(phi);
 * it hangs over for phi < phi0 = acos(sin(limit) / c). Round: length 2 R phi0, width 2 R sin(phi0).
 * A teardrop's roof takes the arc within phiA, cos(phiA) = R / apex, and hangs over only when
 * phiA < phi0. Slots and polygons: their flat sides one by one.
 *
 * @param firstUp @param secondUp the frame's axes times the build direction.
 * @param limitSine sine of the overhang limit; must be below c.
 */
export function sectionRoof(
  section: Section,
  bore_mm: number,
  roof: number,
  firstUp: number,
  secondUp: number,
  limitSine: number,
  out: Roof,
): void {
  const r = 0.5 * bore_mm;
  out.flat_mm = 0;
  if (section.kind === 'polygon') {
    polygonRoof(section.sides, r, firstUp, secondUp, limitSine, out);
    return;
  }
  out.up = Math.sqrt(firstUp * firstUp + secondUp * secondUp);
  const x = limitSine / out.up;
  const phi = quickAcos(x);
  const half = Math.sqrt(1 - x * x);
  out.length_mm = 2 * r * phi;
  out.width_mm = 2 * r * half;
  if (section.kind === 'teardrop' && roof > 0) {
    const a = apexDistance(bore_mm, roof) / r;
    const shade = quickAcos(1 / a);
    if (shade >= phi - 1e-4) {
      out.length_mm = 0;
      out.width_mm = 0;
    } else {
      out.length_mm = 2 * r * (phi - shade + Math.sqrt(a * a - 1));
      out.up /= a;
    }
  } else if (section.kind === 'slot' && Math.abs(secondUp) > limitSine) {
    out.flat_mm = 2 * r * (section.aspect - 1);
    out.up = Math.abs(secondUp);
    out.length_mm += out.flat_mm;
    out.width_mm += out.flat_mm;
  }
}

function polygonRoof(
  sides: number,
  r: number,
  firstUp: number,
  secondUp: number,
  limitSine: number,
  out: Roof,
): void {
  const [c, s] = SIDE_NORMALS[sides];
  const across = Math.sqrt(firstUp * firstUp + secondUp * secondUp);
  let length = 0;
  let width = 0;
  let steepest = 0;
  for (let i = 0; i < sides; i++) {
    const up = firstUp * c[i] + secondUp * s[i];
    if (up <= limitSine) continue;
    steepest = Math.max(steepest, up);
    length += SIDE_LENGTHS[sides] * r;
    width += (SIDE_LENGTHS[sides] * r * up) / across;
  }
  out.length_mm = length;
  out.width_mm = width;
  out.flat_mm = width;
  out.up = steepest;
}
