/** From a design back to genes, for designs that the genome can make or nearly make. */
import type { Brief } from '../brief/index.ts';
import { normalTurn, sampleDesign } from '../design/index.ts';
import type { Channel, Design, Section } from '../design/index.ts';
import { atan2, degrees, radians, cos, sin } from '../numeric/index.ts';
import { designOf } from './decode.ts';
import { MOST_BENDS } from './genes.ts';
import type { Gene } from './genes.ts';
import { pitches } from './pitch.ts';
import { writeRow } from './row.ts';
import type { NamedGenes } from './row.ts';
import type { TraitReader } from './traits.ts';

/** A row of genes, or why there is none. */
export type Expressed = Float64Array | { readonly reason: string };

/** Share of the channels that may be missing or too many. */
const COUNT_TOLERANCE = 0.25;

/**
 * Best effort: section, bores, bends, lean and pockets of the channel nearest the plate's middle;
 * lattice, pitch and turn from the neighbours' places; motif from mirrors, turns and differences.
 * Every combination of lattice and motif that the brief allows is decoded; the one whose ports lie
 * nearest to the design's wins, provided it has about as many.
 */
export function expressDesign(
  brief: Brief,
  genes: readonly Gene[],
  read: TraitReader,
  design: Design,
): Expressed {
  const refusal = refuse(brief, genes, design);
  if (refusal) return { reason: refusal };
  const ports = portsOf(design);
  const middle = nearest(ports, 0, 0);
  const { channel } = ports[middle];
  const own = channelGenes(channel, design);
  const step = stepsOf(ports);
  const axis = ports.length > 1 ? rowAxis(ports, middle) : 0;
  let best: { row: Float64Array; miss: number } | null = null;
  for (const lattice of new Set(brief.routes.lattices)) {
    for (const motif of new Set(brief.routes.motifs)) {
      const named: NamedGenes = {
        ...own,
        lattice,
        motif,
        build: design.plate.build,
        rotation_deg: axis,
        ligament_mm: Math.max(0, step - channel.bore_mm[0]),
      };
      const row = fitPitch(genes, read, named, step);
      const decoded = designOf(brief, read(row, 0));
      if (!decoded.ok) continue;
      const miss = misfit(design, decoded.design);
      if (best === null || miss < best.miss) best = { row, miss };
    }
  }
  if (best === null)
    return { reason: 'No lattice of the brief places a single channel like these.' };
  if (best.miss > COUNT_TOLERANCE) {
    const share = Math.round(100 * best.miss);
    return {
      reason:
        `The nearest regular pattern misses ${share} % of the ports (allowed: ` +
        `${100 * COUNT_TOLERANCE} %); only ports on a square, hexagonal or ring lattice about the ` +
        'plate centre can be expressed.',
    };
  }
  return best.row;
}

function refuse(brief: Brief, genes: readonly Gene[], design: Design): string | null {
  const { plate, channels } = design;
  const allowed = brief.plate.thickness_mm;
  const [thinnest, thickest] =
    typeof allowed === 'number' ? [allowed, allowed] : [allowed.min_mm, allowed.max_mm];
  if (plate.thickness_mm < thinnest - 1e-9 || plate.thickness_mm > thickest + 1e-9) {
    return `The design is ${plate.thickness_mm} mm thick; the brief allows ${thinnest} to ${thickest}.`;
  }
  if (brief.plate.build !== 'any' && brief.plate.build !== plate.build) {
    return `The design is built ${plate.build}; the brief asks for ${brief.plate.build}.`;
  }
  const kinds = new Set(channels.map((channel) => channel.section.kind));
  if (channels.length === 0) return 'The design has no channels.';
  if (kinds.size > 1) {
    return `The design mixes sections (${[...kinds].join(', ')}); genes have one for all channels.`;
  }
  const [kind] = kinds;
  if (!brief.routes.sections.includes(kind)) {
    return `The design's section is ${kind}; the brief allows ${brief.routes.sections.join(', ')}.`;
  }
  const bore = genes.find((gene) => gene.name === 'bore_mm');
  const least = bore?.min ?? brief.routes.bore_mm.min;
  const largest = bore?.max ?? brief.routes.bore_mm.max;
  for (const channel of channels) {
    for (const value of channel.bore_mm) {
      if (value < least - 1e-9 || value > largest + 1e-9) {
        return `The design has a bore of ${value} mm; the brief allows ${least} to ${largest}.`;
      }
    }
  }
  return null;
}

interface DrawnPort {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly channel: Channel;
}

/** Places of the channels: midway between their two openings, as lattice ports are. */
function portsOf(design: Design): DrawnPort[] {
  const ports: DrawnPort[] = [];
  for (const channel of design.channels) {
    const [ax, ay] = channel.points_mm[0];
    const [bx, by] = channel.points_mm[channel.points_mm.length - 1];
    for (const placement of channel.placements) {
      const turn = radians(placement.turn_deg);
      const x = (placement.mirrored ? -0.5 : 0.5) * (ax + bx);
      const y = 0.5 * (ay + by);
      ports.push({
        x_mm: placement.x_mm + cos(turn) * x - sin(turn) * y,
        y_mm: placement.y_mm + sin(turn) * x + cos(turn) * y,
        channel,
      });
    }
  }
  return ports;
}

function nearest(ports: readonly DrawnPort[], x: number, y: number, except = -1): number {
  let best = -1;
  let least = Infinity;
  for (let i = 0; i < ports.length; i++) {
    const dx = ports[i].x_mm - x;
    const dy = ports[i].y_mm - y;
    const square = dx * dx + dy * dy;
    if (i !== except && square < least) {
      least = square;
      best = i;
    }
  }
  return best;
}

/** Median distance to the nearest neighbour [mm]. */
function stepsOf(ports: readonly DrawnPort[]): number {
  if (ports.length < 2) return 1000;
  const steps = ports.map((port, i) => {
    const other = ports[nearest(ports, port.x_mm, port.y_mm, i)];
    const dx = other.x_mm - port.x_mm;
    const dy = other.y_mm - port.y_mm;
    return Math.sqrt(dx * dx + dy * dy);
  });
  steps.sort((a, b) => a - b);
  return steps[Math.trunc(steps.length / 2)];
}

/** Direction from the middle port to its nearest neighbour, within [0, 90) [deg]. */
function rowAxis(ports: readonly DrawnPort[], middle: number): number {
  const port = ports[middle];
  const other = ports[nearest(ports, port.x_mm, port.y_mm, middle)];
  const turn = normalTurn(degrees(atan2(other.y_mm - port.y_mm, other.x_mm - port.x_mm)));
  const quarter = turn % 90;
  return 90 - quarter < 1e-6 ? 0 : quarter;
}

/** Genes of one channel as it stands where the lattice is not turned. */
function channelGenes(channel: Channel, design: Design): Record<string, number | string> {
  const { thickness_mm } = design.plate;
  const { section, bore_mm } = channel;
  const middle = bore_mm[Math.trunc(bore_mm.length / 2)];
  const nominal = bore_mm.length > 1 ? middle : bore_mm[0];
  const first = channel.points_mm[0];
  const last = channel.points_mm[channel.points_mm.length - 1];
  const leanX = last[0] - first[0];
  const leanY = last[1] - first[1];
  const end = channel.inletDirection;
  const named: Record<string, number | string> = {
    section: section.kind,
    thickness_mm,
    bore_mm: nominal,
    inletBore: bore_mm[0] / nominal,
    middleBore: 1,
    outletBore: bore_mm[bore_mm.length - 1] / nominal,
    roll_deg: channel.roll_deg,
    leanX_mm: leanX,
    leanY_mm: leanY,
    ends: end !== null && end[2] > 0.9999 ? 'faces' : 'lean',
    ...sectionGenes(section),
    ...pocketGenes(channel),
  };
  const bends = bendPoints(channel, design);
  named.bends = bends.length;
  bends.forEach(([x, y, z], i) => {
    const depth = z / thickness_mm;
    named[`bend${i + 1}X_mm`] = x - first[0] - leanX * depth;
    named[`bend${i + 1}Y_mm`] = y - first[1] - leanY * depth;
    named[`bend${i + 1}Depth`] = 2 * (depth * (bends.length + 1) - (i + 1));
  });
  return named;
}

function sectionGenes(section: Section): Record<string, number> {
  if (section.kind === 'slot') return { slotAspect: section.aspect };
  if (section.kind === 'polygon') return { sides: section.sides };
  return {};
}

function pocketGenes(channel: Channel): Record<string, number> {
  const [pocket] = channel.pockets;
  if (!pocket) return {};
  return {
    pockets: channel.pockets.length,
    pocketDepth_mm: pocket.depth_mm,
    pocketLength_mm: pocket.length_mm,
    pocketWidth_deg: pocket.width_deg,
  };
}

/** Interior points as drawn, or as many taken from the centreline as genes can hold. */
function bendPoints(channel: Channel, design: Design): (readonly [number, number, number])[] {
  const interior = channel.points_mm.slice(1, -1);
  if (interior.length <= MOST_BENDS) return interior;
  const placements = [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }];
  const drawn = { ...channel, placements };
  const samples = sampleDesign(
    { plate: design.plate, channels: [drawn] },
    10 * (MOST_BENDS + 1) + 1,
  );
  return Array.from({ length: MOST_BENDS }, (_, i): [number, number, number] => {
    const at = 30 * (i + 1);
    const p = samples.point_mm;
    return [p[at], p[at + 1], p[at + 2]];
  });
}

/** Sets the ligament so that the lattice has the wanted pitch. */
function fitPitch(
  genes: readonly Gene[],
  read: TraitReader,
  named: NamedGenes,
  step_mm: number,
): Float64Array {
  let ligament_mm = Number(named.ligament_mm);
  let row = writeRow(genes, { ...named, ligament_mm });
  for (let i = 0; i < 4; i++) {
    const { along_mm, across_mm } = pitches(read(row, 0));
    const have =
      named.lattice === 'hexagonal'
        ? Math.min(along_mm, Math.sqrt(0.25 * along_mm * along_mm + across_mm * across_mm))
        : Math.min(along_mm, across_mm);
    ligament_mm += step_mm - have;
    row = writeRow(genes, { ...named, ligament_mm });
  }
  return row;
}

/** Share of ports of either design without one of the other within a quarter of a step. */
function misfit(wanted: Design, made: Design): number {
  const a = portsOf(wanted);
  const b = portsOf(made);
  const near = 0.25 * Math.min(stepsOf(a), stepsOf(b));
  const lost = (from: readonly DrawnPort[], to: readonly DrawnPort[]): number =>
    from.filter((port) => {
      const other = to[nearest(to, port.x_mm, port.y_mm)];
      const dx = other.x_mm - port.x_mm;
      const dy = other.y_mm - port.y_mm;
      return dx * dx + dy * dy > near * near;
    }).length;
  return (lost(a, b) + lost(b, a)) / (a.length + b.length);
}
