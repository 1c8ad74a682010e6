/** The exact form of heat in a plate: conduction solved in its solid, air warmed channel by channel. */
import { outlineBounds } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { cbrt } from '../../numeric/index.ts';
import { solveHeat } from '../../physics/index.ts';
import { solidCells } from '../../print/index.ts';
import { plateNet } from './conduction-net.ts';
import type { PlateStreams } from './heat-stream.ts';

/** Cells of the box about a plate, at most: what fits into 0.1 s (experiments/bench/heat). */
const MOST_CELLS = 50_000;
/** A filled plastic takes more rounds than a plain one, and a fifth fewer cells change it by 0.2 %. */
const FAIRLY_CONDUCTING = 1;
const FAIR_SHARE = 0.8;
/**
 * A solid that conducts better than this is so even in temperature that half as many cells give the
 * same (0.1 % apart), while its long reach takes more rounds [W/(m K)].
 */
const WELL_CONDUCTING = 20;
/** Wished height of a cell, bounds of their number through the thickness, least side [mm]. */
const HEIGHT_MM = 1;
const FEWEST_LAYERS = 8;
const MOST_LAYERS = 24;
const LEAST_SIDE_MM = 0.8;

function cellsFor(k_W_per_m_K: number): number {
  if (k_W_per_m_K > WELL_CONDUCTING) return MOST_CELLS / 2;
  return k_W_per_m_K > FAIRLY_CONDUCTING ? FAIR_SHARE * MOST_CELLS : MOST_CELLS;
}

interface ConductedPlate {
  /** Heat from hot body to air per kelvin between hot body and incoming air [W/K]; NaN if it did not settle. */
  readonly conductance_W_per_K: number;
  /** Heat to the air over heat from the hot body, less one. */
  readonly imbalance: number;
  /** Mean temperature of the plate at its hot face. */
  readonly faceShare: number;
  readonly cells: number;
  readonly rounds: number;
}

/**
 * Solves the conduction from the hot face to the channels' walls, with air that warms up on its way.
 *
 * Finite volumes on cells of some 1 to 2 mm that know their solid share and the solid in each of
 * their faces; every other outer surface is insulated. The hot body has one temperature.
 *
 * @param layerShare temperature over depth, to start from.
 * @param mostCells grid budget.
 */
export function conductPlate(
  samples: PlateSamples,
  streams: PlateStreams,
  isInlet: boolean,
  k_W_per_m_K: number,
  contact_m2K_per_W: number,
  layerShare: (depth: number) => number,
  mostCells = cellsFor(k_W_per_m_K),
): ConductedPlate {
  const { plate } = samples;
  const box = outlineBounds(plate.outline);
  const area_mm2 = (box.maxX_mm - box.minX_mm) * (box.maxY_mm - box.minY_mm);
  // A larger budget refines all three directions alike.
  const finer = cbrt(mostCells / MOST_CELLS);
  const wished = Math.round((finer * plate.thickness_mm) / HEIGHT_MM);
  const nz = Math.min(finer * MOST_LAYERS, Math.max(finer * FEWEST_LAYERS, wished));
  const layers = Math.round(nz);
  const side = Math.max(LEAST_SIDE_MM / finer, Math.sqrt((area_mm2 * layers) / mostCells));
  const cells = solidCells(samples, side, layers);
  const { net, depth, face_m2 } = plateNet(
    samples,
    streams,
    cells,
    isInlet,
    k_W_per_m_K,
    contact_m2K_per_W,
  );
  const share = new Float64Array(net.count + 1);
  for (let i = 0; i < net.count; i++) share[i] = layerShare(depth[i]);
  const solved = solveHeat(net, share);
  const imbalance = solved.toAir_W_per_K / solved.fromFace_W_per_K - 1;
  return {
    conductance_W_per_K: solved.settled ? solved.fromFace_W_per_K : Number.NaN,
    imbalance,
    faceShare: 1 - (solved.fromFace_W_per_K * contact_m2K_per_W) / face_m2,
    cells: net.count,
    rounds: solved.rounds,
  };
}
