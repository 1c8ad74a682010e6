/**
 * A channel as a solver asks for it, and the scene it makes with a short plenum at both ends: one
 * cell of an endless array of such channels, mirror planes around it.
 */
import type { MirrorBox, Scene } from './scene.ts';

/** One channel through a plate from z = 0 to z = thickness [mm]. */
export interface Duct {
  readonly thickness_mm: number;
  /** Diameter that the cells are counted across. */
  readonly bore_mm: number;
  /** Section of the inlet port, on which the mean velocity is taken. */
  readonly area_mm2: number;
  /** Centres of the ports [x, y]. */
  readonly inlet_mm: readonly [number, number];
  readonly outlet_mm: readonly [number, number];
  /** Box around the channel: least x, greatest x, least y, greatest y. */
  readonly bounds_mm: readonly [number, number, number, number];
  /** Whether a point with 0 <= z <= thickness lies in the channel. */
  inside(x_mm: number, y_mm: number, z_mm: number): boolean;
}

export interface PlenumOptions {
  /** Sides along x and y of the rectangle of plate that one channel serves; one number for a square. */
  readonly side_mm: number | readonly [number, number];
  /** Cells across the bore, at least. */
  readonly cells: number;
  readonly inletLength_mm: number;
  /** From the outlet face to where the pressure is read. */
  readonly outletLength_mm: number;
}

export interface PlenumScene extends Scene {
  /** Side of a grid cell. */
  readonly cell_mm: number;
  /** Cells along the plenums' sides x and y. */
  readonly sides: readonly [number, number];
  /** Thickness of the plate in cells. */
  readonly plateLayers: number;
  /** Where the outlet's pressure is read and the sponge begins, in layers; not a whole number. */
  readonly outletEnd: number;
  /** Thickness of the sponge that calms the air before it leaves, in layers. */
  readonly sponge: number;
  /** Centre of cell (0, 0, 0). */
  readonly origin_mm: readonly [number, number, number];
}

/** Length of the sponge in bores. */
const SPONGE_BORES = 1;

export function createPlenumScene(duct: Duct, options: PlenumOptions): PlenumScene {
  const { side_mm, cells } = options;
  const [width_mm, height_mm] = typeof side_mm === 'number' ? [side_mm, side_mm] : side_mm;
  const narrow_mm = Math.min(width_mm, height_mm);
  // The narrower side is met exactly, the wider to half a cell.
  const cell = narrow_mm / Math.ceil((cells * narrow_mm) / duct.bore_mm - 1e-9);
  const sides = [Math.round(width_mm / cell), Math.round(height_mm / cell)] as const;
  const inlet = Math.round(options.inletLength_mm / cell);
  const outletEnd = inlet - 0.5 + (duct.thickness_mm + options.outletLength_mm) / cell;
  const sponge = (SPONGE_BORES * duct.bore_mm) / cell;
  const nz = Math.ceil(outletEnd + sponge);
  const x = alongAxis(duct, 0, sides[0], cell);
  const y = alongAxis(duct, 1, sides[1], cell);
  const first: MirrorBox = {
    x0: x.inlet,
    x1: x.inlet + sides[0] - 1,
    y0: y.inlet,
    y1: y.inlet + sides[1] - 1,
  };
  const last: MirrorBox = {
    x0: x.outlet,
    x1: x.outlet + sides[0] - 1,
    y0: y.outlet,
    y1: y.outlet + sides[1] - 1,
  };
  const origin_mm = [x.origin_mm, y.origin_mm, (0.5 - inlet) * cell] as const;
  const height = (k: number): number => origin_mm[2] + k * cell;
  return {
    nx: x.count,
    ny: y.count,
    nz,
    ends: 'open',
    cell_mm: cell,
    sides,
    plateLayers: duct.thickness_mm / cell,
    outletEnd,
    sponge,
    origin_mm,
    box(k) {
      const z = height(k);
      if (z < 0) return first;
      return z > duct.thickness_mm ? last : null;
    },
    inside(i, j, k) {
      const z = height(k);
      if (z < 0 || z > duct.thickness_mm) return true;
      return duct.inside(origin_mm[0] + i * cell, origin_mm[1] + j * cell, z);
    },
  };
}

/** Cells along x or y: how many, where the plenums begin, and where cell 0 lies. */
function alongAxis(
  duct: Duct,
  axis: 0 | 1,
  side: number,
  cell_mm: number,
): { count: number; inlet: number; outlet: number; origin_mm: number } {
  const start_mm = duct.inlet_mm[axis] - 0.5 * side * cell_mm;
  const shift = Math.round((duct.outlet_mm[axis] - duct.inlet_mm[axis]) / cell_mm);
  const low = Math.floor((duct.bounds_mm[2 * axis] - start_mm) / cell_mm) - 1;
  const high = Math.ceil((duct.bounds_mm[2 * axis + 1] - start_mm) / cell_mm) + 1;
  const from = Math.min(0, shift, low);
  const to = Math.max(side, side + shift, high);
  return {
    count: to - from,
    inlet: -from,
    outlet: shift - from,
    origin_mm: start_mm + (from + 0.5) * cell_mm,
  };
}
