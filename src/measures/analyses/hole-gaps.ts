/** Solid between channels and mounting holes, which are round openings through the whole thickness. */
import { footprintSupport, footprintX, footprintY, isPresent } from './ligament-gaps.ts';
import type { Footprints } from './ligament-gaps.ts';

/** A channel as a mounting hole's neighbour. */
interface Near {
  readonly channel: number;
  readonly solid_mm: number;
}

/**
 * Channels next to a mounting hole with the solid between, the mean over the depths at which the
 * channel is met; nearest first.
 *
 * @param hole index into the plate's holes.
 * @param channels channels looked at, those before this index.
 * @param most neighbours given.
 * @param widest solid wider than so many times the larger of both reaches is no ligament.
 */
export function channelsByHole(
  prints: Footprints,
  hole: number,
  channels: number,
  most: number,
  widest: number,
): Near[] {
  const { samples, levels, middle } = prints;
  const { x_mm, y_mm, diameter_mm } = samples.plate.holes[hole];
  const found: Near[] = [];
  for (let i = 0; i < channels; i++) {
    const reach = middle[3 * i + 2];
    const dx = middle[3 * i] - x_mm;
    const dy = middle[3 * i + 1] - y_mm;
    const far = (widest + 1) * Math.max(reach, 0.5 * diameter_mm) + reach + 0.5 * diameter_mm;
    if (dx * dx + dy * dy > far * far || !isPresent(prints, i, levels >> 1)) continue;
    let sum = 0;
    let met = 0;
    for (let level = 0; level < levels; level++) {
      if (!isPresent(prints, i, level)) continue;
      const x = footprintX(prints, i, level) - x_mm;
      const y = footprintY(prints, i, level) - y_mm;
      const way = Math.sqrt(x * x + y * y);
      if (!(way > 0)) continue;
      const own = footprintSupport(prints, samples.shapeOf[i], level, -x / way, -y / way);
      sum += way - own - 0.5 * diameter_mm;
      met++;
    }
    if (met === 0) continue;
    const solid_mm = Math.max(0, sum / met);
    if (solid_mm <= widest * Math.max(reach, 0.5 * diameter_mm))
      found.push({ channel: i, solid_mm });
  }
  return found.toSorted((a, b) => a.solid_mm - b.solid_mm || a.channel - b.channel).slice(0, most);
}
