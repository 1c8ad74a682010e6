/** Volume of the air in a channel by integration, independent of any mesh. */
import { polarRadius, wallRadius } from '../design/index.ts';
import { cos, sin } from '../numeric/index.ts';
import type { PlateSamples } from '../design/index.ts';

/** Angles of the quadrature around a section. */
const ANGLES = 72;
const STEP = (2 * Math.PI) / ANGLES;
const COS = Float64Array.from({ length: ANGLES }, (_, j) => cos(STEP * j));
const SIN = Float64Array.from({ length: ANGLES }, (_, j) => sin(STEP * j));
/** An end this upright has its section in the face. */
const UPRIGHT = 1 - 1e-9;

/**
 * Air volume of a channel shape between the faces [mm3].
 *
 *   V = integral over s and over the section, where 0 <= z <= thickness, of (1 - kappa . q) dA ds
 *
 * q is a point's offset from the centreline and kappa the curvature: the outer half of a bend is
 * longer than the inner. Ends go on straight with the end's section until they have left the plate,
 * so that tilted ends are cut obliquely. Trapezoid over the stations and 72 rays around, scaled so
 * that the bare section has its exact area. Valid while the channel is bent wider than it is high.
 *
 * Source: Pappus's centroid theorem, generalised to varying sections (Goodman & Goodman 1969).
 */
export function airVolume(samples: PlateSamples, shape: number): number {
  const { stations, area_mm2, length_mm, tangent } = samples;
  const last = stations - 1;
  const row = shape * stations;
  const step = length_mm[shape] / last;
  const isUpright = tangent[3 * row + 2] > UPRIGHT && tangent[3 * (row + last) + 2] > UPRIGHT;
  const isPlain = samples.pockets[shape].length === 0;
  const isCentred = isUpright && isPlain && samples.sections[shape].kind !== 'teardrop';
  let sum = 0;
  for (let k = 0; k < stations; k++) {
    const area = isCentred
      ? area_mm2[row + k]
      : areaInside(samples, shape, k, isUpright ? null : 0);
    sum += k === 0 || k === last ? area / 2 : area;
  }
  if (!isUpright)
    sum += extension(samples, shape, 0, -step) + extension(samples, shape, last, step);
  return sum * step;
}

/** Trapezoid sum over the straight run past an end, in steps until nothing lies inside the plate. */
function extension(samples: PlateSamples, shape: number, station: number, step: number): number {
  const atEnd = areaInside(samples, shape, station, 0);
  // The flattest end that can be meshed leaves the plate within a few thousand steps.
  let sum = atEnd / 2;
  for (let k = 1; k < 10_000; k++) {
    const area = areaInside(samples, shape, station, k * step);
    if (area === 0) break;
    sum += area;
  }
  return sum;
}

/**
 * Integral of 1 - kappa . q over the part of a section inside the plate [mm2].
 *
 * @param beyond_mm moves the section along its tangent: the straight run past an end, unbent; null
 *   takes the whole section, for upright ends, which lie in the faces.
 */
function areaInside(
  samples: PlateSamples,
  shape: number,
  station: number,
  beyond_mm: number | null,
): number {
  const row = shape * samples.stations + station;
  const { first, second, curvature_per_mm: bend } = samples;
  const i = 3 * row;
  const section = samples.sections[shape];
  const thickness = samples.plate.thickness_mm;
  const z = samples.point_mm[i + 2] + (beyond_mm ?? 0) * samples.tangent[i + 2];
  const isBent = beyond_mm === null || beyond_mm === 0;
  const bendFirst = isBent ? dot(bend, first, i) : 0;
  const bendSecond = isBent ? dot(bend, second, i) : 0;
  let bare = 0;
  let sum = 0;
  for (let j = 0; j < ANGLES; j++) {
    const [c, s] = [COS[j], SIN[j]];
    const section_mm = polarRadius(section, samples.bore_mm[row], samples.roof[row], c, s);
    bare += section_mm * section_mm;
    const wall = wallRadius(samples, shape, station, STEP * j, c, s);
    // The ray's height is z + r rise: it lies inside the plate between two radii.
    const rise = c * first[i + 2] + s * second[i + 2];
    const enter =
      rise === 0 ? (z < 0 || z > thickness ? Infinity : 0) : (rise > 0 ? -z : thickness - z) / rise;
    const leave = rise === 0 ? Infinity : (rise > 0 ? thickness - z : -z) / rise;
    const from = beyond_mm === null ? 0 : Math.max(0, enter);
    const to = beyond_mm === null ? wall : Math.min(wall, leave);
    if (to <= from) continue;
    const pull = bendFirst * c + bendSecond * s;
    sum += (to * to - from * from) / 2 - (pull * (to * to * to - from * from * from)) / 3;
  }
  return (sum * 2 * samples.area_mm2[row]) / bare;
}

function dot(a: Float64Array, b: Float64Array, i: number): number {
  return a[i] * b[i] + a[i + 1] * b[i + 1] + a[i + 2] * b[i + 2];
}
