/** What the air lifts off the walls again, at design flow and when it is reversed. */
import { thresholdFrictionVelocity } from '../physics/index.ts';
import type { Air } from '../physics/index.ts';
import type { AirField } from './air-field.ts';
import type { Duct, PlenumScene } from './duct.ts';
import { grainKind, gravityOf } from './dust-tracking.ts';
import type { DustOptions, DustTracked } from './dust-tracking.ts';
import type { Grid } from './grid.ts';
import { FATE, createFlight, createFlyer } from './particles.ts';
import { patchNear } from './wall-shear.ts';
import type { WallPatches } from './wall-shear.ts';

/** A share by mass with the spread that the adhesion's scatter gives it. */
export interface Lifted {
  readonly share: number;
  /** With the stickiest and the loosest dust of the published range. */
  readonly low: number;
  readonly high: number;
}

/**
 * Adhesion gamma over its middle value, at the ends of the range that goes with the threshold
 * friction velocity (1.65e-4 to 5e-4 kg/s2 around 3e-4).
 *
 * Source: Shao & Lu 2000, J. Geophys. Res. 105:22437, from memory.
 */
export const ADHESION_RANGE = { loosest: 0.55, stickiest: 5 / 3 } as const;

/**
 * Friction velocity that lifts a grain, for some multiple of the middle adhesion.
 *
 *   u_t^2 = A (rho_p/rho g d + k gamma/(rho d)), from the same law at k = 1 and from its first term
 *
 * @example liftingSpeed(10, 2650, 1.2041, 1) // 0.5559745
 */
export function liftingSpeed(
  diameter_um: number,
  density_kg_per_m3: number,
  airDensity_kg_per_m3: number,
  adhesion: number,
): number {
  const d = diameter_um * 1e-6;
  const middle = thresholdFrictionVelocity(d, density_kg_per_m3, airDensity_kg_per_m3);
  // The weight's term alone: A rho_p/rho g d, with the law's A.
  const weight = (0.0123 * density_kg_per_m3 * 9.80665 * d) / airDensity_kg_per_m3;
  return Math.sqrt(weight + adhesion * (middle * middle - weight));
}

/** Air at the walls, as a landed grain meets it. */
export interface WallAir {
  readonly patches: WallPatches;
  readonly grid: Grid;
  readonly scene: PlenumScene;
}

/** Friction velocity at a place of the wall [m/s], sqrt(nu du/dn); 0 where no wall is near. */
export function frictionVelocity(wall: WallAir, place_mm: ArrayLike<number>, air: Air): number {
  const patch = patchNear(wall.patches, wall.grid, wall.scene, place_mm);
  if (patch < 0) return 0;
  const gradient_per_s = 1000 * wall.patches.gradient_per_ms[patch];
  return Math.sqrt(air.kinematicViscosity_m2_per_s * gradient_per_s);
}

/**
 * Share of the landed mass that the air at design flow would lift off again: where the friction
 * velocity at the landing place exceeds the threshold of a loose layer of such grains.
 *
 * An order of magnitude: the threshold is a mean over gusts of a turbulent wind; single grains on a
 * smooth wall hold 3 to 10 times better.
 */
export function liftedByFlow(tracked: DustTracked, wall: WallAir, options: DustOptions): Lifted {
  return lifted(tracked, options, (n, threshold) => {
    const place = tracked.landings.place_mm.subarray(3 * n, 3 * n + 3);
    return frictionVelocity(wall, place, options.air) > threshold;
  });
}

/**
 * The channel as reversed air meets it: mirrored front to back, so that the air again enters at z = 0.
 */
export function reversedDuct(duct: Duct): Duct {
  return {
    ...duct,
    inlet_mm: duct.outlet_mm,
    outlet_mm: duct.inlet_mm,
    inside: (x, y, z) => duct.inside(x, y, duct.thickness_mm - z),
  };
}

/** How far from the wall a lifted grain starts its way out, in cells; own choice. */
const LIFT_CELLS = 0.5;

/**
 * Share of the landed mass that reversed air carries out: lifted at its place by the reversed
 * stream, and then blown out without touching a wall again (a second touch holds it; own heuristic).
 *
 * @param field of the reversed flow, in its own frame (`reversedDuct`); `wall` likewise.
 */
export function carriedOut(
  tracked: DustTracked,
  field: AirField,
  wall: WallAir,
  thickness_mm: number,
  options: DustOptions,
): Lifted {
  const down = options.down;
  const gravity = gravityOf(down === null ? null : [down[0], down[1], -down[2]]);
  const start_mm = wall.scene.origin_mm[2];
  const flyers = options.classes.map(({ diameter_um }) =>
    createFlyer(field, grainKind(diameter_um, options.density_kg_per_m3, options.air), gravity, {
      start_mm,
      thickness_mm,
    }),
  );
  const { landings } = tracked;
  const isBlownOut = new Int8Array(landings.count).fill(-1);
  const friction = new Float64Array(landings.count).fill(-1);
  const flight = createFlight();
  return lifted(tracked, options, (n, threshold) => {
    const place = landings.place_mm.slice(3 * n, 3 * n + 3);
    place[2] = thickness_mm - place[2];
    if (friction[n] < 0) friction[n] = frictionVelocity(wall, place, options.air);
    if (friction[n] <= threshold) return false;
    if (isBlownOut[n] < 0) {
      const patch = patchNear(wall.patches, wall.grid, wall.scene, place);
      for (let d = 0; d < 3; d++) {
        flight.place_mm[d] =
          place[d] + LIFT_CELLS * field.cell_mm * wall.patches.normal[3 * patch + d];
      }
      flight.velocity_m_per_s.fill(0);
      flyers[landings.sizeClass[n]].fly(flight);
      isBlownOut[n] = flight.fate === FATE.through || flight.fate === FATE.back ? 1 : 0;
    }
    return isBlownOut[n] === 1;
  });
}

/** Share of the landed mass that passes a test, at the middle and both ends of the adhesion. */
function lifted(
  tracked: DustTracked,
  options: DustOptions,
  isLifted: (landing: number, threshold_m_per_s: number) => boolean,
): Lifted {
  const { landings, classes } = tracked;
  const at = (adhesion: number): number => {
    const thresholds = options.classes.map(({ diameter_um }) =>
      liftingSpeed(diameter_um, options.density_kg_per_m3, options.air.density_kg_per_m3, adhesion),
    );
    let all = 0;
    let gone = 0;
    for (let n = 0; n < landings.count; n++) {
      const i = landings.sizeClass[n];
      const mass = classes[i].massShare / classes[i].entered;
      all += mass;
      if (isLifted(n, thresholds[i])) gone += mass;
    }
    return all > 0 ? gone / all : 0;
  };
  return { share: at(1), low: at(ADHESION_RANGE.stickiest), high: at(ADHESION_RANGE.loosest) };
}
