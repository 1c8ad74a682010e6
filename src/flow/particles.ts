/** Grains carried through a solved field until they leave it or touch a wall. */
import type { AirField } from './air-field.ts';
import { createStepper } from './grains.ts';
import type { GrainKind, GrainStepper } from './grains.ts';

/**
 * What became of a grain. through: past the outlet face; wall: touched a wall inside the channel;
 * face: touched the inlet face beside the port; back: left through the inlet plane, falling against
 * the air; afloat: still in the air when the patience ended.
 */
export const FATE = { through: 0, wall: 1, face: 2, back: 3, afloat: 4 } as const;

export interface Flight {
  fate: number;
  /** Where it ended [mm]. */
  readonly place_mm: Float64Array;
  /** With which velocity [m/s]. */
  readonly velocity_m_per_s: Float64Array;
  /** Whether it ever was inside the channel. */
  entered: boolean;
  time_ms: number;
}

export interface Bounds {
  /** Grains that get below this z have fallen back [mm]. */
  readonly start_mm: number;
  readonly thickness_mm: number;
}

/**
 * Longest way of grain or air within a step, in cells. A quarter of it moves the share caught in an S bend
 * of 10 cells across from 14.5 to 14.7 % of the mass, a tenth of the interval.
 */
const REACH_CELLS = 0.3;
/** Steps after which a grain counts as afloat: some 30 times the way through a plate of 20 mm. */
const PATIENCE = 6000;
/**
 * Speed square to a wall after a bounce over that before, where adhesion takes nothing:
 *
 *   v' = e sqrt(v^2 - v_c^2)
 *
 * Source: form of Dahneke 1971 (J. Colloid Interface Sci. 37:342), from memory; the value, for hard dry
 * grains on plastic, is an own heuristic (0.7 to 0.9 are usual).
 */
const RESTITUTION = 0.8;
/** Halvings in search of the place where the wall was touched. */
const HALVINGS = 8;

export function createFlight(): Flight {
  return {
    fate: FATE.afloat,
    place_mm: new Float64Array(3),
    velocity_m_per_s: new Float64Array(3),
    entered: false,
    time_ms: 0,
  };
}

export interface Flyer {
  /** Flies on from the place and velocity held in `flight` until the grain's end, which is written there. */
  fly(flight: Flight): void;
}

/** @param gravity_mm_per_ms2 acceleration in the plate's axes. */
export function createFlyer(
  field: AirField,
  kind: GrainKind,
  gravity_mm_per_ms2: readonly [number, number, number],
  { start_mm, thickness_mm }: Bounds,
): Flyer {
  const stepper: GrainStepper = createStepper(
    kind,
    (x, y, z, out) => {
      field.velocity(x, y, z, out);
    },
    gravity_mm_per_ms2,
  );
  const reach_mm = REACH_CELLS * field.cell_mm;
  const near_mm = Math.max(field.cell_mm, kind.radius_mm);
  const before = new Float64Array(3);
  /** Puts the grain on the wall between where it was and where it would be. */
  const touch = (place: Float64Array): void => {
    let air = 0;
    let wall = 1;
    const [x, y, z] = before;
    const dx = place[0] - x;
    const dy = place[1] - y;
    const dz = place[2] - z;
    for (let n = 0; n < HALVINGS; n++) {
      const s = 0.5 * (air + wall);
      if (field.isAir(x + s * dx, y + s * dy, z + s * dz)) air = s;
      else wall = s;
    }
    place[0] = x + air * dx;
    place[1] = y + air * dy;
    place[2] = z + air * dz;
  };
  const normal = new Float64Array(3);
  /** Turns a grain back that meets the wall too fast to stick; false where it stays. */
  const bounce = (place: Float64Array, velocity: Float64Array): boolean => {
    if (kind.sticks_m_per_s === undefined) return false;
    field.wallNormal(place[0], place[1], place[2], normal);
    const into = -(velocity[0] * normal[0] + velocity[1] * normal[1] + velocity[2] * normal[2]);
    const least = kind.sticks_m_per_s;
    if (!(into > least)) return false;
    const back = RESTITUTION * Math.sqrt(into * into - least * least);
    for (let d = 0; d < 3; d++) {
      velocity[d] += (into + back) * normal[d];
      place[d] += 0.01 * field.cell_mm * normal[d];
    }
    return field.isAir(place[0], place[1], place[2]);
  };
  return {
    fly(flight) {
      const { place_mm: place, velocity_m_per_s: velocity } = flight;
      flight.fate = FATE.afloat;
      flight.entered = place[2] >= 0;
      flight.time_ms = 0;
      for (let n = 0; n < PATIENCE; n++) {
        before.set(place);
        const step_ms = stepper.stepFor(place, velocity, reach_mm);
        stepper.step(place, velocity, step_ms);
        flight.time_ms += step_ms;
        if (place[2] > thickness_mm) {
          flight.fate = FATE.through;
          return;
        }
        if (place[2] < start_mm) {
          flight.fate = FATE.back;
          return;
        }
        field.wrap(place);
        const gap_mm = field.gap(place[0], place[1], place[2]);
        if (gap_mm < near_mm) {
          const isInWall = !field.isAir(place[0], place[1], place[2]);
          if (isInWall || (gap_mm > 0 && gap_mm < kind.radius_mm)) {
            if (isInWall) touch(place);
            if (bounce(place, velocity)) continue;
            // A grain that came from the plenum and met solid plate lies on the face.
            flight.fate = before[2] < 0 && place[2] < 1e-3 * field.cell_mm ? FATE.face : FATE.wall;
            if (flight.fate === FATE.wall) flight.entered = true;
            return;
          }
        }
        if (place[2] >= 0) flight.entered = true;
      }
    },
  };
}
