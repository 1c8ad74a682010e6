/** Shear of the air at the walls of a channel, and how much of the channel runs backwards. */
import type { AirField } from './air-field.ts';
import type { ChannelMap } from './channel-map.ts';
import { createChannelPlace } from './channel-map.ts';
import type { PlenumScene } from './duct.ts';
import type { Grid } from './grid.ts';
import type { AirCell } from './wall-gap.ts';
import { FARTHEST_GAP, airCells, wallGap, wallNormal } from './wall-gap.ts';

/** Patches of wall, one for each air cell beside it, inside the plate. */
export interface WallPatches {
  readonly count: number;
  /** Where the wall is [count x 3] [mm]. */
  readonly place_mm: Float64Array;
  /** Unit normal into the air [count x 3]. */
  readonly normal: Float64Array;
  /** Extent of each patch [count] [mm2]. */
  readonly area_mm2: Float64Array;
  /** Velocity gradient along the wall, du/dn [count] [1/ms]. */
  readonly gradient_per_ms: Float64Array;
  /** Pocket that each patch belongs to, -1 for bare wall [count]. */
  readonly pocket: Int16Array;
  /** Patch of a cell, -1 for none; see `patchNear`. */
  readonly patchOf: Int32Array;
}

/**
 * Patches with the gradient of the parabola through the wall, where air stands still, that fits the
 * air cells around best:
 *
 *   u_t(d) = a d + b d^2,  du/dn = |a|,  d distance to the wall, u_t velocity along the patch
 *
 * The normal is the direction in which the air cells of the neighbourhood lie. A patch's area is the
 * number of grid lines that meet the wall in its cell, each times |n| along that line (Cauchy-Crofton:
 * the sum over a surface tends to its area).
 *
 * Source: own; checked against the exact profile of a pipe in tests/unit/flow/wall-fields.test.ts, within 2 % from 10 cells on.
 */
export function wallPatches(
  grid: Grid,
  scene: PlenumScene,
  thickness_mm: number,
  field: AirField,
  map: ChannelMap,
): WallPatches {
  const { nx, ny, nz } = grid;
  const { cell_mm, origin_mm } = scene;
  const places: number[] = [];
  const normals: number[] = [];
  const areas: number[] = [];
  const gradients: number[] = [];
  const pockets: number[] = [];
  const patchOf = new Int32Array(nx * ny * nz).fill(-1);
  const n = new Float64Array(3);
  const spot = createChannelPlace();
  const isAir = (x: number, y: number, z: number): boolean => scene.inside(x, y, z);
  const anywhere = airCells(grid, scene);
  // Normals at the ends shall not lean towards the open air before and behind the plate.
  const low = Math.ceil(-origin_mm[2] / cell_mm);
  const high = Math.floor((thickness_mm - origin_mm[2]) / cell_mm);
  const airCell: AirCell = (x, y, z) => anywhere(x, y, Math.min(high, Math.max(low, z)));
  for (let x = 0; x < nx; x++) {
    for (let y = 0; y < ny; y++) {
      for (let z = 0; z < nz; z++) {
        const height = origin_mm[2] + z * cell_mm;
        if (height < 0 || height > thickness_mm || !grid.isFluid(x, y, z)) continue;
        const lines = wallLines(grid, scene, thickness_mm, x, y, z);
        if (lines === null || !wallNormal(airCell, x, y, z, n)) continue;
        const [a, b, c] = n;
        const gap = wallGap(isAir, x, y, z, n);
        if (gap >= FARTHEST_GAP) continue;
        const at = [x - gap * a, y - gap * b, z - gap * c].map(
          (value, d) => origin_mm[d] + value * cell_mm,
        );
        const gradient = gradientAt(grid, scene, thickness_mm, field, x, y, z, n);
        if (gradient === null) continue;
        const area = lines[0] * Math.abs(a) + lines[1] * Math.abs(b) + lines[2] * Math.abs(c);
        map.locate(at[0], at[1], at[2], spot);
        patchOf[(x * ny + y) * nz + z] = areas.length;
        places.push(...at);
        normals.push(a, b, c);
        areas.push(area * cell_mm * cell_mm);
        gradients.push(gradient);
        pockets.push(spot.pocket);
      }
    }
  }
  return {
    count: areas.length,
    place_mm: Float64Array.from(places),
    normal: Float64Array.from(normals),
    area_mm2: Float64Array.from(areas),
    gradient_per_ms: Float64Array.from(gradients),
    pocket: Int16Array.from(pockets),
    patchOf,
  };
}

/** Cells around a patch that its parabola is fitted to: up to sqrt 5 cells away. */
const FIT = 2;

/** Velocity gradient at the wall beside a cell [1/ms]; null with too few cells around. */
function gradientAt(
  grid: Grid,
  { cell_mm, origin_mm }: PlenumScene,
  thickness_mm: number,
  field: AirField,
  x: number,
  y: number,
  z: number,
  n: Float64Array,
): number | null {
  let d2 = 0;
  let d3 = 0;
  let d4 = 0;
  first.fill(0);
  second.fill(0);
  for (let i = -FIT; i <= FIT; i++) {
    for (let j = -FIT; j <= FIT; j++) {
      for (let k = -FIT; k <= FIT; k++) {
        if (i * i + j * j + k * k > FIT * FIT + 1 || !grid.isFluid(x + i, y + j, z + k)) continue;
        const px = origin_mm[0] + (x + i) * cell_mm;
        const py = origin_mm[1] + (y + j) * cell_mm;
        const pz = origin_mm[2] + (z + k) * cell_mm;
        if (pz < 0 || pz > thickness_mm) continue;
        const d = field.gap(px, py, pz) / cell_mm;
        if (!(d > 0 && d < 0.95 * FARTHEST_GAP)) continue;
        field.velocity(px, py, pz, u);
        const across = u[0] * n[0] + u[1] * n[1] + u[2] * n[2];
        d2 += d * d;
        d3 += d * d * d;
        d4 += d * d * d * d;
        for (let c = 0; c < 3; c++) {
          const along = u[c] - across * n[c];
          first[c] += d * along;
          second[c] += d * d * along;
        }
      }
    }
  }
  const determinant = d2 * d4 - d3 * d3;
  if (!(determinant > 1e-6 * d2 * d4)) return null;
  let square = 0;
  for (let c = 0; c < 3; c++) {
    const a = (first[c] * d4 - second[c] * d3) / determinant;
    square += a * a;
  }
  return Math.sqrt(square) / cell_mm;
}

const u = new Float64Array(3);
const first = new Float64Array(3);
const second = new Float64Array(3);

/** Grid lines along x, y, z that meet a wall beside a cell; null for none. */
function wallLines(
  grid: Grid,
  { origin_mm, cell_mm }: PlenumScene,
  thickness_mm: number,
  x: number,
  y: number,
  z: number,
): readonly [number, number, number] | null {
  const above = origin_mm[2] + (z + 1) * cell_mm;
  const below = origin_mm[2] + (z - 1) * cell_mm;
  const solid = (dx: number, dy: number, dz: number): number =>
    grid.isFluid(x + dx, y + dy, z + dz) ? 0 : 1;
  const along = solid(-1, 0, 0) + solid(1, 0, 0);
  const across = solid(0, -1, 0) + solid(0, 1, 0);
  const up = (below >= 0 ? solid(0, 0, -1) : 0) + (above <= thickness_mm ? solid(0, 0, 1) : 0);
  return along + across + up === 0 ? null : [along, across, up];
}

/** The patch nearest to a place at the wall; -1 where none is within two cells. */
export function patchNear(
  patches: WallPatches,
  grid: Grid,
  scene: PlenumScene,
  place_mm: ArrayLike<number>,
): number {
  const at = [0, 1, 2].map((d) => Math.round((place_mm[d] - scene.origin_mm[d]) / scene.cell_mm));
  let best = -1;
  let least = Infinity;
  for (let x = Math.max(0, at[0] - 2); x <= Math.min(grid.nx - 1, at[0] + 2); x++) {
    for (let y = Math.max(0, at[1] - 2); y <= Math.min(grid.ny - 1, at[1] + 2); y++) {
      for (let z = Math.max(0, at[2] - 2); z <= Math.min(grid.nz - 1, at[2] + 2); z++) {
        const patch = patches.patchOf[(x * grid.ny + y) * grid.nz + z];
        if (patch < 0) continue;
        let square = 0;
        for (let d = 0; d < 3; d++) {
          const off = patches.place_mm[3 * patch + d] - place_mm[d];
          square += off * off;
        }
        if (square >= least) continue;
        least = square;
        best = patch;
      }
    }
  }
  return best;
}

/** Shear over some patches. */
export interface ShearSummary {
  readonly area_mm2: number;
  /** Mean over the area [Pa]. */
  readonly mean_Pa: number;
  /** Reached or passed on one hundredth of the area [Pa]; the single greatest patch is noise of the grid. */
  readonly top_Pa: number;
}

/** Share of the area that `top_Pa` is taken over. */
const TOP_SHARE = 0.01;

/** @param pocket only patches of this pocket, -1 for bare wall, null for all. */
export function shearSummary(
  patches: WallPatches,
  viscosity_Pa_s: number,
  pocket: number | null,
): ShearSummary {
  const chosen: number[] = [];
  for (let n = 0; n < patches.count; n++) {
    if (pocket === null || patches.pocket[n] === pocket) chosen.push(n);
  }
  let area_mm2 = 0;
  let sum = 0;
  for (const n of chosen) {
    area_mm2 += patches.area_mm2[n];
    sum += patches.area_mm2[n] * patches.gradient_per_ms[n];
  }
  chosen.sort((a, b) => patches.gradient_per_ms[b] - patches.gradient_per_ms[a] || a - b);
  let top = 0;
  let counted = 0;
  for (const n of chosen) {
    top = patches.gradient_per_ms[n];
    counted += patches.area_mm2[n];
    if (counted >= TOP_SHARE * area_mm2) break;
  }
  // Gradients in 1/ms are thousandths of those in 1/s.
  const scale = 1000 * viscosity_Pa_s;
  return {
    area_mm2,
    mean_Pa: area_mm2 > 0 ? (scale * sum) / area_mm2 : 0,
    top_Pa: scale * top,
  };
}
