/** Width of a section as a box whose height is the chord through its middle. */
import { polarRadius } from '../design/index.ts';
import type { Section } from '../design/index.ts';

// A section spread over area / chord has its chord through the middle throughout; a disc's is 2 R.
const DISC = Math.PI / 4;

/**
 * Area of a section over its chord through the middle at right angles to a direction [mm].
 *
 * @param c component of the direction along the section's first axis.
 * @param s component along its second axis; the part out of the section's plane is left out.
 * @example sectionWidth({ kind: 'slot', aspect: 1 }, 4, 12.566, 1, 0) // 3.1415
 */
export function sectionWidth(
  section: Section,
  bore_mm: number,
  area_mm2: number,
  c: number,
  s: number,
): number {
  if (section.kind === 'round' || section.kind === 'teardrop') return DISC * bore_mm;
  const size = Math.sqrt(c * c + s * s);
  if (size < 1e-6) return DISC * bore_mm;
  const up = polarRadius(section, bore_mm, 0, -s / size, c / size);
  const down = polarRadius(section, bore_mm, 0, s / size, -c / size);
  return area_mm2 / (up + down);
}
