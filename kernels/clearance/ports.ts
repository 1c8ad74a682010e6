/** Ports, as in src/measures/clearance/ports.ts. */
import { sectionReach } from './sections';
import {
  V,
  first,
  length,
  point,
  reach,
  second,
  sheared,
  stations,
  tangent,
  thickness,
  uprightFirst,
  uprightSecond,
} from './state';

const LEAST_RISE: f64 = 0.2;

/** Axes of a section before its port was sheared. */
// @ts-ignore: decorator
@inline
export function uprightOf(station: i32, axis: usize, upright: usize): usize {
  return (load<u8>(sheared + station) === 0 ? axis : upright) + <usize>station * V;
}

export function towardsFace(shape: i32, station: i32, end: i32): f64 {
  const sign: f64 = end === 0 ? -1 : 1;
  const a = sign * load<f64>(uprightOf(station, first, uprightFirst), 16);
  const b = sign * load<f64>(uprightOf(station, second, uprightSecond), 16);
  return sectionReach(shape, station, a, b);
}

// @ts-ignore: decorator
@inline
export function aboveFace(station: i32, end: i32): f64 {
  const z = load<f64>(point + <usize>station * V, 16);
  return end === 0 ? z : thickness - z;
}

export function mouthLength(shape: i32, end: i32): f64 {
  const station = shape * stations + (end === 0 ? 0 : stations - 1);
  const rise = Math.abs(load<f64>(tangent + <usize>station * V, 16));
  return towardsFace(shape, station, end) / Math.max(rise, LEAST_RISE);
}

export function shearPort(shape: i32, end: i32): void {
  const base = shape * stations;
  const zone = 2 * mouthLength(shape, end);
  const step = load<f64>(length + (<usize>shape << 3)) / (stations - 1);
  for (let n = 0; n * step <= zone && n < stations; n++) {
    const k = end === 0 ? base + n : base + stations - 1 - n;
    const far = towardsFace(shape, k, end);
    const height = Math.max(0, aboveFace(k, end));
    if (far <= height || far < 1e-6) return;
    const i = <usize>k * V;
    const rise = load<f64>(tangent + i, 16);
    const slope = Math.abs(rise) < LEAST_RISE ? (rise < 0 ? -LEAST_RISE : LEAST_RISE) : rise;
    const share = (1 - height / far) / slope;
    if (load<u8>(sheared + k) === 0) {
      store<u8>(sheared + k, 1);
      memory.copy(uprightFirst + i, first + i, V);
      memory.copy(uprightSecond + i, second + i, V);
    }
    shear(first + i, tangent + i, share);
    shear(second + i, tangent + i, share);
    const at = reach + (<usize>k << 3);
    store<f64>(at, load<f64>(at) / Math.abs(slope));
  }
}

function shear(axis: usize, along: usize, share: f64): void {
  const lift = share * load<f64>(axis, 16);
  store<f64>(axis, load<f64>(axis) - lift * load<f64>(along));
  store<f64>(axis, load<f64>(axis, 8) - lift * load<f64>(along, 8), 8);
  store<f64>(axis, load<f64>(axis, 16) - lift * load<f64>(along, 16), 16);
}
