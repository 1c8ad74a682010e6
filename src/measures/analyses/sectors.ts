/** How the flow through the rim spreads over the sectors that the brief opens. */
import { END } from '../../design/index.ts';
import { atan2, degrees } from '../../numeric/index.ts';
import type { Analysis } from '../assessment.ts';
import { flowAnalysis } from './flow.ts';

interface SectorReport {
  /** Least over greatest flow per degree of the parts; 1 when all are alike, 0 when one has none. */
  readonly evenness: number;
  /** Middle of each part [deg] and flow through it [m3/s]. */
  readonly middle_deg: readonly number[];
  readonly flow_m3_per_s: readonly number[];
}

/** A sector is looked at in parts of about this width: eight all around. */
const PART_DEG = 45;

interface Part {
  readonly middle_deg: number;
  readonly width_deg: number;
  flow: number;
}

interface Sector {
  readonly from_deg: number;
  readonly width_deg: number;
  readonly parts: Part[];
}

/**
 * Flow per part of the open sectors. An opening counts in the two parts whose middles lie on either
 * side of it, by nearness, so that one which lies between two parts is not tossed to either.
 */
export const sectorAnalysis: Analysis<SectorReport> = {
  name: 'sectors',
  run: (assessment) => {
    const { brief, samples } = assessment;
    const { route } = brief.air;
    if (route.kind !== 'side') throw new Error('Only a brief with side exits has sectors.');
    const { shapeFlow_m3_per_s } = assessment.get(flowAnalysis);
    const sectors = route.sectors.map(({ from_deg, to_deg }) => partsOf(from_deg, to_deg));
    const { sides, stations, point_mm, offset_mm } = samples;
    for (let n = 0; n < samples.channelCount; n++) {
      const m = samples.shapeOf[n];
      for (let end = 0; end < 2; end++) {
        if (sides?.kind[2 * m + end] !== END.rim) continue;
        const i = 3 * (m * stations + end * (stations - 1));
        const y = point_mm[i + 1] + offset_mm[2 * n + 1];
        const angle_deg = degrees(atan2(y, point_mm[i] + offset_mm[2 * n]));
        share(sectors, angle_deg, Math.abs(shapeFlow_m3_per_s[m]));
      }
    }
    const parts = sectors.flatMap((sector) => sector.parts);
    const densities = parts.map((part) => part.flow / part.width_deg);
    const most = Math.max(...densities);
    return {
      evenness: most > 0 ? Math.min(...densities) / most : 0,
      middle_deg: parts.map((part) => part.middle_deg),
      flow_m3_per_s: parts.map((part) => part.flow),
    };
  },
};

function partsOf(from_deg: number, to_deg: number): Sector {
  const width_deg = to_deg - from_deg;
  const count = Math.max(1, Math.round(width_deg / PART_DEG));
  const step = width_deg / count;
  const parts = Array.from({ length: count }, (_, k) => ({
    middle_deg: from_deg + (k + 0.5) * step,
    width_deg: step,
    flow: 0,
  }));
  return { from_deg, width_deg, parts };
}

/** Adds the flow at an angle to the sector it lies in, or to the nearest one. */
function share(sectors: readonly Sector[], angle_deg: number, flow: number): void {
  let [best] = sectors;
  let least = Infinity;
  for (const sector of sectors) {
    const off = Math.abs(turnBetween(sector.from_deg + 0.5 * sector.width_deg, angle_deg));
    const miss = Math.max(0, off - 0.5 * sector.width_deg);
    if (miss < least) [best, least] = [sector, miss];
  }
  const { parts, from_deg, width_deg } = best;
  const middle = from_deg + 0.5 * width_deg;
  const along = turnBetween(middle, angle_deg) + 0.5 * width_deg;
  const count = parts.length;
  const place = (along / width_deg) * count - 0.5;
  const low = Math.floor(place);
  const rest = place - low;
  const isRing = width_deg > 359.999;
  const at = (k: number): Part =>
    parts[isRing ? (k + count) % count : Math.min(count - 1, Math.max(0, k))];
  at(low).flow += (1 - rest) * flow;
  at(low + 1).flow += rest * flow;
}

/** Turn from one direction to another, within (-180, 180] [deg]. */
function turnBetween(from_deg: number, to_deg: number): number {
  const turn = (to_deg - from_deg) % 360;
  if (turn > 180) return turn - 360;
  return turn <= -180 ? turn + 360 : turn;
}
