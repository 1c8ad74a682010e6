/** Solid between channels and the outer edge of the plate. */
import { insideDistance } from '../../design/index.ts';
import { footprintSupport, footprintX, footprintY, isPresent } from './ligament-gaps.ts';
import type { Footprints } from './ligament-gaps.ts';

/** Solid from the ends of a slot to the outer edge, the shorter [mm]. */
export function endGap(
  prints: Footprints,
  channel: number,
  ux: number,
  uy: number,
  half_mm: number,
): number {
  const middle = prints.levels >> 1;
  const x = footprintX(prints, channel, middle);
  const y = footprintY(prints, channel, middle);
  const { outline } = prints.samples.plate;
  return Math.min(
    insideDistance(outline, x + half_mm * ux, y + half_mm * uy),
    insideDistance(outline, x - half_mm * ux, y - half_mm * uy),
  );
}

/** Solid between a channel and the outer edge, as seen from its middle outwards [mm]. */
export function edgeGap(prints: Footprints, channel: number): number {
  const { outline } = prints.samples.plate;
  let least = Infinity;
  for (let level = 0; level < prints.levels; level++) {
    if (!isPresent(prints, channel, level)) continue;
    const shape = prints.samples.shapeOf[channel];
    const x = footprintX(prints, channel, level);
    const y = footprintY(prints, channel, level);
    for (let n = 0; n < 8; n++) {
      const [ux, uy] = COMPASS[n];
      const reach = footprintSupport(prints, shape, level, ux, uy);
      least = Math.min(least, insideDistance(outline, x + reach * ux, y + reach * uy));
    }
  }
  return least;
}

const COMPASS: readonly (readonly [number, number])[] = [
  [1, 0],
  [Math.SQRT1_2, Math.SQRT1_2],
  [0, 1],
  [-Math.SQRT1_2, Math.SQRT1_2],
  [-1, 0],
  [-Math.SQRT1_2, -Math.SQRT1_2],
  [0, -1],
  [Math.SQRT1_2, -Math.SQRT1_2],
];
