/** A solved velocity field that can be asked at any place, walls and mirror planes included. */
import { fillAir, fillBeyond, fillGaps } from './air-field-fill.ts';
import type { SolvedField } from './air-field-fill.ts';
import { FARTHEST_GAP } from './wall-gap.ts';

export type { SolvedField } from './air-field-fill.ts';

/** Air as a grain meets it. Places in mm, velocities in m/s; hence times in ms. */
export interface AirField {
  /** @param out receives x, y, z [m/s]. */
  velocity(x_mm: number, y_mm: number, z_mm: number, out: Float64Array): void;
  /** Distance to the nearest wall [mm], exact to a few hundredths of a cell; `far_mm` beyond that. */
  gap(x_mm: number, y_mm: number, z_mm: number): number;
  readonly far_mm: number;
  /** Unit vector away from the nearest wall; only within `far_mm` of one. */
  wallNormal(x_mm: number, y_mm: number, z_mm: number, out: Float64Array): void;
  /** Whether a place holds air, by the true section. */
  isAir(x_mm: number, y_mm: number, z_mm: number): boolean;
  /**
   * Puts a place that left the channel's share of a plenum into that of the next channel, as a shift:
   * channels repeat as they are, and so does the way down. (Air crosses no such plane: the solver's
   * planes are mirrors.)
   */
  wrap(place_mm: Float64Array): void;
  readonly cell_mm: number;
}

/**
 * The field between cell centres, linear in each direction.
 *
 * Cells beyond a wall get the velocity that makes the line through the nearest air cells vanish at the
 * wall: -(1 - q)/q u for a wall at q >= 1/2 of a cell, from the second cell at -(1 - q)/(1 + q) u
 * where it is nearer. A cell beside several air cells gets the mean. Within one cell of a wall the
 * velocity square to it falls with the square of the distance,
 *
 *   u_n(d) = u_n(1) d^2,
 *
 * as it must where air stands still at a wall and cannot be squeezed: without that the linear field
 * carries 1 to 7 % of weightless grains into walls that their streamlines never touch.
 */
export function createAirField(solved: SolvedField): AirField {
  const { grid, scene } = solved;
  const { nx, ny, nz } = grid;
  const { cell_mm, origin_mm } = scene;
  const wide = ny + 2;
  const deep = nz + 2;
  const count = (nx + 2) * wide * deep;
  const flow = new Float32Array(3 * count);
  const open = new Uint8Array(count);
  const gaps = new Float32Array(count);
  const at = (x: number, y: number, z: number): number => ((x + 1) * wide + y + 1) * deep + z + 1;
  fillAir(solved, flow, open, at);
  fillBeyond(solved, flow, open, at);
  fillGaps(solved, gaps, at);
  const inverse = 1 / cell_mm;
  const corners = Int32Array.of(0, 1, deep, deep + 1, wide * deep, wide * deep + 1, 0, 0);
  corners[6] = (wide + 1) * deep;
  corners[7] = (wide + 1) * deep + 1;
  const weights = new Float64Array(8);
  const low = new Float64Array(3);
  /** First corner of the cell around a place [cells]; fills `weights`. */
  const corner = (px: number, py: number, pz: number): number => {
    const x = clampCell(px, nx);
    const y = clampCell(py, ny);
    const z = clampCell(pz, nz);
    const i = Math.floor(x);
    const j = Math.floor(y);
    const k = Math.floor(z);
    const a = x - i;
    const b = y - j;
    const c = z - k;
    low[0] = a;
    low[1] = b;
    low[2] = c;
    const p = (1 - a) * (1 - b);
    const q = (1 - a) * b;
    const r = a * (1 - b);
    const s = a * b;
    weights[0] = p * (1 - c);
    weights[1] = p * c;
    weights[2] = q * (1 - c);
    weights[3] = q * c;
    weights[4] = r * (1 - c);
    weights[5] = r * c;
    weights[6] = s * (1 - c);
    weights[7] = s * c;
    return at(i, j, k);
  };
  const gapFrom = (from: number): number => {
    let sum = 0;
    for (let n = 0; n < 8; n++) sum += weights[n] * gaps[from + corners[n]];
    return sum;
  };
  const flowFrom = (from: number, out: Float64Array): void => {
    let x = 0;
    let y = 0;
    let z = 0;
    for (let n = 0; n < 8; n++) {
      const i = 3 * (from + corners[n]);
      const w = weights[n];
      x += w * flow[i];
      y += w * flow[i + 1];
      z += w * flow[i + 2];
    }
    out[0] = x;
    out[1] = y;
    out[2] = z;
  };
  const normal = new Float64Array(3);
  /** Gradient of the gap in the cell last asked for, made a unit vector. */
  const normalFrom = (from: number): void => {
    const [a, b, c] = low;
    const g = (n: number): number => gaps[from + corners[n]];
    normal[0] = mix(g(4) - g(0), g(5) - g(1), g(6) - g(2), g(7) - g(3), b, c);
    normal[1] = mix(g(2) - g(0), g(3) - g(1), g(6) - g(4), g(7) - g(5), a, c);
    normal[2] = mix(g(1) - g(0), g(3) - g(2), g(5) - g(4), g(7) - g(6), a, b);
    const [x, y, z] = normal;
    const size = Math.sqrt(x * x + y * y + z * z);
    for (let d = 0; d < 3; d++) normal[d] /= Math.max(size, 1e-12);
  };
  const found = new Float64Array(3);
  const last = (nz - 0.5) * cell_mm + origin_mm[2];
  return {
    cell_mm,
    far_mm: FARTHEST_GAP * cell_mm,
    velocity(x_mm, y_mm, z_mm, out) {
      const x = (x_mm - origin_mm[0]) * inverse;
      const y = (y_mm - origin_mm[1]) * inverse;
      const z = (z_mm - origin_mm[2]) * inverse;
      const from = corner(x, y, z);
      flowFrom(from, out);
      const gap = gapFrom(from);
      if (gap >= 1) return;
      normalFrom(from);
      const d = Math.max(0, gap);
      const [a, b, c] = normal;
      flowFrom(corner(x + (1 - gap) * a, y + (1 - gap) * b, z + (1 - gap) * c), found);
      const wanted = (found[0] * a + found[1] * b + found[2] * c) * d * d;
      const excess = out[0] * a + out[1] * b + out[2] * c - wanted;
      out[0] -= excess * a;
      out[1] -= excess * b;
      out[2] -= excess * c;
    },
    gap(x_mm, y_mm, z_mm) {
      const x = (x_mm - origin_mm[0]) * inverse;
      const y = (y_mm - origin_mm[1]) * inverse;
      return cell_mm * gapFrom(corner(x, y, (z_mm - origin_mm[2]) * inverse));
    },
    wallNormal(x_mm, y_mm, z_mm, out) {
      const x = (x_mm - origin_mm[0]) * inverse;
      const y = (y_mm - origin_mm[1]) * inverse;
      normalFrom(corner(x, y, (z_mm - origin_mm[2]) * inverse));
      out.set(normal);
    },
    isAir(x_mm, y_mm, z_mm) {
      const x = (x_mm - origin_mm[0]) * inverse;
      const y = (y_mm - origin_mm[1]) * inverse;
      const z = (z_mm - origin_mm[2]) * inverse;
      return scene.inside(x, y, z);
    },
    wrap(place_mm) {
      const k = Math.round((Math.min(last, place_mm[2]) - origin_mm[2]) * inverse);
      const box = scene.box(Math.min(nz - 1, Math.max(0, k)));
      if (box === null) return;
      for (let axis = 0; axis < 2; axis++) {
        const first = axis === 0 ? box.x0 : box.y0;
        const end = axis === 0 ? box.x1 : box.y1;
        const least = origin_mm[axis] + (first - 0.5) * cell_mm;
        const side = (end - first + 1) * cell_mm;
        const off = place_mm[axis] - least;
        if (off < 0 || off > side) place_mm[axis] -= side * Math.floor(off / side);
      }
    },
  };
}

function clampCell(value: number, most: number): number {
  return Math.min(most - 1e-9, Math.max(-1, value));
}

/** Bilinear mean of four differences. */
function mix(p: number, q: number, r: number, s: number, b: number, c: number): number {
  return (1 - b) * ((1 - c) * p + c * q) + b * ((1 - c) * r + c * s);
}
