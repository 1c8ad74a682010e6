/** Rays of light through one channel, bouncing off its walls. */
import { wallRadius } from '../../design/index.ts';
import { atan2, exp, log } from '../../numeric/index.ts';
import { mirrorShare } from '../../physics/index.ts';
import {
  DX,
  DY,
  DZ,
  FLOWN,
  LIFT,
  NX,
  NY,
  NZ,
  WORK,
  X,
  Y,
  Z,
  fly,
  meetWall,
} from './diffuse-flight.ts';
import { COPIES, POINTS, drawPoint } from './diffuse-points.ts';
import type { PointSet } from './diffuse-points.ts';
import { LANE, planeRadius } from './diffuse-tube.ts';
import type { Tube } from './diffuse-tube.ts';

/** What walls do to light. */
export interface WallOptics {
  /** Share thrown back in all directions by what is not mirrored. */
  readonly reflectance: number;
  /** Share of the surface that mirrors by Fresnel's equations. */
  readonly gloss: number;
}

/** Refractive index of printing plastics, about 1.45 to 1.55 (from memory). */
const INDEX = 1.5;
/** Rays carry on until so little is left of them. */
const FAINT = 1e-6;
/** Bounces at most; only nearly white walls come so far. */
const BOUNCES = 200;
/** Points of the set at least, each followed once in every copy. */
const LEAST_POINTS = 2;

/** Light that entered and that left after one bounce or more, of each copy, in the same arbitrary unit. */
export interface RaySums {
  readonly entered: Float64Array; // [COPIES]
  readonly left: Float64Array; // [COPIES]
}

const drawn = new Float64Array(3);
const ray = new Float64Array(12);
const shadow = new Float64Array(12);
const spot = new Float64Array(3);

/**
 * Follows rays from the inlet port, even over its area and by Lambert's law over directions.
 *
 * Light that passes without a bounce is not counted: `leakAnalysis` knows it more exactly.
 *
 * @param from first point of the set; it begins again at its end.
 * @param budget work after which to stop, in looks at a wall: the same design always stops alike.
 * @param out receives the sums.
 * @returns points used, each for one ray in every copy.
 */
export function traceRays(
  tube: Tube,
  set: PointSet,
  from: number,
  budget: number,
  optics: WallOptics,
  out: RaySums,
): number {
  out.entered.fill(0);
  out.left.fill(0);
  const steep = steepness(tube);
  ray[WORK] = 0;
  shadow[WORK] = 0;
  let k = 0;
  for (; k < POINTS && (k < LEAST_POINTS || ray[WORK] + shadow[WORK] < budget); k++) {
    for (let copy = 0; copy < COPIES; copy++) {
      drawPoint(set, from + k, 0, copy, drawn);
      const area = portSpot(tube, 0, ray);
      drawPoint(set, from + k, 1, copy, drawn);
      // Long channels get more of the rays that fly far down them, each counting for less.
      const wide = steep === 1 ? 1 : exp((steep - 1) * log(drawn[2] + 1e-12));
      drawn[2] *= wide;
      aim(0, 0, 1);
      out.entered[copy] += area;
      out.left[copy] += area * steep * wide * followRay(tube, set, from + k, copy, optics);
    }
  }
  return k;
}

/**
 * Power p by which first directions crowd about the axis: sin^2 = v^p in place of v, weight p v^(p-1).
 * From 1 for a hole to 3 from 8 bores of length on; cuts the error of long channels by some three.
 */
function steepness({ samples, shape }: Tube): number {
  const bore_mm = samples.bore_mm[shape * samples.stations];
  return 1 + Math.min(2, samples.length_mm[shape] / (4 * bore_mm));
}

/**
 * Puts a drawn point of a port, in the plate's face, into the first three places of `out`.
 *
 * @param station first or last.
 * @returns square of the wall radius there: what area the point stands for, over pi.
 */
function portSpot(tube: Tube, station: number, out: Float64Array): number {
  const { samples, shape } = tube;
  const c = drawn[0];
  const s = drawn[1];
  const row = shape * samples.stations + station;
  const i = 3 * row;
  const { first, second, tangent, point_mm } = samples;
  const plain = tube.lane[(station === 0 ? 0 : tube.planes - 1) * LANE + 12];
  const theta_rad = plain < 0 ? atan2(s, c) : 0;
  const wall = plain > 0 ? plain : wallRadius(samples, shape, station, theta_rad, c, s);
  const radius = wall * Math.sqrt(drawn[2]) * (1 - LIFT);
  const a = radius * c;
  const b = radius * s;
  // The section stands across the channel: along the channel to the face.
  const slide = (a * first[i + 2] + b * second[i + 2]) / tangent[i + 2];
  out[X] = point_mm[i] + a * first[i] + b * second[i] - slide * tangent[i];
  out[Y] = point_mm[i + 1] + a * first[i + 1] + b * second[i + 1] - slide * tangent[i + 1];
  out[Z] = point_mm[i + 2];
  return wall * wall;
}

/** Sends the ray into a direction drawn by Lambert's law about a unit normal. */
function aim(ax: number, ay: number, az: number): void {
  const flat = Math.sqrt(drawn[2]);
  const up = Math.sqrt(1 - drawn[2]);
  // Any two axes across the normal (Duff et al. 2017).
  const sign = az >= 0 ? 1 : -1;
  const p = -1 / (sign + az);
  const q = ax * ay * p;
  const c = flat * drawn[0];
  const s = flat * drawn[1];
  ray[DX] = c * (1 + sign * ax * ax * p) + s * q + up * ax;
  ray[DY] = c * sign * q + s * (sign + ay * ay * p) + up * ay;
  ray[DZ] = -c * sign * ax - s * ay + up * az;
}

/** Share of the ray's light that leaves through the outlet after one bounce or more. */
function followRay(
  tube: Tube,
  set: PointSet,
  index: number,
  copy: number,
  { reflectance, gloss }: WallOptics,
): number {
  const outlet = tube.planes - 1;
  let slab = 0;
  let weight = 1;
  let share = 0;
  /** Density of the last direction, by solid angle; 0 where it was mirrored. */
  let density = 0;
  for (let bounce = 0; bounce <= BOUNCES; bounce++) {
    slab = fly(tube, ray, slab);
    if (slab < 0) return share;
    if (slab === outlet) {
      if (bounce === 0) return 0;
      return share + (density > 0 ? (weight * density) / (density + outletDensity(tube)) : weight);
    }
    meetWall(tube, ray, slab);
    const head = -(ray[DX] * ray[NX] + ray[DY] * ray[NY] + ray[DZ] * ray[NZ]);
    const mirrored = gloss > 0 ? gloss * mirrorShare(Math.min(1, Math.max(0, head)), INDEX) : 0;
    const dull = (1 - mirrored) * reflectance;
    const thrown = mirrored + dull;
    if (weight * thrown < FAINT) return share;
    drawPoint(set, index, 2 * bounce + 3, copy, drawn);
    share += weight * dull * straightOut(tube, slab, dull / thrown);
    weight *= thrown;
    drawPoint(set, index, 2 * bounce + 2, copy, drawn);
    // One number serves both the choice and, spread out again, the direction.
    const edge = mirrored / thrown;
    if (drawn[2] < edge) {
      for (let d = 0; d < 3; d++) ray[DX + d] += 2 * head * ray[NX + d];
      density = 0;
    } else {
      drawn[2] = edge < 1 ? (drawn[2] - edge) / (1 - edge) : 0;
      aim(ray[NX], ray[NY], ray[NZ]);
      const facing = ray[DX] * ray[NX] + ray[DY] * ray[NY] + ray[DZ] * ray[NZ];
      density = ((1 - edge) * facing) / Math.PI;
    }
  }
  return share;
}

/** Density with which `straightOut` would have chosen the ray's way to where it left the tube. */
function outletDensity(tube: Tube): number {
  const { lane, planes } = tube;
  const at = (planes - 1) * LANE;
  const wall = planeRadius(
    tube,
    planes - 1,
    ray[X] - lane[at],
    ray[Y] - lane[at + 1],
    ray[Z] - lane[at + 2],
  );
  const far = ray[FLOWN];
  return (outletRise(tube) * far * far) / (Math.PI * wall * wall * ray[DZ]);
}

/** Cosine between the outlet's section and the face. */
function outletRise({ samples, shape }: Tube): number {
  return samples.tangent[3 * ((shape + 1) * samples.stations - 1) + 2];
}

/**
 * Share of dull light from where the ray stands that goes straight through the outlet: one chosen
 * point of it, weighed against the ray's own next direction so that each counts where it is the
 * steadier (balance heuristic, Veach & Guibas 1995). Cuts the error of dark channels several times.
 *
 * @param chance that the ray's next direction will be a dull one.
 */
function straightOut(tube: Tube, slab: number, chance: number): number {
  const square = portSpot(tube, tube.samples.stations - 1, spot);
  const wx = spot[0] - ray[X];
  const wy = spot[1] - ray[Y];
  const wz = spot[2] - ray[Z];
  const far2 = wx * wx + wy * wy + wz * wz;
  const scale = 1 / Math.sqrt(far2);
  const facing = (wx * ray[NX] + wy * ray[NY] + wz * ray[NZ]) * scale;
  if (!(facing > 0 && wz > 0)) return 0;
  shadow[X] = ray[X];
  shadow[Y] = ray[Y];
  shadow[Z] = ray[Z];
  shadow[DX] = wx * scale;
  shadow[DY] = wy * scale;
  shadow[DZ] = wz * scale;
  if (fly(tube, shadow, slab) !== tube.planes - 1) return 0;
  const chosen = (outletRise(tube) * far2) / (Math.PI * square * wz * scale);
  const dull = facing / Math.PI;
  return dull / (chosen + chance * dull);
}
