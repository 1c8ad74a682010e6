/** How much of a channel's air runs back against the channel's axis. */
import type { AirField } from './air-field.ts';
import type { ChannelMap } from './channel-map.ts';
import { createChannelPlace } from './channel-map.ts';
import type { PlenumScene } from './duct.ts';
import type { Grid } from './grid.ts';

export interface Recirculation {
  /** Air in the plate [mm3]. */
  readonly volume_mm3: number;
  /** Share of it that moves against the axis of the channel. */
  readonly share: number;
  /** The same within each pocket's mouth, as a share of all the air [pockets]. */
  readonly pocketShare: Float64Array;
}

/**
 * Share of the eighths of air cells between the faces whose velocity points against the tangent of
 * the centreline nearest to them.
 */
export function recirculation(
  grid: Grid,
  scene: PlenumScene,
  thickness_mm: number,
  field: AirField,
  map: ChannelMap,
): Recirculation {
  const { cell_mm, origin_mm } = scene;
  const spot = createChannelPlace();
  const u = new Float64Array(3);
  const inPocket = new Float64Array(map.pockets);
  let parts = 0;
  let back = 0;
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      for (let z = 0; z < grid.nz; z++) {
        const height = origin_mm[2] + z * cell_mm;
        if (height < 0 || height > thickness_mm || !grid.isFluid(x, y, z)) continue;
        for (let n = 0; n < 8; n++) {
          const x_mm = origin_mm[0] + (x + ((n & 1) === 0 ? -0.25 : 0.25)) * cell_mm;
          const y_mm = origin_mm[1] + (y + ((n & 2) === 0 ? -0.25 : 0.25)) * cell_mm;
          const z_mm = height + ((n & 4) === 0 ? -0.25 : 0.25) * cell_mm;
          if (field.gap(x_mm, y_mm, z_mm) < 0) continue;
          parts++;
          field.velocity(x_mm, y_mm, z_mm, u);
          map.locate(x_mm, y_mm, z_mm, spot);
          const [a, b, c] = spot.tangent;
          if (u[0] * a + u[1] * b + u[2] * c >= 0) continue;
          back++;
          if (spot.pocket >= 0) inPocket[spot.pocket]++;
        }
      }
    }
  }
  return {
    volume_mm3: (parts * cell_mm * cell_mm * cell_mm) / 8,
    share: parts > 0 ? back / parts : 0,
    pocketShare: inPocket.map((count) => (parts > 0 ? count / parts : 0)),
  };
}
