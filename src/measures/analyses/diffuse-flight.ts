/** The flight of one ray of light through a tube: from slab to slab, and where it meets the wall. */
import { LANE, POCKETED, ROUND, planeGap, slabGap } from './diffuse-tube.ts';
import type { Tube } from './diffuse-tube.ts';

/** A ray leaves a wall, or starts beside it, from so far within, as a share of the section's reach. */
export const LIFT = 1e-3;
/** Steps in which a ray looks for pocketed walls, as a share of the section's reach. */
const STRIDE = 0.25;

/** Places in a ray: where it is, where it goes (unit), and the normal of the last wall (unit, inwards). */
export const X = 0;
export const Y = 1;
export const Z = 2;
export const DX = 3;
export const DY = 4;
export const DZ = 5;
export const NX = 6;
export const NY = 7;
export const NZ = 8;
/** Way flown by the last `fly`; way that is left to the wall at most. */
export const FLOWN = 9;
const LEFT = 10;
/** Work done so far, about one per look at a wall: for budgets that do not depend on a clock. */
export const WORK = 11;
/** One ray [12]. */
export type Ray = Float64Array;

/**
 * Moves a ray on to the slab whose wall it meets, or out of the tube.
 *
 * @param start slab in which the ray is.
 * @returns the slab; -1 out of the inlet, the number of slabs out of the outlet.
 */
export function fly(tube: Tube, ray: Ray, start: number): number {
  const { lane, wall } = tube;
  const outlet = tube.planes - 1;
  const dx = ray[DX];
  const dy = ray[DY];
  const dz = ray[DZ];
  let x = ray[X];
  let y = ray[Y];
  let z = ray[Z];
  let slab = start;
  let flown = 0;
  let left = 0;
  let work = 0;
  for (let guard = 0; guard < 4 * tube.planes; guard++) {
    work += wall[slab];
    const a = slab * LANE;
    const b = a + LANE;
    const back = dx * lane[a + 3] + dy * lane[a + 4] + dz * lane[a + 5];
    const ahead = dx * lane[b + 3] + dy * lane[b + 4] + dz * lane[b + 5];
    // Way to either plane of the slab, if the ray makes for it; walls are nearer than this.
    let way = 4 * (lane[a + 13] + lane[b + 13]) + Math.abs(lane[b + 2] - lane[a + 2]);
    let next = 0;
    if (ahead > 1e-9) {
      const t =
        ((lane[b] - x) * lane[b + 3] +
          (lane[b + 1] - y) * lane[b + 4] +
          (lane[b + 2] - z) * lane[b + 5]) /
        ahead;
      if (t < way || wall[slab] === ROUND) {
        way = t > 0 ? t : 0;
        next = 1;
      }
    }
    if (back < -1e-9) {
      const t =
        ((lane[a] - x) * lane[a + 3] +
          (lane[a + 1] - y) * lane[a + 4] +
          (lane[a + 2] - z) * lane[a + 5]) /
        back;
      if (t < way) {
        way = t > 0 ? t : 0;
        next = -1;
      }
    }
    if (wall[slab] === POCKETED) {
      if (meetsPocket(tube, slab, way, x, y, z, dx, dy, dz)) {
        way = met;
        next = 0;
      }
    } else if (next !== 0) {
      const plane = next > 0 ? slab + 1 : slab;
      const p = plane * LANE;
      const px = x + way * dx - lane[p];
      const py = y + way * dy - lane[p + 1];
      const pz = z + way * dz - lane[p + 2];
      if (planeGap(tube, plane, px, py, pz) > 0) next = 0;
    }
    if (next === 0) {
      left = way;
      break;
    }
    x += way * dx;
    y += way * dy;
    z += way * dz;
    flown += way;
    slab += next;
    if (slab < 0 || slab === outlet) break;
  }
  // A ray lost between planes that cross each other stops where it is: the wall takes it.
  ray[X] = x;
  ray[Y] = y;
  ray[Z] = z;
  ray[FLOWN] = flown;
  ray[LEFT] = left;
  ray[WORK] += work;
  return slab;
}

/** How far on a pocketed wall was met last, at most; a quarter of the reach less it was not yet. */
let met = 0;

/** Whether the ray meets the wall of a pocketed slab, which is not convex, on its way. */
function meetsPocket(
  tube: Tube,
  slab: number,
  way: number,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
): boolean {
  const steps = Math.ceil(way / (STRIDE * tube.lane[slab * LANE + 13]));
  for (let k = 1; k <= steps; k++) {
    const t = (way * k) / steps;
    if (slabGap(tube, slab, x + t * dx, y + t * dy, z + t * dz) > 0) {
      met = t;
      return true;
    }
  }
  return false;
}

/** Moves a ray that `fly` has left in a slab on to its wall, a little within, and notes the normal. */
export function meetWall(tube: Tube, ray: Ray, slab: number): void {
  if (tube.wall[slab] === ROUND) meetCone(tube, ray, slab);
  else meetShaped(tube, ray, slab);
}

/**
 * The wall between two round sections is a cone about the line of their centres: one square root in
 * place of some ten looks, for half of the time of a plate of round channels.
 */
function meetCone({ lane }: Tube, ray: Ray, slab: number): void {
  const a = slab * LANE;
  const b = a + LANE;
  let ax = lane[b] - lane[a];
  let ay = lane[b + 1] - lane[a + 1];
  let az = lane[b + 2] - lane[a + 2];
  const length = Math.sqrt(ax * ax + ay * ay + az * az);
  ax /= length;
  ay /= length;
  az /= length;
  const taper = (lane[b + 12] - lane[a + 12]) / length;
  let x = ray[X] - lane[a];
  let y = ray[Y] - lane[a + 1];
  let z = ray[Z] - lane[a + 2];
  const along = x * ax + y * ay + z * az;
  const slope = ray[DX] * ax + ray[DY] * ay + ray[DZ] * az;
  // |q + t d|^2 - (along + t slope)^2 = (radius + taper t slope)^2, radius that of the cone here.
  const radius = lane[a + 12] + taper * along;
  const lean = taper * slope;
  const A = 1 - slope * slope - lean * lean;
  const B = x * ray[DX] + y * ray[DY] + z * ray[DZ] - along * slope - radius * lean;
  const C = x * x + y * y + z * z - along * along - radius * radius;
  let t = ray[LEFT];
  if (A > 1e-12) {
    const root = (-B + Math.sqrt(Math.max(0, B * B - A * C))) / A;
    if (root < t) t = Math.max(0, root);
  }
  x += t * ray[DX];
  y += t * ray[DY];
  z += t * ray[DZ];
  const s = along + t * slope;
  let nx = s * ax - x;
  let ny = s * ay - y;
  let nz = s * az - z;
  const away = Math.sqrt(nx * nx + ny * ny + nz * nz + 1e-30);
  const scale = 1 / (away * Math.sqrt(1 + taper * taper));
  const tilt = taper * away;
  nx = (nx + tilt * ax) * scale;
  ny = (ny + tilt * ay) * scale;
  nz = (nz + tilt * az) * scale;
  const wall = Math.max(0, lane[a + 12] + taper * s);
  const lift = away - wall + LIFT * lane[a + 13];
  ray[X] = lane[a] + x + lift * nx;
  ray[Y] = lane[a + 1] + y + lift * ny;
  ray[Z] = lane[a + 2] + z + lift * nz;
  ray[NX] = nx;
  ray[NY] = ny;
  ray[NZ] = nz;
  ray[WORK] += 3;
}

function meetShaped(tube: Tube, ray: Ray, slab: number): void {
  const reach = tube.lane[slab * LANE + 13];
  const dx = ray[DX];
  const dy = ray[DY];
  const dz = ray[DZ];
  let x = ray[X];
  let y = ray[Y];
  let z = ray[Z];
  let far = ray[LEFT];
  let near = 0;
  let gapNear = slabGap(tube, slab, x, y, z);
  let gapFar = slabGap(tube, slab, x + far * dx, y + far * dy, z + far * dz);
  let at = gapNear < 0 ? far : 0;
  let gap = gapNear < 0 ? gapFar : gapNear;
  let looks = 6;
  // False position (Illinois), within a bracket.
  if (gapNear < 0 && gapFar > 0) {
    let side = 0;
    for (let round = 0; round < 40; round++) {
      let share = gapNear / (gapNear - gapFar);
      // A ray that has just left a wall has next to no gap behind it: halve until it has.
      if (!(share > 0.05 && share < 0.95)) share = 0.5;
      at = near + share * (far - near);
      gap = slabGap(tube, slab, x + at * dx, y + at * dy, z + at * dz);
      looks++;
      if (Math.abs(gap) < 0.5 * LIFT * reach) break;
      if (gap < 0) {
        near = at;
        gapNear = gap;
        if (side < 0) gapFar *= 0.5;
        side = -1;
      } else {
        far = at;
        gapFar = gap;
        if (side > 0) gapNear *= 0.5;
        side = 1;
      }
    }
  }
  x += at * dx;
  y += at * dy;
  z += at * dz;
  const step = 1e-3 * reach;
  let nx = gap - slabGap(tube, slab, x + step, y, z);
  let ny = gap - slabGap(tube, slab, x, y + step, z);
  let nz = gap - slabGap(tube, slab, x, y, z + step);
  const scale = 1 / Math.sqrt(nx * nx + ny * ny + nz * nz + 1e-30);
  nx *= scale;
  ny *= scale;
  nz *= scale;
  const lift = gap + LIFT * reach;
  ray[X] = x + lift * nx;
  ray[Y] = y + lift * ny;
  ray[Z] = z + lift * nz;
  ray[NX] = nx;
  ray[NY] = ny;
  ray[NZ] = nz;
  ray[WORK] += looks * tube.wall[slab];
}
