/** The plate's own rings: its outer edge and its mounting holes. */
import { cos, sin } from '../numeric/index.ts';
import { outlinePolygon } from '../design/index.ts';
import type { Plate } from '../design/index.ts';

/** Greatest distance between an arc and its chords [mm]. */
const ARC_TOLERANCE_MM = 0.01;
const HOLE_SIDES = { min: 24, max: 96 } as const;

/** Counter-clockwise rings, x y per point [mm]; the outline first, then the mounting holes. */
interface PlateRings {
  readonly outline: Float64Array;
  readonly holes: readonly Float64Array[];
  /** Area within the outline as drawn, less the true circles of the holes [mm2]. */
  readonly area_mm2: number;
}

/** Rings of a plate. Holes are polygons of the true circle's area, so that screws still pass. */
export function plateRings(plate: Plate): PlateRings {
  const outline = Float64Array.from(outlinePolygon(plate.outline, ARC_TOLERANCE_MM).flat());
  const holes = plate.holes.map((hole) => {
    const r = hole.diameter_mm / 2;
    // Sagitta of n chords: r (1 - cos(pi / n)), about r pi^2 / (2 n^2).
    const wanted = Math.PI * Math.sqrt(r / (2 * ARC_TOLERANCE_MM));
    const n = Math.min(HOLE_SIDES.max, Math.max(HOLE_SIDES.min, 4 * Math.ceil(wanted / 4)));
    const step = (2 * Math.PI) / n;
    const grown = r * Math.sqrt(step / sin(step));
    return Float64Array.from({ length: 2 * n }, (_, k) => {
      const angle = step * Math.floor(k / 2);
      return k % 2 === 0 ? hole.x_mm + grown * cos(angle) : hole.y_mm + grown * sin(angle);
    });
  });
  let holeArea = 0;
  for (const hole of plate.holes) holeArea += (Math.PI * hole.diameter_mm * hole.diameter_mm) / 4;
  return {
    outline,
    holes,
    area_mm2: ringArea(outline) - holeArea,
  };
}

/**
 * Area of a ring, positive when counter-clockwise [mm2].
 *
 * @param ring x y per point.
 * Source: Green's theorem.
 */
function ringArea(ring: ArrayLike<number>): number {
  let twice = 0;
  for (let j = 0, p = ring.length - 2; j < ring.length; p = j, j += 2) {
    twice += ring[p] * ring[j + 1] - ring[j] * ring[p + 1];
  }
  return twice / 2;
}
