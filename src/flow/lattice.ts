/**
 * The D3Q19 velocity set: which way the populations of a cell travel.
 *
 * Directions come in opposite pairs (1 2), (3 4) ..., 0 rests. Lattice units throughout the room:
 * one cell, one time step; the speed of sound is 1 / sqrt 3.
 *
 * Source: Qian, d'Humieres & Lallemand 1992, Europhys. Lett. 17:479.
 */

export const DIRECTIONS = 19;

export const CX = Int8Array.of(0, 1, -1, 0, 0, 0, 0, 1, -1, 1, -1, 1, -1, 1, -1, 0, 0, 0, 0);
export const CY = Int8Array.of(0, 0, 0, 1, -1, 0, 0, 1, -1, -1, 1, 0, 0, 0, 0, 1, -1, 1, -1);
export const CZ = Int8Array.of(0, 0, 0, 0, 0, 1, -1, 0, 0, 0, 0, 1, -1, -1, 1, 1, -1, -1, 1);

/**
 * Weight of a direction: 1/3 at rest, 1/18 along an axis, 1/36 along a diagonal.
 *
 * @example weightOf(0) // 0.33333333
 * @example weightOf(7) // 0.02777778
 */
export function weightOf(direction: number): number {
  if (direction === 0) return 1 / 3;
  return direction < 7 ? 1 / 18 : 1 / 36;
}

/**
 * The direction straight back.
 *
 * @example oppositeOf(5) // 6
 * @example oppositeOf(0) // 0
 */
export function oppositeOf(direction: number): number {
  if (direction === 0) return 0;
  return direction % 2 === 1 ? direction + 1 : direction - 1;
}

/**
 * The direction as seen in a mirror normal to x, to y, or both.
 *
 * @example mirroredDirection(7, true, false) // 10
 */
export function mirroredDirection(direction: number, acrossX: boolean, acrossY: boolean): number {
  const x = acrossX ? -CX[direction] : CX[direction];
  const y = acrossY ? -CY[direction] : CY[direction];
  for (let i = 0; i < DIRECTIONS; i++) {
    if (CX[i] === x && CY[i] === y && CZ[i] === CZ[direction]) return i;
  }
  throw new Error(`D3Q19 has no mirror image of direction ${direction}`);
}
