/** Dust grains in air: slip, inertia, settling, loss in bends, and what lifts a layer again. */
import { acos, exp, log, log1p, pow } from '../numeric/index.ts';

const GRAVITY_m_per_s2 = 9.80665;

/** Grains by size: diameter and share of the mass; shares add up to 1. */
export interface DustClass {
  readonly diameter_um: number;
  readonly massShare: number;
}

/**
 * Fine test dust (grade A2): geometric mean of each size band and its share of the mass.
 *
 * Source: ISO 12103-1, middles of the 1997 edition's cumulative bands, from memory; later editions
 * use other size classes. The lowest band (below 1 um) stands at 0.7 um.
 */
export const FINE_TEST_DUST: readonly DustClass[] = [
  { diameter_um: 0.7, massShare: 0.03 },
  { diameter_um: 1.41, massShare: 0.085 },
  { diameter_um: 2.45, massShare: 0.0875 },
  { diameter_um: 3.46, massShare: 0.0725 },
  { diameter_um: 4.47, massShare: 0.06 },
  { diameter_um: 5.92, massShare: 0.1 },
  { diameter_um: 8.37, massShare: 0.085 },
  { diameter_um: 14.1, massShare: 0.2 },
  { diameter_um: 28.3, massShare: 0.175 },
  { diameter_um: 56.6, massShare: 0.1025 },
  { diameter_um: 98, massShare: 0.0025 },
];

/**
 * Slip correction of the drag on a small sphere.
 *
 *   Cc = 1 + Kn (1.257 + 0.4 exp(-1.10 / Kn)),  Kn = 2 lambda / d
 *
 * @param diameter_m grain diameter, positive.
 * @param meanFreePath_m mean free path of the air; 66 nm at 20 C and sea level.
 * @returns correction [-], 1 for large grains.
 * @example slipCorrection(1e-6, 66e-9) // 1.165937
 * Source: Davies 1945, constants from memory.
 */
export function slipCorrection(diameter_m: number, meanFreePath_m: number): number {
  const kn = (2 * meanFreePath_m) / diameter_m;
  return kn > 0 ? 1 + kn * (1.257 + 0.4 * exp(-1.1 / kn)) : 1;
}

/**
 * Relaxation time of a sphere: how long it keeps its old velocity.
 *
 *   tau = rho_p d^2 Cc / (18 mu)
 *
 * @param diameter_m grain diameter.
 * @param density_kg_per_m3 grain density.
 * @param viscosity_Pa_s viscosity of the air.
 * @param meanFreePath_m mean free path of the air.
 * @returns time [s]; exact for a grain Reynolds number below 1, too long beyond.
 * @example relaxationTime(1e-5, 2650, 1.8134e-5, 66e-9) // 0.00082533
 * Source: Stokes drag, exact.
 */
export function relaxationTime(
  diameter_m: number,
  density_kg_per_m3: number,
  viscosity_Pa_s: number,
  meanFreePath_m: number,
): number {
  const slip = slipCorrection(diameter_m, meanFreePath_m);
  return (density_kg_per_m3 * diameter_m * diameter_m * slip) / (18 * viscosity_Pa_s);
}

/**
 * Speed at which a grain falls in still air.
 *
 *   v = tau g / (1 + 0.15 Re_p^0.687),  Re_p = rho v d / mu
 *
 * @param relaxation_s relaxation time of the grain.
 * @param diameter_m grain diameter.
 * @param airDensity_kg_per_m3 density of the air; buoyancy is left out (below 0.2 %).
 * @param viscosity_Pa_s viscosity of the air.
 * @returns speed [m/s]; valid for Re_p < 800.
 * @example settlingVelocity(0.00082533, 1e-5, 1.2041, 1.8134e-5) // 0.00806046
 * Source: drag of a sphere by Schiller & Naumann 1935.
 */
export function settlingVelocity(
  relaxation_s: number,
  diameter_m: number,
  airDensity_kg_per_m3: number,
  viscosity_Pa_s: number,
): number {
  const stokes = relaxation_s * GRAVITY_m_per_s2;
  const perSpeed = (airDensity_kg_per_m3 * diameter_m) / viscosity_Pa_s;
  // The left side v (1 + 0.15 (perSpeed v)^0.687) rises and is convex: Newton from above converges.
  let v = stokes;
  for (let i = 0; i < 60; i++) {
    const drag = 0.15 * pow(perSpeed * v, 0.687);
    const step = (v * (1 + drag) - stokes) / (1 + 1.687 * drag);
    v -= step;
    if (Math.abs(step) <= 1e-14 * v) break;
  }
  return v;
}

/**
 * Loss rate in a bend per radian of turning, turbulent flow; penetration = exp(-rate * angle).
 *
 *   rate = 2.823 Stk
 *
 * @param stokes Stokes number on the diameter, 0 or more.
 * @example turbulentBendRate(0.1) // 0.2823
 * Source: Pui, Romay-Novas & Liu 1987 (Re 6000 to 10000), which gives 10^(-0.963 Stk_radius) per
 * 90 degrees. Liquid drops: an upper bound for dry grains, which rebound.
 */
export function turbulentBendRate(stokes: number): number {
  return 2.823 * stokes;
}

/**
 * Loss rate in a bend per radian of turning, laminar flow; penetration = exp(-rate * angle).
 *
 *   rate = (2 / pi) ln(1 + (Stk/0.171)^(0.452 Stk/0.171 + 2.242))
 *
 * @param stokes Stokes number on the diameter, 0 or more.
 * @example laminarBendRate(0.171) // 0.44127120
 * Source: Pui, Romay-Novas & Liu 1987 (Re about 1000); diameter-based Stk inferred.
 */
export function laminarBendRate(stokes: number): number {
  if (stokes <= 0) return 0;
  const x = stokes / 0.171;
  const power = (0.452 * x + 2.242) * log(x);
  const logarithm = power > 40 ? power : log1p(exp(power));
  return (2 / Math.PI) * logarithm;
}

/**
 * Loss in a bend if grains drift straight across a plug flow without mixing.
 *
 *   shift s = Stk * angle (in bores); loss = 1 - (2/pi) (acos s - s sqrt(1 - s^2))
 *
 * @param stokes Stokes number on the diameter.
 * @param angle_rad turning of the bend.
 * @example plugDriftLoss(0.1, 1.5707963) // 0.1991745
 * Source: overlap of two circles, exact for the picture.
 */
export function plugDriftLoss(stokes: number, angle_rad: number): number {
  const s = Math.min(1, stokes * angle_rad);
  return 1 - (2 / Math.PI) * (acos(s) - s * Math.sqrt(1 - s * s));
}

/** Empirical constants of the threshold friction velocity. */
const SHAO_LU_A = 0.0123;
const SHAO_LU_GAMMA_kg_per_s2 = 3e-4;

/**
 * Friction velocity at which the wind begins to lift a loose dry layer of grains.
 *
 *   u_t = sqrt(A (rho_p/rho g d + gamma / (rho d))),  A = 0.0123, gamma = 3e-4 kg/s2
 *
 * @param diameter_m grain diameter.
 * @param density_kg_per_m3 grain density.
 * @param airDensity_kg_per_m3 density of the air.
 * @returns friction velocity [m/s]; an order of magnitude: gamma is known within 1.65e-4..5e-4, and
 *   single grains on a smooth wall hold 3 to 10 times better.
 * @example thresholdFrictionVelocity(1e-5, 2650, 1.2041) // 0.5559745
 * Source: Shao & Lu 2000, J. Geophys. Res. 105:22437, constants from memory.
 */
export function thresholdFrictionVelocity(
  diameter_m: number,
  density_kg_per_m3: number,
  airDensity_kg_per_m3: number,
): number {
  const weight = (density_kg_per_m3 / airDensity_kg_per_m3) * GRAVITY_m_per_s2 * diameter_m;
  const cohesion = SHAO_LU_GAMMA_kg_per_s2 / (airDensity_kg_per_m3 * diameter_m);
  return Math.sqrt(SHAO_LU_A * (weight + cohesion));
}
