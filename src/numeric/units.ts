/** Conversions between the units of geometry and JSON (mm, deg, m3/h) and those of physics. */

const MM_PER_M = 1000;
const SECONDS_PER_HOUR = 3600;
/** 0 degrees Celsius in kelvin, exact by definition (ITS-90). */
const ZERO_CELSIUS_K = 273.15;

/**
 * Millimetres to metres.
 *
 * @example metres(2500) // 2.5
 */
export function metres(length_mm: number): number {
  return length_mm / MM_PER_M;
}

/**
 * Cubic metres per hour to cubic metres per second.
 *
 * @example cubicMetresPerSecond(36) // 0.01
 */
export function cubicMetresPerSecond(flow_m3_per_h: number): number {
  return flow_m3_per_h / SECONDS_PER_HOUR;
}

/**
 * Cubic metres per second to cubic metres per hour.
 *
 * @example cubicMetresPerHour(0.01) // 36
 */
export function cubicMetresPerHour(flow_m3_per_s: number): number {
  return flow_m3_per_s * SECONDS_PER_HOUR;
}

/**
 * Degrees to radians.
 *
 * @example radians(180) // 3.141592653589793
 */
export function radians(angle_deg: number): number {
  return (angle_deg * Math.PI) / 180;
}

/**
 * Radians to degrees.
 *
 * @example degrees(3.141592653589793) // 180
 */
export function degrees(angle_rad: number): number {
  return (angle_rad * 180) / Math.PI;
}

/**
 * Degrees Celsius to kelvin.
 *
 * @example kelvin(20) // 293.15
 */
export function kelvin(temperature_C: number): number {
  return temperature_C + ZERO_CELSIUS_K;
}
