/**
 * Heat transfer of developed laminar flow in duct shapes: Nusselt number on D_h, for a wall of even
 * temperature ('temperature', T) and one of even heat flux along it ('flux', H1).
 */

/** What the wall keeps even: its temperature, or its heat flux along the channel (H1). */
export type WallCondition = 'temperature' | 'flux';

interface Pair {
  readonly temperature: readonly number[];
  readonly flux: readonly number[];
}

/** Round tube: first eigenvalue of the Graetz problem; exact fraction 48/11. */
const ROUND = { temperature: 3.656794, flux: 48 / 11 } as const;

/**
 * Regular polygons of 3..12 sides. Own quadratic finite elements; their f Re agrees with
 * `polygonFRe` to 3e-5, the square with Shah & London 1978 in all digits.
 */
const POLYGON: Pair = {
  temperature: [2.4953, 2.9775, 3.2101, 3.3409, 3.4218, 3.4753, 3.5125, 3.5393, 3.5593, 3.5747],
  flux: [3.1111, 3.6079, 3.858, 4.0019, 4.0924, 4.1529, 4.1953, 4.2261, 4.2493, 4.267],
};

/** Circle with a roof of strength 0, 1/8 .. 1. Own quadratic finite elements. */
const TEARDROP: Pair = {
  temperature: [3.6568, 3.6448, 3.625, 3.6015, 3.5758, 3.5488, 3.5211, 3.4929, 3.4645],
  flux: [4.3636, 4.3497, 4.3271, 4.3008, 4.2723, 4.2426, 4.2124, 4.1818, 4.1512],
};

/** Round-ended slot over short/long = 0, 0.05 .. 1. Own quadratic finite elements; first entry exact. */
const SLOT: Pair = {
  temperature: [
    7.5407, 6.7914, 6.1553, 5.6234, 5.1853, 4.8302, 4.5462, 4.3214, 4.1449, 4.0077, 3.9022, 3.8225,
    3.7635, 3.7213, 3.6923, 3.6738, 3.663, 3.6579, 3.6563, 3.6564, 3.6568,
  ],
  flux: [
    8.2353, 7.6162, 7.07, 6.5855, 6.1613, 5.7949, 5.4839, 5.225, 5.0134, 4.8434, 4.7091, 4.6049,
    4.5258, 4.4672, 4.4255, 4.3973, 4.3795, 4.3695, 4.365, 4.3637, 4.3636,
  ],
};

/** Straight lines between equally spaced values over 0..1. */
function between(values: readonly number[], share: number): number {
  const t = Math.min(1, Math.max(0, share)) * (values.length - 1);
  const cell = Math.min(values.length - 2, Math.trunc(t));
  return values[cell] + (t - cell) * (values[cell + 1] - values[cell]);
}

/**
 * Round tube.
 *
 * @example roundNusselt('temperature') // 3.657
 * @example roundNusselt('flux') // 4.364
 * Source: exact (Graetz 1883; 48/11).
 */
export function roundNusselt(wall: WallCondition): number {
  return ROUND[wall];
}

/**
 * Regular polygon.
 *
 * @param sides 3 or more; from a table up to 12, above by 1/sides^2 towards the circle (within 0.2 %).
 * @example polygonNusselt(4, 'temperature') // 2.978
 * @example polygonNusselt(4, 'flux') // 3.608
 * Source: own finite elements, checked against Shah & London 1978.
 */
export function polygonNusselt(sides: number, wall: WallCondition): number {
  const table = POLYGON[wall];
  if (sides <= 12) return table[Math.max(0, Math.round(sides) - 3)];
  return ROUND[wall] - ((ROUND[wall] - table[9]) * 144) / (sides * sides);
}

/**
 * Circle with a roof (teardrop): strength 0 is the plain circle, 1 the full 45-degree roof.
 *
 * @example teardropNusselt(1, 'temperature') // 3.4645
 * Source: own finite elements, straight lines between nine strengths.
 */
export function teardropNusselt(roof: number, wall: WallCondition): number {
  return between(TEARDROP[wall], roof);
}

/**
 * Round-ended slot (obround) of any aspect = long side / short side, 1 (circle) upward (plates).
 *
 * @example slotNusselt(2, 'temperature') // 3.9022
 * @example slotNusselt(1e9, 'flux') // 8.2353
 * Source: own finite elements, straight lines between 21 aspects (within 0.2 %).
 */
export function slotNusselt(aspect: number, wall: WallCondition): number {
  return between(SLOT[wall], 1 / Math.max(1, aspect));
}
