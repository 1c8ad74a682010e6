/** Fields made up on a grid, as if they had been solved. */
import type { Duct, PlenumScene } from '../../src/flow/duct.ts';
import { createPlenumScene } from '../../src/flow/duct.ts';
import type { SolvedField } from '../../src/flow/air-field.ts';
import { createGrid } from '../../src/flow/grid.ts';
import { DIRECTIONS } from '../../src/flow/lattice.ts';

export type Flow = (x_mm: number, y_mm: number, z_mm: number) => readonly [number, number, number];

/** A straight round bore through a plate. */
export function roundDuct(bore_mm: number, thickness_mm: number): Duct {
  const r = 0.5 * bore_mm;
  return {
    thickness_mm,
    bore_mm,
    area_mm2: Math.PI * r * r,
    inlet_mm: [0, 0],
    outlet_mm: [0, 0],
    bounds_mm: [-r, r, -r, r],
    inside: (x, y) => x * x + y * y < r * r,
  };
}

/** The scene of a duct with plenums 4 mm long. */
export function sceneOf(duct: Duct, side_mm: number, cells: number): PlenumScene {
  const ends = { inletLength_mm: 4, outletLength_mm: 4 };
  return createPlenumScene(duct, { side_mm, cells, ...ends });
}

/** Populations whose first moment is the given velocity [m/s] in every air cell. */
export function fieldOf(scene: PlenumScene, flow: Flow): SolvedField {
  const grid = createGrid(scene);
  const populations = new Float32Array(DIRECTIONS * grid.size);
  const { cell_mm: h, origin_mm: o } = scene;
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      for (let z = 0; z < grid.nz; z++) {
        if (!grid.isFluid(x, y, z)) continue;
        const [u, v, w] = flow(o[0] + x * h, o[1] + y * h, o[2] + z * h);
        const cell = grid.address(x, y, z);
        // Directions 1, 3 and 5 lead along x, y and z.
        populations[grid.size + cell] = u;
        populations[3 * grid.size + cell] = v;
        populations[5 * grid.size + cell] = w;
      }
    }
  }
  return { grid, scene, populations, scale_m_per_s: 1 };
}
