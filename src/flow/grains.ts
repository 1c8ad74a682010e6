/**
 * How one grain moves: inertia, drag and gravity, and nothing else (no lift, no diffusion, no load of
 * dust on the air).
 *
 * Places in mm and velocities in m/s, hence times in ms.
 */
import { expm1, pow } from '../numeric/index.ts';

/** What a grain is to the air. */
export interface GrainKind {
  /** Relaxation time in creeping flow, slip included [ms]. */
  readonly relaxation_ms: number;
  /** Grain Reynolds number at 1 m/s of slip. */
  readonly reynoldsPerSpeed_s_per_m: number;
  /** Distance from a wall at which the grain touches it [mm]. */
  readonly radius_mm: number;
  /** Speed square to a wall above which it bounces off; left out: it sticks at any speed [m/s]. */
  readonly sticks_m_per_s?: number;
}

/** Velocity of the air at a place. */
export type Wind = (x_mm: number, y_mm: number, z_mm: number, out_m_per_s: Float64Array) => void;

export interface GrainStepper {
  /** Moves the grain on by `step_ms`, in place. */
  step(place_mm: Float64Array, velocity_m_per_s: Float64Array, step_ms: number): void;
  /** Longest step that keeps grain and air within `reach_mm` [ms]. */
  stepFor(place_mm: Float64Array, velocity_m_per_s: Float64Array, reach_mm: number): number;
}

/**
 * Relaxation time with the drag of a sphere beyond creeping flow.
 *
 *   tau / (1 + 0.15 Re_p^0.687)
 *
 * @param slip_m_per_s speed of the grain against the air.
 * @example grainRelaxation({ relaxation_ms: 2, reynoldsPerSpeed_s_per_m: 1, radius_mm: 0 }, 1) // 1.7391304
 * Source: Schiller & Naumann 1935; Re_p below 800.
 */
export function grainRelaxation(kind: GrainKind, slip_m_per_s: number): number {
  const Re = kind.reynoldsPerSpeed_s_per_m * slip_m_per_s;
  // Below this the correction is under 0.05 %.
  if (Re < 2.5e-4) return kind.relaxation_ms;
  return kind.relaxation_ms / (1 + 0.15 * pow(Re, 0.687));
}

/**
 * The exact solution of dv/dt = (w - v)/tau for the air and the drag met half a step on:
 *
 *   v1 = w + (v0 - w) E,  x1 = x0 + w h + (v0 - w) tau (1 - E),  E = exp(-h/tau),  w = u + g tau
 *
 * Exact in still or even air with creeping drag, second order elsewhere, and stable for grains that
 * follow the air at once.
 *
 * @param gravity_mm_per_ms2 acceleration in the plate's axes; 9.80665e-3 of size, or 0.
 */
export function createStepper(
  kind: GrainKind,
  wind: Wind,
  gravity_mm_per_ms2: readonly [number, number, number],
): GrainStepper {
  const air = new Float64Array(3);
  const middle = new Float64Array(3);
  const halfway = new Float64Array(3);
  const slipOf = (velocity: Float64Array): number => {
    const a = velocity[0] - air[0];
    const b = velocity[1] - air[1];
    const c = velocity[2] - air[2];
    return Math.sqrt(a * a + b * b + c * c);
  };
  const advance = (
    place: Float64Array,
    velocity: Float64Array,
    toPlace: Float64Array,
    toVelocity: Float64Array,
    tau: number,
    step: number,
  ): void => {
    // tau (1 - E), and what is left of the step, without loss of digits for grains that hardly feel
    // the air.
    const z = step / tau;
    const kept = -tau * expm1(-z);
    const rest = z < 1e-3 ? 0.5 * step * z * (1 - z / 3 + (z * z) / 12) : step - kept;
    for (let d = 0; d < 3; d++) {
      const v = velocity[d];
      const pull = gravity_mm_per_ms2[d];
      toPlace[d] = place[d] + v * kept + air[d] * rest + pull * tau * rest;
      toVelocity[d] = v + ((air[d] - v) / tau + pull) * kept;
    }
  };
  return {
    step(place_mm, velocity_m_per_s, step_ms) {
      wind(place_mm[0], place_mm[1], place_mm[2], air);
      const before = grainRelaxation(kind, slipOf(velocity_m_per_s));
      advance(place_mm, velocity_m_per_s, middle, halfway, before, 0.5 * step_ms);
      wind(middle[0], middle[1], middle[2], air);
      const tau = grainRelaxation(kind, slipOf(halfway));
      advance(place_mm, velocity_m_per_s, place_mm, velocity_m_per_s, tau, step_ms);
    },
    stepFor(place_mm, velocity_m_per_s, reach_mm) {
      wind(place_mm[0], place_mm[1], place_mm[2], air);
      const a = Math.sqrt(air[0] * air[0] + air[1] * air[1] + air[2] * air[2]);
      const [x, y, z] = velocity_m_per_s;
      const v = Math.sqrt(x * x + y * y + z * z);
      const [gx, gy, gz] = gravity_mm_per_ms2;
      const g = Math.sqrt(gx * gx + gy * gy + gz * gz);
      // A grain at rest in still air gathers speed by falling: g h^2 / 2 within the reach too.
      const fall = g > 0 ? Math.sqrt((2 * reach_mm) / g) : Infinity;
      return Math.min(reach_mm / Math.max(a, v, 1e-12), fall);
    },
  };
}
