/**
 * Probes of enclosure ratings: spheres, the jointed test finger, rod and wire.
 *
 * Not a conformity statement: from memory and one public summary, the standard was not read. A test
 * is done on the mounted plate by a qualified person.
 */

/** Diameters of the access probes [mm]. Source: IEC 60529, from memory and one public summary. */
export const PROBES = {
  hand_mm: 50,
  sphere_mm: 12.5,
  finger_mm: 12,
  fingerLength_mm: 80,
  rod_mm: 2.5,
  wire_mm: 1,
} as const;

/**
 * How far the rounded tip of the finger enters an opening too narrow for the whole of it [mm]. Own
 * allowance, no source: its tip is a cone of some 10 mm.
 */
const TIP_mm = 10;

/** First digit of an enclosure rating against access, by the largest sphere that passes. */
export type AccessRating = 'none' | 'IP1X' | 'IP2X' | 'IP3X' | 'IP4X';

/**
 * The highest first digit that the size of the opening alone allows.
 *
 * IP1X: sphere 50 mm; IP2X: sphere 12.5 mm must not pass and the jointed finger keeps clear of the
 * hazard; IP3X: rod 2.5 mm; IP4X: wire 1.0 mm must not enter. A bend is no credit against a finger.
 *
 * @param opening_mm largest sphere that passes, tolerance included.
 * @example accessRating(6) // 'IP2X'
 * Source: IEC 60529, from memory and one public summary.
 */
export function accessRating(opening_mm: number): AccessRating {
  if (opening_mm < PROBES.wire_mm) return 'IP4X';
  if (opening_mm < PROBES.rod_mm) return 'IP3X';
  if (opening_mm < PROBES.sphere_mm) return 'IP2X';
  return opening_mm < PROBES.hand_mm ? 'IP1X' : 'none';
}

/**
 * How far the jointed finger comes out beyond an opening [mm]: its tip where the opening is narrower
 * than the finger, else all of it.
 *
 * @example fingerReach(8) // 10
 * @example fingerReach(12.2) // 80
 * Source: finger 12 x 80 mm of IEC 60529, from memory; what the tip enters is an own allowance.
 */
export function fingerReach(opening_mm: number): number {
  return opening_mm < PROBES.finger_mm ? TIP_mm : PROBES.fingerLength_mm;
}

/**
 * How far a sphere of 50 mm dips into an opening that does not let it pass [mm].
 *
 *   R - sqrt(R^2 - (e / 2)^2)
 *
 * @example sphereDip(30) // 5
 * Source: plane geometry; sphere of IEC 60529, from memory.
 */
export function sphereDip(opening_mm: number): number {
  const r = 0.5 * PROBES.hand_mm;
  const half = Math.min(r, 0.5 * opening_mm);
  return r - Math.sqrt(r * r - half * half);
}

/**
 * Estimate of the first digit [0..4] that one place of an opening gives: whoever is held up there
 * keeps clear of the hazard behind it.
 *
 * 4: narrower than the wire; 3: than the rod; 2: than the sphere of 12.5 mm, and the finger ends
 * short of the hazard; 1: than the sphere of 50 mm, and it ends short of the hazard; else 0.
 *
 * @param opening_mm largest sphere that passes the place, tolerance included.
 * @param clear_mm straight distance from the place to the hazard.
 * @example accessDigit(6, 15) // 2
 * @example accessDigit(6, 8) // 1
 * @example accessDigit(12.2, 60) // 1
 * @example accessDigit(2, 0) // 3
 * Source: IEC 60529, from memory and one public summary; finger as in `fingerReach`.
 */
export function accessDigit(opening_mm: number, clear_mm: number): number {
  if (opening_mm < PROBES.wire_mm) return 4;
  if (opening_mm < PROBES.rod_mm) return 3;
  if (opening_mm < PROBES.sphere_mm && fingerReach(opening_mm) < clear_mm) return 2;
  return opening_mm < PROBES.hand_mm && sphereDip(opening_mm) < clear_mm ? 1 : 0;
}
