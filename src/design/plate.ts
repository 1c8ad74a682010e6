/** The plate a brief asks for, once thickness and build direction are chosen. */
import { mountingHoles } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';

import type { Build, Hole, Plate } from './model.ts';
import { insideDistance } from './outline.ts';

// Holes of the last mounting met: a search has one, and what is drawn of a plate's rows is kept for
// as long as its outline and holes are the same objects.
let known: { mounting: Brief['plate']['mounting']; holes: readonly Hole[] } | null = null;

export function plateOf(brief: Brief, thickness_mm: number, build: Build): Plate {
  const { mounting } = brief.plate;
  if (known?.mounting !== mounting) known = { mounting, holes: mountingHoles(mounting) };
  return {
    outline: brief.plate.outline,
    thickness_mm,
    rim_mm: brief.plate.rim_mm,
    holes: known.holes,
    build,
  };
}

/**
 * Solid left between a circle on a face and what it must keep clear of [mm]: the inner edge of
 * the rim, and every mounting hole. Negative when it reaches into one of them.
 *
 * @param radius_mm radius of the circle about (x, y).
 */
export function portMargin(plate: Plate, x_mm: number, y_mm: number, radius_mm: number): number {
  let margin = insideDistance(plate.outline, x_mm, y_mm) - plate.rim_mm;
  for (const hole of plate.holes) {
    const dx = x_mm - hole.x_mm;
    const dy = y_mm - hole.y_mm;
    margin = Math.min(margin, Math.sqrt(dx * dx + dy * dy) - 0.5 * hole.diameter_mm);
  }
  return margin - radius_mm;
}
