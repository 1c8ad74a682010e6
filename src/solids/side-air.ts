/** Volume of the air in channels that end in the rim or in the plenum. */
import {
  END,
  insideDistance,
  plenumDistance,
  plenumSection,
  plenumVolume,
  polarRadius,
} from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { areaInside, raysOf } from './air-volume.ts';

// Gauss-Legendre on [0, 1], three points: the radius of a point of the section.
const GAUSS_AT = [0.1127016653792583, 0.5, 0.8872983346207417];
const GAUSS_WEIGHT = [5 / 18, 4 / 9, 5 / 18];
const MOST_STEPS = 30;

/**
 * Air of one placed channel between the surfaces it opens through [mm3].
 *
 *   V = integral over s of the sections + at both ends the integral over the section of the way
 *       along the tangent from its plane to the surface (negative where the surface lies before it)
 *
 * The ends go on straight; what a bend at the very end would add is left out.
 *
 * Source: Pappus's centroid theorem, generalised (Goodman & Goodman 1969).
 */
function sideAirVolume(samples: PlateSamples, placed: number): number {
  const shape = samples.shapeOf[placed];
  const { stations, length_mm } = samples;
  const rays = raysOf(samples.sections[shape]);
  const last = stations - 1;
  let sum = 0;
  for (let k = 0; k < stations; k++) {
    const area = areaInside(samples, shape, rays, k, null);
    sum += k === 0 || k === last ? area / 2 : area;
  }
  return (
    (sum * length_mm[shape]) / last +
    endVolume(samples, shape, placed, 0) +
    endVolume(samples, shape, placed, 1)
  );
}

/** Air between an end's section and the surface it opens through [mm3]. */
function endVolume(samples: PlateSamples, shape: number, placed: number, end: 0 | 1): number {
  const { stations, first, second, tangent, point_mm, offset_mm } = samples;
  const row = shape * stations + end * (stations - 1);
  const i = 3 * row;
  const rays = raysOf(samples.sections[shape]);
  const depth = depthAt(samples, shape, end);
  const sign = end === 0 ? -1 : 1;
  let bare = 0;
  let sum = 0;
  for (let j = 0; j < rays.angle.length; j++) {
    const c = rays.cosine[j];
    const s = rays.sine[j];
    const wall = polarRadius(
      samples.sections[shape],
      samples.bore_mm[row],
      samples.roof[row],
      c,
      s,
    );
    bare += rays.weight[j] * wall * wall;
    for (let g = 0; g < GAUSS_AT.length; g++) {
      const r = wall * GAUSS_AT[g];
      const at = [0, 1, 2].map(
        (d) =>
          point_mm[i + d] +
          (d < 2 ? offset_mm[2 * placed + d] : 0) +
          r * (c * first[i + d] + s * second[i + d]),
      );
      const way = along(at, [tangent[i], tangent[i + 1], tangent[i + 2]], sign, depth);
      sum += rays.weight[j] * GAUSS_WEIGHT[g] * r * wall * way;
    }
  }
  return (sum * 2 * samples.area_mm2[row]) / bare;
}

type Depth = (x: number, y: number, z: number) => number;

/** Distance to the surface of an end: positive on the channel's side of it. */
function depthAt(samples: PlateSamples, shape: number, end: 0 | 1): Depth {
  const { plate, sides } = samples;
  const kind = sides?.kind[2 * shape + end] ?? END.face;
  if (kind === END.rim) return (x, y) => insideDistance(plate.outline, x, y);
  if (kind === END.plenum && sides?.plenum) {
    const section = plenumSection(sides.plenum);
    const way = new Float64Array(3);
    return (x, y, z) => plenumDistance(section, x, y, z, way);
  }
  return end === 0 ? (_x, _y, z) => z : (_x, _y, z) => plate.thickness_mm - z;
}

/** Way from a point along the tangent, out of the channel, to the surface [mm]: secant steps. */
function along(at: readonly number[], t: readonly number[], sign: number, depth: Depth): number {
  const value = (s: number): number =>
    depth(at[0] + sign * s * t[0], at[1] + sign * s * t[1], at[2] + sign * s * t[2]);
  let s = 0;
  let here = value(0);
  let [before, atBefore] = [-0.01, value(-0.01)];
  for (let n = 0; n < MOST_STEPS && Math.abs(here) > 1e-9; n++) {
    const slope = (here - atBefore) / (s - before);
    if (!(slope < 0)) break;
    [before, atBefore] = [s, here];
    s -= here / slope;
    here = value(s);
  }
  return s;
}

/** Air inside a plate with side ends or a plenum [mm3]. */
export function sidedAir(samples: PlateSamples): number {
  let air = samples.sides?.plenum ? plenumVolume(samples.sides.plenum) : 0;
  for (let n = 0; n < samples.channelCount; n++) air += sideAirVolume(samples, n);
  return air;
}
