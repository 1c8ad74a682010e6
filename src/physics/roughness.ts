/** Roughness of printed walls. */

/**
 * Mean peak-to-valley height of a printed channel wall.
 *
 *   eps = t (0.2 + 0.95 s),  s = sine of the angle between the channel's axis and the build direction
 *
 * A facet inclined at g from the horizontal has steps of t cos g; around a channel cos g = s |sin phi|,
 * mean (2/pi) s, and down-facing halves come out about twice as rough as up-facing ones: factor 1.5.
 * An upright wall keeps the scallops of its beads, 0.1..0.3 t.
 *
 * @param layer_m layer height t [m]. @param sine s [0..1].
 * @returns roughness height [m].
 * @example printRoughness(0.2, 0) // 0.04
 * Source: stair-step geometry (Perez 2001, Strano 2013); the factor for down-facing walls and the
 * bead scallops are common practice, no source; using peak-to-valley as sand roughness is an own heuristic.
 */
export function printRoughness(layer_m: number, sine: number): number {
  return layer_m * (0.2 + 0.95 * sine);
}
