/** The `Tally` in the memory: thinnest wall, x, y, z, overlaps by kind, then i32 kind, channel, other. */
import { tally } from './state';

/** Order of the overlaps, and the number of a kind. */
export const BETWEEN: i32 = 0;
export const SELF: i32 = 1;
export const BEND: i32 = 2;
export const FACE: i32 = 3;
export const EDGE: i32 = 4;
export const HOLE: i32 = 5;
export const POCKET: i32 = 6;

// @ts-ignore: decorator
@inline
export function thinnest(): f64 {
  return load<f64>(tally);
}

// @ts-ignore: decorator
@inline
export function addOverlap(kind: i32, depth: f64): void {
  const at = tally + 32 + (<usize>kind << 3);
  store<f64>(at, load<f64>(at) + depth);
}

/** Notes a wall if it is the thinnest so far. */
export function noteWall(
  wall: f64,
  kind: i32,
  x: f64,
  y: f64,
  z: f64,
  channel: i32,
  other: i32,
): void {
  if (wall >= thinnest()) return;
  store<f64>(tally, wall);
  store<f64>(tally, x, 8);
  store<f64>(tally, y, 16);
  store<f64>(tally, z, 24);
  store<i32>(tally, kind, 88);
  store<i32>(tally, channel, 92);
  store<i32>(tally, other, 96);
}
