/** What depends on the dust alone: per-class constants and the table of loss rates in bends. */
import { exp, log2 } from '../../numeric/index.ts';
import {
  FINE_TEST_DUST,
  laminarBendRate,
  relaxationTime,
  thresholdFrictionVelocity,
} from '../../physics/index.ts';
import type { DustClass } from '../../physics/index.ts';

/** Air as the dust sees it. */
export interface DustAir {
  readonly density_kg_per_m3: number;
  readonly viscosity_Pa_s: number;
  readonly meanFreePath_m: number;
}

/** Constants of the size classes, in the order of the brief. */
export interface DustConstants {
  readonly count: number;
  /** Shares of the mass, adding up to 1 [count]. */
  readonly share: Float64Array;
  /** Relaxation times [count] [s]. */
  readonly relaxation_s: Float64Array;
  /** log2 of the relaxation times in seconds [count]. */
  readonly logRelaxation: Float64Array;
  /** u_t^-4 of the friction velocity that lifts the grains [count] [s4/m4]. */
  readonly lift: Float64Array;
  /** V_c^-2 of the speed square to a wall from which on grains rebound [count] [s2/m2]. */
  readonly rebound: Float64Array;
}

/**
 * Speed square to a bare wall at which half of the grains rebound, times their diameter [m2/s]:
 * 1 m/s at 7 um, falling as 1/d.
 *
 * Source: order of magnitude of Wall, John, Wang & Goren 1990 (Aerosol Science and Technology
 * 12:926), bounce of dry 2.6 to 6.9 um spheres from about 1 m/s on; value from memory, rough or soft
 * walls differ by a factor of 3.
 */
export const REBOUND_m2_per_s = 7e-6;

/** Dust as the brief states it. */
export interface Dust {
  readonly density_kg_per_m3: number;
  readonly classes?: readonly DustClass[] | undefined;
}

/** A class left over is joined to the last pair when it has less of the mass than this. */
const TRACE = 0.01;

/**
 * Neighbouring classes joined two by two: their shares added, their diameters by the mean of the
 * logarithms. Inside the search loop half the classes rank plates alike at half the time.
 *
 * @example joinClasses([{ diameter_um: 1, massShare: 0.5 }, { diameter_um: 4, massShare: 0.5 }])[0].diameter_um // 2
 */
export function joinClasses(classes: readonly DustClass[]): readonly DustClass[] {
  let joined = joinedOf.get(classes);
  if (joined === undefined) {
    joined = joinPairs(classes);
    joinedOf.set(classes, joined);
  }
  return joined;
}

/** A brief's classes are the same array for every design of it. */
const joinedOf = new WeakMap<readonly DustClass[], readonly DustClass[]>();

function joinPairs(classes: readonly DustClass[]): DustClass[] {
  const joined: DustClass[] = [];
  const total = classes.reduce((sum, { massShare }) => sum + massShare, 0);
  for (let i = 0; i < classes.length;) {
    const isLast = i + 3 === classes.length && classes[i + 2].massShare < TRACE * total;
    const group = classes.slice(i, i + (isLast ? 3 : 2));
    i += group.length;
    let massShare = 0;
    let sum = 0;
    for (const { diameter_um, massShare: share } of group) {
      massShare += share;
      sum += share * log2(diameter_um);
    }
    joined.push({ diameter_um: exp((sum / massShare) * Math.LN2), massShare });
  }
  return joined;
}

/** Constants of the size classes in some air; those met last are kept, since a search has one dust. */
export function dustConstants(dust: Dust, air: DustAir): DustConstants {
  const classes = dust.classes ?? FINE_TEST_DUST;
  const known = constantsOf.get(classes);
  if (known?.air === air && known.density_kg_per_m3 === dust.density_kg_per_m3) {
    return known.constants;
  }
  const constants = workOut(classes, dust, air);
  const { density_kg_per_m3 } = dust;
  constantsOf.set(classes, { air, density_kg_per_m3, constants });
  return constants;
}

interface Known {
  readonly air: DustAir;
  readonly density_kg_per_m3: number;
  readonly constants: DustConstants;
}

const constantsOf = new WeakMap<readonly DustClass[], Known>();

function workOut(classes: readonly DustClass[], dust: Dust, air: DustAir): DustConstants {
  const count = classes.length;
  let total = 0;
  for (const { massShare } of classes) total += massShare;
  const relaxation_s = Float64Array.from(classes, ({ diameter_um }) =>
    relaxationTime(
      diameter_um * 1e-6,
      dust.density_kg_per_m3,
      air.viscosity_Pa_s,
      air.meanFreePath_m,
    ),
  );
  return {
    count,
    share: Float64Array.from(classes, ({ massShare }) => massShare / total),
    relaxation_s,
    logRelaxation: relaxation_s.map((tau) => log2(tau)),
    lift: Float64Array.from(classes, ({ diameter_um }) => {
      const threshold_m_per_s = thresholdFrictionVelocity(
        diameter_um * 1e-6,
        dust.density_kg_per_m3,
        air.density_kg_per_m3,
      );
      const square = threshold_m_per_s * threshold_m_per_s;
      return 1 / (square * square);
    }),
    rebound: Float64Array.from(classes, ({ diameter_um }) => {
      const perSpeed = (diameter_um * 1e-6) / REBOUND_m2_per_s;
      return perSpeed * perSpeed;
    }),
  };
}

// Laminar loss rates at equal steps of log2 Stk: a look-up costs a twentieth of log and exp.
const LOWEST = -20;
const HIGHEST = 12;
const PER_OCTAVE = 32;
/** Table behind `tabulatedBendRate`. */
export const bendRates = Float64Array.from(
  { length: (HIGHEST - LOWEST) * PER_OCTAVE + 1 },
  (_, i) => laminarBendRate(exp((LOWEST + i / PER_OCTAVE) * Math.LN2)),
);

/**
 * `laminarBendRate` from the logarithm of the Stokes number, by linear interpolation.
 *
 * @param logStokes log2 of the Stokes number on the diameter; clamped to -20..12.
 * @returns loss per radian, within 0.1 % below Stk = 1 and 0.3 % above.
 */
export function tabulatedBendRate(logStokes: number): number {
  const at = (Math.min(HIGHEST - 0.001, Math.max(LOWEST, logStokes)) - LOWEST) * PER_OCTAVE;
  const i = Math.floor(at);
  return bendRates[i] + (at - i) * (bendRates[i + 1] - bendRates[i]);
}
