/** State of dry air in a room at some altitude. */
import { exp, log, kelvin } from '../numeric/index.ts';

/** Specific gas constant of dry air [J/(kg K)], ISO 2533:1975. */
const GAS_CONSTANT = 287.05287;
/** Specific heat at constant pressure [J/(kg K)], textbook value near room temperature, within 0.5 %. */
const SPECIFIC_HEAT = 1006;
/** Ratio of specific heats of air [-], ideal gas. */
const HEAT_RATIO = 1.4;
/** Mean free path at 20 C and 101.325 kPa [m], Willeke 1976; from memory. */
const REFERENCE_FREE_PATH_M = 66e-9;

export interface Air {
  readonly temperature_K: number;
  readonly pressure_Pa: number;
  readonly density_kg_per_m3: number;
  readonly viscosity_Pa_s: number;
  readonly kinematicViscosity_m2_per_s: number;
  readonly conductivity_W_per_m_K: number;
  readonly specificHeat_J_per_kg_K: number;
  readonly prandtl: number;
  readonly soundSpeed_m_per_s: number;
  readonly meanFreePath_m: number;
}

/**
 * Ambient pressure of the standard atmosphere.
 *
 *   T = 288.15 - 0.0065 H,   p = 101325 (T/288.15)^5.25588
 *
 * @param altitude_m geopotential altitude H [m]; -400 to 11000.
 * @returns pressure [Pa].
 * @example standardPressure(1000) // 89874.56
 * Source: ISO 2533:1975, troposphere.
 */
export function standardPressure(altitude_m: number): number {
  const ratio = (288.15 - 0.0065 * altitude_m) / 288.15;
  return 101325 * exp(5.25588 * log(ratio));
}

/**
 * Air at a temperature and a pressure; ideal gas, dry.
 *
 *   rho = p/(R T)
 *   mu  = 1.458e-6 T^1.5/(T + 110.4)                     Sutherland 1893, constants of ISO 2533
 *   k   = 2.64638e-3 T^1.5/(T + 245.4 10^(-12/T))        US Standard Atmosphere 1976
 *   lam = 66 nm (T/293.15)(101325/p)(1 + 110.4/293.15)/(1 + 110.4/T)   Willeke 1976, from memory
 *
 * @param temperature_K 200 to 600 K.
 * @param pressure_Pa absolute pressure [Pa].
 */
export function airAt(temperature_K: number, pressure_Pa: number): Air {
  const T = temperature_K;
  const density_kg_per_m3 = pressure_Pa / (GAS_CONSTANT * T);
  const power = T * Math.sqrt(T);
  const viscosity_Pa_s = (1.458e-6 * power) / (T + 110.4);
  const decade = exp((-12 / T) * Math.LN10);
  const conductivity_W_per_m_K = (2.64638e-3 * power) / (T + 245.4 * decade);
  return {
    temperature_K: T,
    pressure_Pa,
    density_kg_per_m3,
    viscosity_Pa_s,
    kinematicViscosity_m2_per_s: viscosity_Pa_s / density_kg_per_m3,
    conductivity_W_per_m_K,
    specificHeat_J_per_kg_K: SPECIFIC_HEAT,
    prandtl: (SPECIFIC_HEAT * viscosity_Pa_s) / conductivity_W_per_m_K,
    soundSpeed_m_per_s: Math.sqrt(HEAT_RATIO * GAS_CONSTANT * T),
    meanFreePath_m:
      (REFERENCE_FREE_PATH_M * (T / 293.15) * (101325 / pressure_Pa) * (1 + 110.4 / 293.15)) /
      (1 + 110.4 / T),
  };
}

/**
 * Room air: pressure from the altitude, temperature as the user gives it (the standard
 * atmosphere's own temperature is that of the open sky, not of a room).
 *
 * @example roomAir(20, 0).density_kg_per_m3 // 1.20411
 */
export function roomAir(temperature_C: number, altitude_m: number): Air {
  return airAt(kelvin(temperature_C), standardPressure(altitude_m));
}
