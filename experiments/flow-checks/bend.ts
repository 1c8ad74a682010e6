/** Grains in a quarter bend of a round tube: the share that lands, over the Stokes number. */
import { createAirField } from '../../src/flow/air-field.ts';
import type { PlenumScene } from '../../src/flow/duct.ts';
import { createFlight, createFlyer, FATE } from '../../src/flow/particles.ts';
import { radicalInverse } from '../../src/numeric/index.ts';
import { createFlow, marchOpen, velocityOf } from './flows.ts';

export interface BendLoss {
  /** tau U / D. */
  readonly stokes: number;
  /** Landed before the end of the bend. */
  readonly landed: number;
  readonly grains: number;
}

export interface BendOptions {
  readonly Re: number;
  /** Cells in the tube's radius. */
  readonly a: number;
  /** Radius of the bend in tube radii. */
  readonly bend: number;
  readonly grains: number;
  /** How often the tube is flushed before the grains fly. */
  readonly flushes: number;
}

const SPEED = 0.06;
/** As in the solver: without it the flow runs away here on 10 cells. */
const SUBGRID = 0.05;
/** Straight parts in tube radii: before the bend, and between it and the one that turns back. */
const BEFORE = 3;
const BETWEEN = 4;
const AFTER = 3;

/**
 * Developed flow enters along z, turns by 90 degrees to x, runs straight, and is turned back to z, as
 * the solver's ends lie at least and greatest z. Grains enter with the air, as many as the flow brings.
 */
export function bendLosses(stokes: readonly number[], options: BendOptions): BendLoss[] {
  const { Re, a, bend, grains, flushes } = options;
  const R = bend * a;
  const back = 2.5 * a;
  const margin = a + 2;
  const start = BEFORE * a;
  const across = R + BETWEEN * a + back;
  const nz = Math.ceil(start + R + back + AFTER * a);
  const cx = margin + 0.2;
  const cy = margin + 0.3;
  /** Distance from the centreline in the plane of the bend, at the nearest place. */
  const off = (x: number, z: number): number => {
    const u = x - cx;
    if (z <= start) return u;
    const w = z - start;
    if (u <= R && w <= R) return Math.sqrt((u - R) * (u - R) + w * w) - R;
    if (u <= R + BETWEEN * a) return w - R;
    const from = u - R - BETWEEN * a;
    if (w <= R + back) return Math.sqrt(from * from + (w - R - back) * (w - R - back)) - back;
    return u - across;
  };
  const inside = (x: number, y: number, z: number): boolean => {
    const d = off(x, z);
    return d * d + (y - cy) * (y - cy) < a * a;
  };
  const scene: PlenumScene = {
    nx: Math.ceil(across + 2 * margin),
    ny: Math.ceil(2 * margin + 1),
    nz,
    ends: 'open',
    box: () => null,
    inside,
    // One cell is 1 mm: lengths below are in cells, velocities in m/s, times in ms.
    cell_mm: 1,
    sides: [0, 0],
    plateLayers: nz,
    outletEnd: nz,
    sponge: 0,
    origin_mm: [0, 0, 0],
  };
  const flow = createFlow(scene, (SPEED * 2 * a) / Re, SUBGRID);
  // A sponge before the outlet, as in the solver.
  for (let k = 0; k < nz; k++) {
    const share = Math.max(0, (k - nz + 2 * a) / (2 * a));
    flow.kernel.tau[k] += (3 * share * SPEED * 2 * a) / 5;
  }
  const march = marchOpen(flow, (x, y) => {
    const square = ((x - cx) * (x - cx) + (y - cy) * (y - cy)) / (a * a);
    return square < 1 ? 2 * SPEED * (1 - square) : 0;
  });
  const length = start + 0.5 * Math.PI * (R + back) + (BETWEEN + AFTER) * a;
  const steps = Math.round((flushes * length) / SPEED);
  for (let step = 0; step < steps; step++) march.next();
  const u = new Float64Array(3);
  velocityOf(
    flow.kernel.populations(),
    flow.grid,
    flow.grid.address(Math.round(cx), Math.round(cy), 5),
    u,
  );
  if (!(Math.abs(u[2]) < 1)) throw new RangeError('the flow in the bend ran away');
  const field = createAirField({
    grid: flow.grid,
    scene,
    populations: flow.kernel.populations(),
    scale_m_per_s: 1 / SPEED,
  });
  const flight = createFlight();
  return stokes.map((Stk) => {
    // At U = 1 m/s tau is Stk D.
    const kind = { relaxation_ms: Stk * 2 * a, reynoldsPerSpeed_s_per_m: 0, radius_mm: 0 };
    const bounds = { start_mm: -0.4, thickness_mm: nz - 1 };
    const flyer = createFlyer(field, kind, [0, 0, 0], bounds);
    let landed = 0;
    for (let n = 1; n <= grains; n++) {
      // Radius by the flow within it, 1 - (1 - r^2)^2.
      const r = 0.995 * a * Math.sqrt(1 - Math.sqrt(1 - radicalInverse(n, 2)));
      const turn = 2 * Math.PI * radicalInverse(n, 3);
      flight.place_mm.set([cx + r * Math.cos(turn), cy + r * Math.sin(turn), 0]);
      flight.velocity_m_per_s.set([0, 0, 2 * (1 - (r * r) / (a * a))]);
      flyer.fly(flight);
      const isInBend = flight.place_mm[0] - cx < R + 0.5 * a;
      if (flight.fate === FATE.wall && isInBend) landed++;
    }
    return { stokes: Stk, landed: landed / grains, grains };
  });
}
