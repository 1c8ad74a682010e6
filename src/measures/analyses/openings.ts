/** Openings as a finger, a tool or a sphere meets them. */
import type { Brief } from '../../brief/index.ts';
import type { PlateSamples, Section } from '../../design/index.ts';
import { areaInside, pocketBump } from '../../design/index.ts';
import { accessDigit, irregularDistance, safetyDistance } from '../../physics/index.ts';
import type { Containers, OpeningShape, ReachGroup } from '../../physics/index.ts';
import type { Analysis } from '../assessment.ts';
import { bankOf } from './banks.ts';
import { containersOf } from './containers.ts';
import { portArea } from './sight.ts';
import { sideWays } from './side-reach.ts';
import { tipsAnalysis } from './tips.ts';

interface OpeningsReport {
  /** Diameter of the largest sphere that passes the plate, tolerance included [mm]. */
  readonly probeOpening_mm: number;
  /** Least over the channels of distance to the hazard minus required distance [mm]. */
  readonly reachMargin_mm: number;
  /** Estimate of the first digit of an enclosure rating, the least of all channels [0..4]. */
  readonly accessDigit: number;
  /**
   * Area of the ports, the smaller face (or the rim, if that is less), over the area inside the rim; a port counts no more than
   * the narrowest place of its channel lets through.
   */
  readonly openArea: number;
}

/** Filament bores may come out wider than drawn by this [mm]; common practice, no source. */
export const OPENING_TOLERANCE_mm = 0.3;

export const openingsAnalysis: Analysis<OpeningsReport> = {
  name: 'openings',
  run(assessment) {
    const { brief } = assessment;
    const samples = assessment.get(tipsAnalysis);
    const { bladeDistance_mm, reach } = brief.safety;
    // Whoever reaches through a plenum passes one channel of each bank: the safer bank counts.
    const probe_mm = [0, 0, 0];
    const margin_mm = [Infinity, Infinity, Infinity];
    const digits = [4, 4, 4];
    const isOutward = isFanAtInlet(brief);
    const { sides } = samples;
    for (let m = 0; m < samples.shapeCount; m++) {
      const bank = bankOf(samples, m);
      const reachMargin_mm = margin_mm[bank];
      const digit = digits[bank];
      const shape = regularShape(samples.sections[m]);
      const narrowest = measureSizes(samples, m);
      if (sides !== null) sideWays(samples, sides, m, isOutward, way_mm);
      // Nowhere in the channel is less required than where every size is the least one.
      const least_mm = requiredDistance(shape, narrowest.about, narrowest.wider_mm, reach);
      let safest_mm = -Infinity;
      let best = 0;
      for (let i = 0; i < samples.stations; i++) {
        const row = m * samples.stations + i;
        const z_mm = samples.point_mm[3 * row + 2];
        // Whoever passes this place reaches on from here; between two faces the way is along z.
        const straight_mm = isOutward ? z_mm : samples.plate.thickness_mm - z_mm;
        const clear_mm = bladeDistance_mm + (sides === null ? Math.max(0, straight_mm) : way_mm[i]);
        // A shape that turned out no worse than the worst one so far need not be followed further.
        if (best >= digit && safest_mm >= reachMargin_mm) break;
        if (best < digit) {
          best = Math.max(best, accessDigit(samples.bore_mm[row] + wider_mm[i], clear_mm));
        }
        if (safest_mm >= reachMargin_mm || clear_mm - least_mm <= safest_mm) continue;
        scale(about, samples.sections[m], samples.roof[row], samples.bore_mm[row]);
        const required_mm = requiredDistance(shape, about, wider_mm[i], reach);
        safest_mm = Math.max(safest_mm, clear_mm - required_mm);
      }
      probe_mm[bank] = Math.max(probe_mm[bank], narrowest.sphere_mm);
      margin_mm[bank] = Math.min(reachMargin_mm, safest_mm);
      digits[bank] = Math.min(digit, best);
    }
    const hasPlenum = Boolean(samples.sides?.plenum);
    return {
      probeOpening_mm: Math.max(probe_mm[0], Math.min(probe_mm[1], probe_mm[2])),
      reachMargin_mm: hasPlenum
        ? Math.min(margin_mm[0], Math.max(margin_mm[1], margin_mm[2]))
        : margin_mm[0],
      accessDigit: hasPlenum ? Math.min(digits[0], Math.max(digits[1], digits[2])) : digits[0],
      openArea: openShare(samples),
    };
  },
};

/** Whether the fan stands before the inlet face: it blows out through the rim. */
function isFanAtInlet({ air: { route } }: Brief): boolean {
  return route.kind === 'side' && route.direction === 'outward';
}

/** How much wider than the bare section each station of a shape is [mm]. */
let wider_mm = new Float64Array(32);

/** Way from each station of a shape with side ends to the face at the fan [mm]. */
let way_mm = new Float64Array(32);

/** Sizes of the regular openings about a section [mm]. */
interface Sizes {
  slot: number;
  square: number;
  round: number;
}

const about: Sizes = { slot: 0, square: 0, round: 0 };

function scale(out: Sizes, section: Section, roof: number, bore_mm: number): void {
  const unit = containersOf(section, roof);
  out.slot = unit.slot * bore_mm;
  out.square = unit.square * bore_mm;
  out.round = unit.round * bore_mm;
}

/**
 * Fills `wider_mm` for a shape.
 *
 * @returns the least of each size, of the widening, and the largest sphere that passes [mm].
 */
function measureSizes(
  samples: PlateSamples,
  m: number,
): { about: Containers; wider_mm: number; sphere_mm: number } {
  const { stations, bore_mm, roof } = samples;
  if (wider_mm.length < stations) {
    wider_mm = new Float64Array(stations);
    way_mm = new Float64Array(stations);
  }
  const section = samples.sections[m];
  const hasPockets = samples.pockets[m].length > 0;
  let least_mm = Infinity;
  let narrow_mm = Infinity;
  let sphere_mm = Infinity;
  let leastRoof = 1;
  for (let i = 0; i < stations; i++) {
    const row = m * stations + i;
    const more_mm = (hasPockets ? bulge(samples, m, i) : 0) + OPENING_TOLERANCE_mm;
    wider_mm[i] = more_mm;
    if (more_mm < least_mm) least_mm = more_mm;
    if (bore_mm[row] < narrow_mm) narrow_mm = bore_mm[row];
    if (bore_mm[row] + more_mm < sphere_mm) sphere_mm = bore_mm[row] + more_mm;
    if (roof[row] < leastRoof) leastRoof = roof[row];
  }
  const least: Sizes = { slot: 0, square: 0, round: 0 };
  scale(least, section, leastRoof, narrow_mm);
  return { about: least, wider_mm: least_mm, sphere_mm };
}

/** Distance asked for behind an opening: by its own column, or by the openings about it. */
function requiredDistance(
  shape: OpeningShape | 'irregular',
  sizes: Containers,
  more_mm: number,
  group: ReachGroup,
): number {
  if (shape === 'irregular') return irregularDistance(sizes, more_mm, group);
  return safetyDistance(shape, sizes[shape] + more_mm, group);
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

/** The column of the tables for a section; teardrops and other polygons have none of their own. */
function regularShape(section: Section): OpeningShape | 'irregular' {
  if (section.kind === 'slot' || section.kind === 'round') return section.kind;
  return section.kind === 'polygon' && section.sides === 4 ? 'square' : 'irregular';
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
    const bank = bankOf(samples, samples.shapeOf[n]);
    // Ends inside a plenum are no ports of the plate.
    if (bank !== 2) inlet += openings[2 * samples.shapeOf[n]];
    if (bank !== 1) outlet += openings[2 * samples.shapeOf[n] + 1];
  }
  return Math.min(inlet, outlet) / inside.area_mm2;
}
