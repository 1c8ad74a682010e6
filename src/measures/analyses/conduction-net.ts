/** The solid of a plate and the air in its channels as a net of cells and wall patches. */
import type { PlateSamples } from '../../design/index.ts';
import type { HeatNet } from '../../physics/index.ts';
import type { SolidCells } from '../../print/index.ts';
import { layWalls } from './conduction-walls.ts';
import type { PlateStreams } from './heat-stream.ts';

/** A cell less full than this is left out. */
const LEAST_FULL = 0.02;
interface PlateNet {
  readonly net: HeatNet;
  /** Depth of each cell below the hot face, as a share of the thickness. */
  readonly depth: Float64Array;
  /** Solid of the hot face [m2]. */
  readonly face_m2: number;
}

/**
 * Builds the net.
 *
 * Wetted area and heat transfer come from the channel itself (perimeter times arc length, spread
 * round the ring by the lengths between its points) and are only handed to the cells they touch, so
 * that the steps of the raster add nothing.
 */
export function plateNet(
  samples: PlateSamples,
  streams: PlateStreams,
  cells: SolidCells,
  isInlet: boolean,
  k_W_per_m_K: number,
  contact_m2K_per_W: number,
): PlateNet {
  const { nx, ny, nz } = cells;
  const index = new Int32Array(nx * ny * nz).fill(-1);
  let count = 0;
  for (let c = 0; c < index.length; c++) if (cells.full[c] >= LEAST_FULL) index[c] = count++;
  const solid = joinCells(cells, index, count, k_W_per_m_K);
  const face = heatFace(cells, index, count, isInlet, k_W_per_m_K, contact_m2K_per_W);
  const depth = new Float64Array(count);
  for (let c = 0; c < index.length; c++) {
    if (index[c] < 0) continue;
    const z = (Math.trunc(c / (nx * ny)) + 0.5) / nz;
    depth[index[c]] = isInlet ? z : 1 - z;
  }
  const volume_m3 = solidVolumes(cells, index, count);
  const walls = layWalls(samples, streams, cells, index, volume_m3, k_W_per_m_K);
  return {
    net: { count, ...solid, toFace_W_per_K: face.toFace_W_per_K, ...walls },
    depth,
    face_m2: face.area_m2,
  };
}

function joinCells(
  cells: SolidCells,
  index: Int32Array,
  count: number,
  k: number,
): Pick<HeatNet, 'next' | 'toNext_W_per_K'> {
  const { nx, ny, nz, joinX, joinY, joinZ } = cells;
  const height_m = cells.height_mm * 1e-3;
  const side_m = cells.side_mm * 1e-3;
  const flat = k * height_m;
  const upright = (k * side_m * side_m) / height_m;
  const next = new Int32Array(3 * count).fill(count);
  const toNext_W_per_K = new Float64Array(3 * count);
  const join = (d: number, other: number, conductance: number): void => {
    if (index[other] < 0 || !(conductance > 0)) return;
    next[d] = index[other];
    toNext_W_per_K[d] = conductance;
  };
  let c = 0;
  for (let z = 0; z < nz; z++) {
    for (let y = 0; y < ny; y++) {
      for (let x = 0; x < nx; x++, c++) {
        if (index[c] < 0) continue;
        const d = 3 * index[c];
        if (x + 1 < nx) join(d, c + 1, flat * joinX[c]);
        if (y + 1 < ny) join(d + 1, c + nx, flat * joinY[c]);
        if (z + 1 < nz) join(d + 2, c + nx * ny, upright * joinZ[c]);
      }
    }
  }
  return { next, toNext_W_per_K };
}

function heatFace(
  cells: SolidCells,
  index: Int32Array,
  count: number,
  isInlet: boolean,
  k: number,
  contact_m2K_per_W: number,
): { toFace_W_per_K: Float64Array; area_m2: number } {
  const { nx, ny, nz } = cells;
  const shares = isInlet ? cells.inlet : cells.outlet;
  const from = isInlet ? 0 : (nz - 1) * nx * ny;
  const cell_m2 = cells.side_mm * cells.side_mm * 1e-6;
  const path_m2K_per_W = contact_m2K_per_W + (0.5e-3 * cells.height_mm) / k;
  const toFace_W_per_K = new Float64Array(count);
  let area_m2 = 0;
  for (let c = 0; c < nx * ny; c++) {
    const i = index[from + c];
    if (i < 0) continue;
    toFace_W_per_K[i] = (shares[c] * cell_m2) / path_m2K_per_W;
    area_m2 += shares[c] * cell_m2;
  }
  return { toFace_W_per_K, area_m2 };
}

function solidVolumes(cells: SolidCells, index: Int32Array, count: number): Float64Array {
  const cell_m3 = cells.side_mm * cells.side_mm * cells.height_mm * 1e-9;
  const volume = new Float64Array(count);
  for (let c = 0; c < index.length; c++) {
    if (index[c] >= 0) volume[index[c]] = cells.full[c] * cell_m3;
  }
  return volume;
}
