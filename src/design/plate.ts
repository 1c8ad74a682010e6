/** The plate a brief asks for, once thickness and build direction are chosen. */
import { mountingHoles } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';

import type { Build, Hole, Plate } from './model.ts';

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
