/** What a solved field says beyond its pressure drop: wall shear, air that runs back, and dust. */
import type { PlateSamples } from '../design/index.ts';
import type { Air, DustClass } from '../physics/index.ts';
import { createAirField } from './air-field.ts';
import type { AirField } from './air-field.ts';
import { createChannelMap } from './channel-map.ts';
import { trackDust } from './dust-tracking.ts';
import type { DustOptions, DustTracked } from './dust-tracking.ts';
import { carriedOut, liftedByFlow } from './lifting.ts';
import type { Lifted, WallAir } from './lifting.ts';
import { recirculation } from './recirculation.ts';
import type { Recirculation } from './recirculation.ts';
import type { Solved } from './solve.ts';
import { shearSummary, wallPatches } from './wall-shear.ts';
import type { ShearSummary } from './wall-shear.ts';

/** A solved channel with what its numbers mean. */
export interface SolvedChannel {
  readonly solved: Solved;
  /** Mean velocity at the inlet port, in m/s and in cells per step. */
  readonly velocity_m_per_s: number;
  readonly speed: number;
}

export interface FindingsOptions {
  readonly samples: PlateSamples;
  readonly shape: number;
  readonly air: Air;
  readonly classes: readonly DustClass[];
  readonly density_kg_per_m3: number;
  readonly down: readonly [number, number, number] | null;
  /** Grains of each size class. */
  readonly grains: number;
}

export interface FlowFindings {
  readonly recirculation: Recirculation;
  /** All walls, and each pocket's. */
  readonly wallShear: ShearSummary;
  readonly pocketShear: readonly ShearSummary[];
  /** Grains that stay where they touch a wall. */
  readonly dust: DustTracked;
  /** Hard dry grains, which bounce off walls that they meet fast. */
  readonly dryDust: DustTracked;
  /** Of the landed dust, what the same stream would lift off again. */
  readonly lifted: Lifted;
  /** Of the landed dust, what reversed air carries out; null when that was not solved. */
  readonly purged: Lifted | null;
}

/** Grains of each class that give a share to 5 points at least, 95 of 100 times. */
export const DEFAULT_GRAINS = 400;

/** @param reversed the same channel solved as `reversedDuct`, at the purge's velocity; or null. */
export function flowFindings(
  channel: SolvedChannel,
  reversed: SolvedChannel | null,
  options: FindingsOptions,
): FlowFindings {
  const { samples, shape, air } = options;
  const { grid, scene } = channel.solved;
  const { thickness_mm } = samples.plate;
  const map = createChannelMap(samples, shape);
  const field = airFieldOf(channel);
  const patches = wallPatches(grid, scene, thickness_mm, field, map);
  const dustOptions: DustOptions = {
    ...options,
    isDry: false,
    start_mm: startSquare(channel.solved),
  };
  const bounds = { start_mm: scene.origin_mm[2], thickness_mm };
  const dust = trackDust(field, map, bounds, dustOptions);
  const viscosity = air.viscosity_Pa_s;
  return {
    recirculation: recirculation(grid, scene, thickness_mm, field, map),
    wallShear: shearSummary(patches, viscosity, null),
    pocketShear: Array.from({ length: map.pockets }, (_, n) => shearSummary(patches, viscosity, n)),
    dust,
    dryDust: trackDust(field, map, bounds, { ...dustOptions, isDry: true }),
    lifted: liftedByFlow(dust, { patches, grid, scene }, dustOptions),
    purged: reversed === null ? null : purge(reversed, dust, thickness_mm, dustOptions),
  };
}

function purge(
  reversed: SolvedChannel,
  dust: DustTracked,
  thickness_mm: number,
  options: DustOptions,
): Lifted {
  const { grid, scene } = reversed.solved;
  const field = airFieldOf(reversed);
  const bare = {
    length_mm: thickness_mm,
    pockets: 0,
    locate: (): void => {},
  };
  const patches = wallPatches(grid, scene, thickness_mm, field, bare);
  const wall: WallAir = { patches, grid, scene };
  return carriedOut(dust, field, wall, thickness_mm, options);
}

/** The field in m/s. */
export function airFieldOf({ solved, velocity_m_per_s, speed }: SolvedChannel): AirField {
  return createAirField({
    grid: solved.grid,
    scene: solved.scene,
    populations: solved.kernel.populations(),
    scale_m_per_s: velocity_m_per_s / speed,
  });
}

/** The square that one channel serves, in the layer where the air enters evenly. */
function startSquare({ grid, scene }: Solved): readonly [number, number, number, number] {
  const { cell_mm, origin_mm } = scene;
  const box = scene.box(0) ?? { x0: 0, x1: grid.nx - 1, y0: 0, y1: grid.ny - 1 };
  const edge = (axis: 0 | 1, cell: number): number => origin_mm[axis] + cell * cell_mm;
  return [
    edge(0, box.x0 - 0.5),
    edge(0, box.x1 + 0.5),
    edge(1, box.y0 - 0.5),
    edge(1, box.y1 + 0.5),
  ];
}
