/**
 * Section frames along a centreline: an axis carried without twist, and a teardrop's frame, whose
 * second axis points up in build direction.
 */
import { cosDeg, sinDeg } from './angles.ts';
import type { Build } from './model.ts';

/**
 * First axis at the inlet: +x turned by the roll about the tangent, after +x was made normal to it
 * (+y serves when the channel starts along x).
 */
export function startAxis(tangent: Float64Array, roll_deg: number, out: Float64Array): void {
  const tx = tangent[0];
  const ty = tangent[1];
  const tz = tangent[2];
  const alongX = Math.abs(tx) < 0.999;
  const dot = alongX ? tx : ty;
  let x = (alongX ? 1 : 0) - dot * tx;
  let y = (alongX ? 0 : 1) - dot * ty;
  let z = -dot * tz;
  const scale = 1 / Math.sqrt(x * x + y * y + z * z);
  x *= scale;
  y *= scale;
  z *= scale;
  const c = cosDeg(roll_deg);
  const s = sinDeg(roll_deg);
  out[0] = c * x + s * (ty * z - tz * y);
  out[1] = c * y + s * (tz * x - tx * z);
  out[2] = c * z + s * (tx * y - ty * x);
}

/**
 * Carries the first axis over all stations of one shape without twist, by double reflection.
 *
 * Error per unit length falls with the fourth power of the step.
 * Source: Wang, Juettler, Zheng & Liu 2008, ACM Trans. Graphics 27(1):2.
 *
 * @param at index of the shape's first coordinate in the arrays; `first` holds the start axis there.
 */
export function carryAxis(
  point: Float64Array,
  tangent: Float64Array,
  first: Float64Array,
  at: number,
  stations: number,
): void {
  for (let i = at; i < at + 3 * (stations - 1); i += 3) {
    const ax = point[i + 3] - point[i];
    const ay = point[i + 4] - point[i + 1];
    const az = point[i + 5] - point[i + 2];
    const a = 2 / (ax * ax + ay * ay + az * az);
    const rx = first[i];
    const ry = first[i + 1];
    const rz = first[i + 2];
    const tx = tangent[i];
    const ty = tangent[i + 1];
    const tz = tangent[i + 2];
    const ar = a * (ax * rx + ay * ry + az * rz);
    const at1 = a * (ax * tx + ay * ty + az * tz);
    const lx = rx - ar * ax;
    const ly = ry - ar * ay;
    const lz = rz - ar * az;
    const bx = tangent[i + 3] - (tx - at1 * ax);
    const by = tangent[i + 4] - (ty - at1 * ay);
    const bz = tangent[i + 5] - (tz - at1 * az);
    const square = bx * bx + by * by + bz * bz;
    // Only a turn right back on itself leaves the second mirror undefined. The quotient does not
    // wait for the axis, which each step takes over from the one before.
    const twice = square > 1e-24 ? 2 / square : 0;
    const b = twice * (bx * lx + by * ly + bz * lz);
    first[i + 3] = lx - b * bx;
    first[i + 4] = ly - b * by;
    first[i + 5] = lz - b * bz;
  }
}

/** second = tangent x first, over all stations of one shape. */
export function crossAxes(
  tangent: Float64Array,
  first: Float64Array,
  second: Float64Array,
  at: number,
  stations: number,
): void {
  for (let i = at; i < at + 3 * stations; i += 3) {
    const tx = tangent[i];
    const ty = tangent[i + 1];
    const tz = tangent[i + 2];
    const fx = first[i];
    const fy = first[i + 1];
    const fz = first[i + 2];
    second[i] = ty * fz - tz * fy;
    second[i + 1] = tz * fx - tx * fz;
    second[i + 2] = tx * fy - ty * fx;
  }
}

// Cosines of 25 and 45 degrees: a channel steeper than 25 degrees from upright needs no roof, one
// flatter than 45 degrees needs the whole.
const UPRIGHT = 0.9063077870366499;
const LYING = Math.SQRT1_2;

/**
 * Roof of a teardrop by how steep the channel stands: smoothstep of |t . up| from 0 (within 25 deg
 * of the build direction) to 1 (at 45 deg or flatter, where a round bore's top begins to hang over).
 *
 * @param rise |tangent . build direction|.
 * @example roofOf(1) // 0
 * @example roofOf(0.5) // 1
 * Source: own heuristic on the 45-degree rule of filament printing (common practice, no source).
 */
export function roofOf(rise: number): number {
  const share = (UPRIGHT - rise) / (UPRIGHT - LYING);
  if (share <= 0) return 0;
  if (share >= 1) return 1;
  return share * share * (3 - 2 * share);
}

/**
 * Turns the frames of a teardrop shape so that the second axis points up in build direction, and
 * notes the roof and the angle turned from the carried axis. Where the channel stands exactly
 * upright there is no 'up' across it and the carried frame stays (the roof is 0 there).
 */
export function raiseRoof(
  build: Build,
  tangent: Float64Array,
  first: Float64Array,
  second: Float64Array,
  roof: Float64Array,
  twist: Float64Array,
  station: number,
  stations: number,
): void {
  const ux = 0;
  const uy = build === 'edge' ? 1 : 0;
  const uz = build === 'edge' ? 0 : 1;
  for (let k = station; k < station + stations; k++) {
    const i = 3 * k;
    const tx = tangent[i];
    const ty = tangent[i + 1];
    const tz = tangent[i + 2];
    const dot = tx * ux + ty * uy + tz * uz;
    roof[k] = roofOf(Math.abs(dot));
    let sx = ux - dot * tx;
    let sy = uy - dot * ty;
    let sz = uz - dot * tz;
    const square = sx * sx + sy * sy + sz * sz;
    if (square < 1e-12) {
      twist[2 * k] = 1;
      twist[2 * k + 1] = 0;
      continue;
    }
    const scale = 1 / Math.sqrt(square);
    sx *= scale;
    sy *= scale;
    sz *= scale;
    const fx = sy * tz - sz * ty;
    const fy = sz * tx - sx * tz;
    const fz = sx * ty - sy * tx;
    twist[2 * k] = first[i] * fx + first[i + 1] * fy + first[i + 2] * fz;
    twist[2 * k + 1] = second[i] * fx + second[i + 1] * fy + second[i + 2] * fz;
    first[i] = fx;
    first[i + 1] = fy;
    first[i + 2] = fz;
    second[i] = sx;
    second[i + 1] = sy;
    second[i + 2] = sz;
  }
}
