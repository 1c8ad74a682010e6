/** Openings as a finger, a tool or a sphere meets them. */
import type { PlateSamples, Section } from '../../design/index.ts';
import { apexDistance, areaInside, circumradius, pocketBump } from '../../design/index.ts';
import { safetyDistance } from '../../physics/index.ts';
import type { OpeningShape } from '../../physics/index.ts';
import type { Analysis } from '../assessment.ts';
import { portArea } from './sight.ts';

export interface OpeningsReport {
  /** Diameter of the largest sphere that passes the plate, tolerance included [mm]. */
  readonly probeOpening_mm: number;
  /** Least over the channels of distance to the hazard minus required distance [mm]. */
  readonly reachMargin_mm: number;
  /**
   * Area of the ports, the smaller face, over the area inside the rim; a port counts no more than
   * the narrowest place of its channel lets through.
   */
  readonly openArea: number;
}

/** Filament bores may come out wider than drawn by this [mm]; common practice, no source. */
export const OPENING_TOLERANCE_mm = 0.3;

export const openingsAnalysis: Analysis<OpeningsReport> = {
  name: 'openings',
  run({ brief, samples }) {
    const { bladeDistance_mm, reach } = brief.safety;
    let probeOpening_mm = 0;
    let reachMargin_mm = Infinity;
    for (let m = 0; m < samples.shapeCount; m++) {
      const shape = openingShape(samples.sections[m]);
      const narrowest = measureSizes(samples, m);
      // Nowhere in the channel is less required than at its narrowest place.
      const least_mm = safetyDistance(shape, narrowest.size_mm, reach);
      let safest_mm = -Infinity;
      // A shape that turns out safer than the least safe one so far need not be followed further.
      for (let i = 0; i < samples.stations && safest_mm < reachMargin_mm; i++) {
        const z_mm = samples.point_mm[3 * (m * samples.stations + i) + 2];
        // Whoever passes this place reaches on from here; the shortest way to the blades is along z.
        const depth_mm = Math.max(0, samples.plate.thickness_mm - z_mm);
        if (bladeDistance_mm + depth_mm - least_mm <= safest_mm) continue;
        const required_mm = safetyDistance(shape, sizes_mm[i], reach);
        safest_mm = Math.max(safest_mm, bladeDistance_mm + depth_mm - required_mm);
      }
      probeOpening_mm = Math.max(probeOpening_mm, narrowest.sphere_mm);
      reachMargin_mm = Math.min(reachMargin_mm, safest_mm);
    }
    return { probeOpening_mm, reachMargin_mm, openArea: openShare(samples) };
  },
};

let sizes_mm = new Float64Array(32);

/**
 * Fills `sizes_mm` with the size of the opening at each station of a shape.
 *
 * @returns the least of them, and the diameter of the largest sphere that passes the shape [mm].
 */
function measureSizes(samples: PlateSamples, m: number): { size_mm: number; sphere_mm: number } {
  const { stations, bore_mm, roof } = samples;
  if (sizes_mm.length < stations) sizes_mm = new Float64Array(stations);
  const section = samples.sections[m];
  const hasPockets = samples.pockets[m].length > 0;
  let size_mm = Infinity;
  let sphere_mm = Infinity;
  // Sizes go with the bore: only a roof that comes and goes needs the section's own formula.
  let roofed = -1;
  let unitSize = 0;
  for (let i = 0; i < stations; i++) {
    const row = m * stations + i;
    if (roof[row] !== roofed) {
      roofed = roof[row];
      unitSize = openingSize(section, 1, roofed);
    }
    const wider_mm = (hasPockets ? bulge(samples, m, i) : 0) + OPENING_TOLERANCE_mm;
    const size = unitSize * bore_mm[row] + wider_mm;
    const sphere = bore_mm[row] + wider_mm;
    sizes_mm[i] = size;
    if (size < size_mm) size_mm = size;
    if (sphere < sphere_mm) sphere_mm = sphere;
  }
  return { size_mm, sphere_mm };
}

/** How far pockets widen a station at most [mm]. */
function bulge(samples: PlateSamples, shape: number, station: number): number {
  const length_mm = samples.length_mm[shape];
  const arc_mm = (length_mm * station) / (samples.stations - 1);
  let sum = 0;
  // Pockets on two sides widen the place from both.
  for (const pocket of samples.pockets[shape]) sum += pocketBump(pocket, arc_mm, length_mm);
  return sum;
}

/** The regular opening of the tables that contains a section. */
function openingShape(section: Section): OpeningShape {
  if (section.kind === 'slot') return 'slot';
  return section.kind === 'polygon' && section.sides === 4 ? 'square' : 'round';
}

/** Its size [mm]: slot width, square side, or diameter of the round opening about the section. */
function openingSize(section: Section, bore_mm: number, roof: number): number {
  switch (section.kind) {
    case 'round':
    case 'slot':
      return bore_mm;
    case 'teardrop':
      return 0.5 * bore_mm + apexDistance(bore_mm, roof);
    case 'polygon':
      return section.sides === 4 ? bore_mm : 2 * circumradius(section, bore_mm, roof);
    default:
      return unknownSection(section);
  }
}

function unknownSection(section: never): never {
  throw new Error(`Unknown section ${JSON.stringify(section)}.`);
}

// One brief has one outline; polygons take 2000 strips to measure.
const insideAreas = new WeakMap<object, { rim_mm: number; area_mm2: number }>();

/** What the inlet and outlet port of each shape count [shapes x 2] [mm2]. */
let openings = new Float64Array(0);

function openShare(samples: PlateSamples): number {
  const { outline, rim_mm } = samples.plate;
  let inside = insideAreas.get(outline);
  if (inside?.rim_mm !== rim_mm) {
    inside = { rim_mm, area_mm2: areaInside(outline, rim_mm) };
    insideAreas.set(outline, inside);
  }
  if (!(inside.area_mm2 > 0)) return 0;
  let inlet = 0;
  let outlet = 0;
  const last = samples.stations - 1;
  if (openings.length < 2 * samples.shapeCount) openings = new Float64Array(4 * samples.shapeCount);
  for (let m = 0; m < samples.shapeCount; m++) {
    const base = m * samples.stations;
    let throat_mm2 = Infinity;
    for (let k = base; k <= base + last; k++) {
      throat_mm2 = Math.min(throat_mm2, samples.area_mm2[k]);
    }
    openings[2 * m] = portArea(samples, m, 0) * (throat_mm2 / samples.area_mm2[base]);
    openings[2 * m + 1] = portArea(samples, m, last) * (throat_mm2 / samples.area_mm2[base + last]);
  }
  for (let n = 0; n < samples.channelCount; n++) {
    inlet += openings[2 * samples.shapeOf[n]];
    outlet += openings[2 * samples.shapeOf[n] + 1];
  }
  return Math.min(inlet, outlet) / inside.area_mm2;
}
