/** Width of a section as a box whose height is the chord through its middle. */
import { cosDeg, polarRadius, sectionSupport, sinDeg } from '../design/index.ts';
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

/**
 * How far a section reaches along a direction from its middle, the mean of both ways [mm]; a
 * teardrop's roof is left out, as in `sectionWidth`.
 *
 * @param c component of the direction along the section's first axis, unit with `s`.
 * @example sectionExtent({ kind: 'slot', aspect: 3 }, 4, 1, 0) // 6
 */
export function sectionExtent(section: Section, bore_mm: number, c: number, s: number): number {
  if (section.kind === 'round' || section.kind === 'teardrop') return 0.5 * bore_mm;
  return (
    0.5 * (sectionSupport(section, bore_mm, 0, c, s) + sectionSupport(section, bore_mm, 0, -c, -s))
  );
}

/** Share of a disc's area within the middle half of its width: 1 / 3 + sqrt(3) / (2 pi). */
const DISC_MIDDLE = 0.6089977810442293;

/** Corners of regular polygons about their middle, circumradius 1 [sides x 2], by their sides. */
const corners = new Map<number, Float64Array>();

function cornersOf(sides: number): Float64Array {
  let known = corners.get(sides);
  if (known === undefined) {
    known = new Float64Array(2 * sides);
    for (let k = 0; k < sides; k++) {
      known[2 * k] = cosDeg((360 * (k + 0.5)) / sides);
      known[2 * k + 1] = sinDeg((360 * (k + 0.5)) / sides);
    }
    corners.set(sides, known);
  }
  return known;
}

/** Chord of a regular polygon of circumradius 1 at an offset along a direction. */
function polygonChord(at: Float64Array, c: number, s: number, offset: number): number {
  let low = Infinity;
  let high = -Infinity;
  let x0 = at[at.length - 2] * c + at[at.length - 1] * s - offset;
  let y0 = at[at.length - 1] * c - at[at.length - 2] * s;
  for (let k = 0; k < at.length; k += 2) {
    const x1 = at[k] * c + at[k + 1] * s - offset;
    const y1 = at[k + 1] * c - at[k] * s;
    if (x0 < 0 !== x1 < 0) {
      const y = y0 + (x0 / (x0 - x1)) * (y1 - y0);
      low = Math.min(low, y);
      high = Math.max(high, y);
    }
    x0 = x1;
    y0 = y1;
  }
  return Math.max(0, high - low);
}

/**
 * Share of a round or polygonal section's area within the middle half of its extent along a direction;
 * polygons by their chords at a quarter and at three quarters of it.
 *
 * @param c component of the direction along the section's first axis, unit with `s`.
 * @example sectionMiddle({ kind: 'round' }, 1, 0) // 0.609
 * @example sectionMiddle({ kind: 'polygon', sides: 4 }, 1, 0) // 0.5
 */
export function sectionMiddle(section: Section, c: number, s: number): number {
  if (section.kind !== 'polygon') return DISC_MIDDLE;
  const at = cornersOf(section.sides);
  const extent = sectionExtent(section, 2 * cosDeg(180 / section.sides), c, s);
  let inner = 0;
  let outer = 0;
  // Even sides are alike either way.
  for (let way = section.sides % 2 === 0 ? 1 : -1; way <= 1; way += 2) {
    inner += polygonChord(at, c, s, 0.25 * way * extent);
    outer += polygonChord(at, c, s, 0.75 * way * extent);
  }
  return inner / (inner + outer);
}
