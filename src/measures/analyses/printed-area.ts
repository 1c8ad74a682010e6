/**
 * Area of a section whose wall has closed in by half the shrinkage of its bore [mm2].
 *
 *   A - P i + pi i^2,  i = shrinkage/2
 *
 * @example printedArea(25 * Math.PI, 10 * Math.PI, 2) // 50.2655
 * Source: parallel bodies of convex sections (Steiner); exact for rounds and slots, and within 1 % for
 * polygons at a tenth of the bore.
 */
export function printedArea(area_mm2: number, perimeter_mm: number, shrinkage_mm: number): number {
  const inwards = 0.5 * shrinkage_mm;
  return area_mm2 - perimeter_mm * inwards + Math.PI * inwards * inwards;
}
