/** Volume of the air in a channel by integration, independent of any mesh. */
import { polarRadius, wallRadius } from '../design/index.ts';
import { atan2, cos, sin } from '../numeric/index.ts';
import type { PlateSamples, Section } from '../design/index.ts';

/** Even rays of the quadrature around a section. */
const EVEN_RAYS = 72;
/** Steps along each flat and each end of a slot, whose tips even rays would hardly meet. */
const SLOT_STEPS = 24;
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
  const rays = raysOf(samples.sections[shape]);
  const isCentred = isUpright && isPlain && samples.sections[shape].kind !== 'teardrop';
  let sum = 0;
  for (let k = 0; k < stations; k++) {
    const area = isCentred
      ? area_mm2[row + k]
      : areaInside(samples, shape, rays, k, isUpright ? null : 0);
    sum += k === 0 || k === last ? area / 2 : area;
  }
  if (!isUpright)
    sum += extension(samples, shape, rays, 0, -step) + extension(samples, shape, rays, last, step);
  return sum * step;
}

/** Rays around a section, rising within one turn, with the angle that each stands for [rad]. */
interface Rays {
  readonly angle: Float64Array;
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
  readonly weight: Float64Array;
}

const TURN = 2 * Math.PI;
const EVEN_ANGLES = Array.from({ length: EVEN_RAYS }, (_, j) => (TURN * j) / EVEN_RAYS);
const EVEN = weighRays(EVEN_ANGLES);

export function raysOf(section: Section): Rays {
  if (section.kind !== 'slot') return EVEN;
  const angles = [...EVEN_ANGLES];
  const flat = section.aspect - 1;
  for (let k = 0; k <= SLOT_STEPS; k++) {
    const end = (Math.PI / 2) * ((2 * k) / SLOT_STEPS - 1);
    const tip = atan2(sin(end), flat + cos(end));
    const side = atan2(1, flat * ((2 * k) / SLOT_STEPS - 1));
    angles.push(tip < 0 ? tip + TURN : tip, Math.PI + tip, side, Math.PI + side);
  }
  return weighRays(angles);
}

/** Each ray stands for half the gap to both neighbours. */
function weighRays(angles: readonly number[]): Rays {
  const angle = Float64Array.from(new Set(angles)).toSorted();
  const n = angle.length;
  const weight = Float64Array.from({ length: n }, (_, j) => {
    const before = j === 0 ? angle[n - 1] - TURN : angle[j - 1];
    const after = j === n - 1 ? angle[0] + TURN : angle[j + 1];
    return (after - before) / 2;
  });
  return { angle, cosine: angle.map((a) => cos(a)), sine: angle.map((a) => sin(a)), weight };
}

/** Trapezoid sum over the straight run past an end, in steps until nothing lies inside the plate. */
function extension(
  samples: PlateSamples,
  shape: number,
  rays: Rays,
  station: number,
  step: number,
): number {
  const atEnd = areaInside(samples, shape, rays, station, 0);
  // The flattest end that can be meshed leaves the plate within a few thousand steps.
  let sum = atEnd / 2;
  for (let k = 1; k < 10_000; k++) {
    const area = areaInside(samples, shape, rays, station, k * step);
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
export function areaInside(
  samples: PlateSamples,
  shape: number,
  rays: Rays,
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
  const { angle, cosine, sine, weight } = rays;
  for (let j = 0; j < angle.length; j++) {
    const c = cosine[j];
    const s = sine[j];
    const section_mm = polarRadius(section, samples.bore_mm[row], samples.roof[row], c, s);
    bare += weight[j] * section_mm * section_mm;
    const wall = wallRadius(samples, shape, station, angle[j], c, s);
    // The ray's height is z + r rise: it lies inside the plate between two radii.
    const rise = c * first[i + 2] + s * second[i + 2];
    const enter =
      rise === 0 ? (z < 0 || z > thickness ? Infinity : 0) : (rise > 0 ? -z : thickness - z) / rise;
    const leave = rise === 0 ? Infinity : (rise > 0 ? thickness - z : -z) / rise;
    const from = beyond_mm === null ? 0 : Math.max(0, enter);
    const to = beyond_mm === null ? wall : Math.min(wall, leave);
    if (to <= from) continue;
    const pull = bendFirst * c + bendSecond * s;
    sum +=
      weight[j] * ((to * to - from * from) / 2 - (pull * (to * to * to - from * from * from)) / 3);
  }
  return (sum * 2 * samples.area_mm2[row]) / bare;
}

function dot(a: Float64Array, b: Float64Array, i: number): number {
  return a[i] * b[i] + a[i + 1] * b[i + 1] + a[i + 2] * b[i + 2];
}
