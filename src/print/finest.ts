/** The finest opening a plate asks the printer for. */
import type { Process } from '../brief/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { sin } from '../numeric/index.ts';

/**
 * Finest opening as printed [mm]: the least bore less the shrinkage of holes, the length of a
 * pocket's mouth, or its width as a chord of the bore; teeth are taken at their tips. Mounting holes count too.
 *
 *   min(bore - shrinkage, pocket length, bore sin(width / 2))
 *
 * A plate without openings has its thickness. Walls are the clearance measures' matter. Source: common practice of filament printing, no source.
 */
export function finestOpening(samples: PlateSamples, process: Process): number {
  const { bore_mm, stations, shapeCount, plate } = samples;
  let least = plate.thickness_mm + process.holeShrinkage_mm;
  for (const hole of plate.holes) least = Math.min(least, hole.diameter_mm);
  for (let i = 0; i < shapeCount * stations; i++) if (bore_mm[i] < least) least = bore_mm[i];
  if (samples.teeth !== null) {
    const { height_mm } = samples.teeth;
    for (let i = 0; i < shapeCount * stations; i++) {
      least = Math.min(least, bore_mm[i] - 2 * height_mm[i]);
    }
  }
  least -= process.holeShrinkage_mm;
  for (let shape = 0; shape < shapeCount; shape++) {
    for (const pocket of samples.pockets[shape]) {
      const station = Math.round(Math.min(1, Math.max(0, pocket.at)) * (stations - 1));
      const bore = bore_mm[shape * stations + station];
      const half = (Math.min(180, pocket.width_deg) / 2) * (Math.PI / 180);
      const open = bore - (pocket.lip_mm ?? 0) - process.holeShrinkage_mm;
      least = Math.min(least, pocket.length_mm, bore * sin(half), open);
    }
  }
  return Math.max(0, least);
}
