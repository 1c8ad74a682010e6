/** Ribs: full-depth webs that break long slots into shorter ones in a row. */
import type { Brief } from '../brief/index.ts';
import { FAST_STATIONS, cosDeg, sampleDesign, sinDeg } from '../design/index.ts';
import type { Channel, Placement, Plate, PlateSamples } from '../design/index.ts';

/** A channel and into how many parts ribs break each of its slots, which stand in a row. */
export interface Ribbed {
  readonly channel: Channel;
  readonly parts: number;
}

/** How one slot is broken. */
interface Break {
  readonly parts: number;
  readonly aspect: number;
  /** From part to part in the plane, before mirror and turn [mm]. */
  readonly stepX_mm: number;
  readonly stepY_mm: number;
}

/**
 * Width of a rib [mm]: the least whole number of lines that makes the minimum wall.
 *
 * @example ribWidth({ lineWidth_mm: 0.4, minimumWall_mm: 0.9 }).toFixed(9) // '1.200000000'
 */
export function ribWidth(
  process: Pick<Brief['process'], 'lineWidth_mm' | 'minimumWall_mm'>,
): number {
  const lines = Math.ceil(process.minimumWall_mm / process.lineWidth_mm - 1e-9);
  return lines * process.lineWidth_mm;
}

/**
 * A slot's channel with its ribs, when the brief lets them be set by themselves: as few equal parts
 * as keep every part's ceiling within the bridge limit (half of it where the slot lies level), where
 * the slot's flat sides hang more than the overhang limit allows, and every part within
 * `routes.longestSlat_mm`.
 *
 * The parts and the ribs between take up the slot's own length, where it is widest; elsewhere the
 * ribs are wider. Parts are no shorter than wide: a bore beyond the bridge limit stays one.
 */
export function ribbed(brief: Brief, plate: Plate, channel: Channel): Ribbed {
  const { section } = channel;
  if (brief.routes.ribs === 'none' || section.kind !== 'slot') return { channel, parts: 1 };
  // As drawn first, then every standing: on edge a turn decides what hangs.
  const bare = { ...channel, pockets: [], placements: [DRAWN, ...channel.placements] };
  const samples = sampleDesign({ plate, channels: [bare] }, FAST_STATIONS);
  const broken = breakSlot(brief, samples, section.aspect);
  if (broken === null) return { channel, parts: 1 };
  return {
    channel: {
      ...channel,
      section: { kind: 'slot', aspect: broken.aspect },
      placements: channel.placements.flatMap((place) => partsOf(place, broken)),
    },
    parts: broken.parts,
  };
}

const DRAWN: Placement = { x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false };

function breakSlot(brief: Brief, samples: PlateSamples, aspect: number): Break | null {
  const { process, routes } = brief;
  const { first, tangent, bore_mm, stations } = samples;
  let widest = 0;
  for (let row = 0; row < stations; row++) widest = Math.max(widest, bore_mm[row]);
  const most = Math.min(
    process.bridgeLimit_mm / Math.max(1e-9, hangingWidth(samples, process.overhangLimit_deg)),
    (routes.longestSlat_mm ?? Infinity) / widest,
  );
  if (aspect <= most) return null;
  if (Math.abs(tangent[2]) < LEAST_RISE) return null;
  // Parts stand apart along the slot's long side, sheared along the channel into the plane.
  const x = first[0] - (tangent[0] * first[2]) / tangent[2];
  const y = first[1] - (tangent[1] * first[2]) / tangent[2];
  const size = Math.sqrt(x * x + y * y);
  // Where a bend turns the long side out of the plane, the parts come closer.
  let close = Infinity;
  for (let row = 0; row < stations; row++) {
    close = Math.min(close, Math.abs(x * first[3 * row] + y * first[3 * row + 1]) / size);
  }
  const inlet = Math.abs(x * first[0] + y * first[1]) / size;
  if (!(close > LEAST_CLOSE)) return null;
  const rib = ribWidth(process) + SPARE_mm;
  let best: { parts: number; aspect: number } | null = null;
  for (let parts = 2; ; parts++) {
    const room = (aspect * widest) / inlet - ((parts - 1) * rib) / close;
    const each = room / (widest * ((parts - 1) / close + 1 / inlet));
    if (each < 1) break;
    best = { parts, aspect: each };
    if (each <= most) break;
  }
  if (best === null) return null;
  const step = (best.aspect * widest + rib) / close;
  return { ...best, stepX_mm: (step * x) / size, stepY_mm: (step * y) / size };
}

/** A channel that sets out flatter than this runs along the plate [cosine]. */
const LEAST_RISE = 0.2;
/** Ribs of the minimum wall must not read a rounding thinner [mm]. */
const SPARE_mm = 1e-6;
/** Parts whose long side leans more than this out of the plane would need endless ribs [cosine]. */
const LEAST_CLOSE = 0.3;

/**
 * Widest bore where a flat side hangs beyond the overhang limit; 0 where none does [mm]. Where the
 * slot lies level it counts twice: its round ends close in from both sides, which holds over half the
 * bridge limit only.
 */
function hangingWidth(samples: PlateSamples, overhangLimit_deg: number): number {
  const { second, tangent, bore_mm, plate, stations } = samples;
  const up = plate.build === 'edge' ? 1 : 2;
  const limit = sinDeg(Math.min(89.9, overhangLimit_deg + SLACK_deg));
  let widest = 0;
  for (let n = 1; n < samples.channelCount; n++) {
    const shape = samples.shapeOf[n];
    // Standings of one shape hang alike.
    if (n > 1 && shape === samples.shapeOf[n - 1]) continue;
    for (let row = shape * stations; row < (shape + 1) * stations; row++) {
      if (Math.abs(second[3 * row + up]) <= limit) continue;
      const weight = Math.abs(tangent[3 * row + up]) < LEVEL ? 2 : 1;
      widest = Math.max(widest, weight * bore_mm[row]);
    }
  }
  return widest;
}

/** A channel that climbs less than this lies level [sine of 30 degrees]. */
const LEVEL = 0.5;
/** Sides drawn right at the limit print: the slack that overhangs are measured with. */
const SLACK_deg = 1;

function partsOf(place: Placement, broken: Break): Placement[] {
  const c = cosDeg(place.turn_deg);
  const s = sinDeg(place.turn_deg);
  const dx = place.mirrored ? -broken.stepX_mm : broken.stepX_mm;
  const dy = broken.stepY_mm;
  return Array.from({ length: broken.parts }, (_, i) => {
    const share = i - 0.5 * (broken.parts - 1);
    return {
      ...place,
      x_mm: place.x_mm + share * (c * dx - s * dy),
      y_mm: place.y_mm + share * (s * dx + c * dy),
    };
  });
}
