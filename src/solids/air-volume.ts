/** Volume of the air in a channel by integration, independent of any mesh. */
import { polarRadius, wallRadius } from '../design/index.ts';
import { cos, sin } from '../numeric/index.ts';
import type { PlateSamples } from '../design/index.ts';

/** Angles of the quadrature around a section. */
const ANGLES = 72;
const STEP = (2 * Math.PI) / ANGLES;
const COS = Float64Array.from({ length: ANGLES }, (_, j) => cos(STEP * j));
const SIN = Float64Array.from({ length: ANGLES }, (_, j) => sin(STEP * j));

/**
 * Air volume of a channel shape between the faces [mm3].
 *
 *   V = integral over s of (A - kappa . M) ds,  A = integral of r^2 / 2,  M = integral of r^3 / 3 (c, s)
 *
 * A is the section's area with pockets, M its first moment about the centreline, kappa the
 * curvature: the outer half of a bend is longer than the inner. Trapezoid over the stations.
 * Exact for symmetrical sections; valid while the channel is bent wider than it is high. At a
 * tilted end the oblique cut removes as much as it adds when the section is symmetrical there.
 *
 * Source: Pappus's centroid theorem, generalised to varying sections (Goodman & Goodman 1969).
 */
export function airVolume(samples: PlateSamples, shape: number): number {
  const { stations, area_mm2, length_mm } = samples;
  const isPlain = samples.pockets[shape].length === 0;
  const isCentred = isPlain && samples.sections[shape].kind !== 'teardrop';
  let sum = 0;
  for (let k = 0; k < stations; k++) {
    const row = shape * stations + k;
    const area = isCentred ? area_mm2[row] : offCentreArea(samples, shape, k);
    sum += k === 0 || k === stations - 1 ? area / 2 : area;
  }
  return (sum * length_mm[shape]) / (stations - 1);
}

/** A - kappa . M at a station. */
function offCentreArea(samples: PlateSamples, shape: number, station: number): number {
  const row = shape * samples.stations + station;
  const { first, second, curvature_per_mm: bend } = samples;
  const section = samples.sections[shape];
  let added = 0;
  let momentFirst = 0;
  let momentSecond = 0;
  for (let j = 0; j < ANGLES; j++) {
    const bare = polarRadius(section, samples.bore_mm[row], samples.roof[row], COS[j], SIN[j]);
    const r = wallRadius(samples, shape, station, STEP * j, COS[j], SIN[j]);
    added += (r * r - bare * bare) / 2;
    momentFirst += (r * r * r * COS[j]) / 3;
    momentSecond += (r * r * r * SIN[j]) / 3;
  }
  let pull = 0;
  for (let d = 3 * row; d < 3 * row + 3; d++) {
    pull += bend[d] * (first[d] * momentFirst + second[d] * momentSecond);
  }
  return samples.area_mm2[row] + STEP * (added - pull);
}
