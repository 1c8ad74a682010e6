/** From a design back to genes, for designs that the genome can make or nearly make. */
import type { Brief } from '../brief/index.ts';
import { cosDeg, normalTurn, sampleDesign, sinDeg } from '../design/index.ts';
import type { Channel, Design, Placement, PlateSamples, Section } from '../design/index.ts';
import { atan2, degrees } from '../numeric/index.ts';
import { designOf } from './decode.ts';
import { MOST_BENDS } from './genes.ts';
import type { Gene } from './genes.ts';
import { pitches } from './pitch.ts';
import { writeRow } from './row.ts';
import type { NamedGenes } from './row.ts';
import type { Motif, TraitReader } from './traits.ts';
import { genesOfWall } from './wall-genes.ts';

/** A row of genes, or why there is none. */
export type Expressed = Float64Array | { readonly reason: string };

/** Share of the channels that may be missing, different or too many. */
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
  const middle = middlePort(ports);
  const { channel, placement } = ports[middle];
  const step = stepsOf(ports);
  // The lattice lies along the middle channel's turn, or along its neighbours.
  const rotations = new Set([quarterTurn(placement.turn_deg), ...rowAxes(ports, middle, step)]);
  let best: { row: Float64Array; miss: number } | null = null;
  for (const rotation_deg of rotations) {
    const own = channelGenes(channel, design, placement.turn_deg - rotation_deg);
    for (const lattice of new Set(brief.routes.lattices)) {
      for (const stagger of lattice === 'square' ? [0, 0.5] : [0]) {
        for (const motif of motifsOf(brief, design)) {
          const named = {
            ...own,
            build: design.plate.build,
            lattice,
            stagger,
            motif,
            rotation_deg,
          };
          const row = fitPitch(genes, read, named, step);
          const decoded = designOf(brief, read(row, 0));
          if (!decoded.ok) continue;
          const miss = misfit(design, decoded.design);
          if (best === null || miss < best.miss - 1e-9) best = { row, miss };
        }
      }
    }
  }
  if (best === null)
    return { reason: 'No lattice of the brief places a single channel like these.' };
  if (best.miss > COUNT_TOLERANCE) {
    const share = Math.round(100 * best.miss);
    return {
      reason:
        `The nearest design these genes can make misses ${share} % of the channels (allowed: ` +
        `${100 * COUNT_TOLERANCE} %). Ports must lie on a square, hexagonal or ring lattice about ` +
        'the plate centre, and channels be alike but for mirrors and quarter turns; others can be ' +
        'expressed from stored genes only.',
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
  readonly placement: Placement;
}

/** Places of the channels: midway between their two openings, as lattice ports are. */
function portsOf(design: Design): DrawnPort[] {
  const ports: DrawnPort[] = [];
  for (const channel of design.channels) {
    const [ax, ay] = channel.points_mm[0];
    const [bx, by] = channel.points_mm[channel.points_mm.length - 1];
    for (const placement of channel.placements) {
      const x = (placement.mirrored ? -0.5 : 0.5) * (ax + bx);
      const [dx, dy] = turned(x, 0.5 * (ay + by), placement.turn_deg);
      ports.push({ x_mm: placement.x_mm + dx, y_mm: placement.y_mm + dy, channel, placement });
    }
  }
  return ports;
}

function turned(x: number, y: number, turn_deg: number): [number, number] {
  const c = cosDeg(turn_deg);
  const s = sinDeg(turn_deg);
  return [c * x - s * y, s * x + c * y];
}

/** The port nearest the plate's middle whose channel is not mirrored, if there is one. */
function middlePort(ports: readonly DrawnPort[]): number {
  const straight = ports.filter((port) => !port.placement.mirrored);
  const pool = straight.length > 0 ? straight : ports;
  return ports.indexOf(pool[nearest(pool, 0, 0)]);
}

/** Motifs that the design's standings suggest; any, when the brief does not allow those. */
function motifsOf(brief: Brief, design: Design): Motif[] {
  const placements = design.channels.flatMap((channel) => channel.placements);
  const hasMirrors = placements.some((placement) => placement.mirrored);
  const hasTurns = placements.some(
    (placement) => normalTurn(placement.turn_deg) !== normalTurn(placements[0].turn_deg),
  );
  const wanted: Motif = hasMirrors ? 'mirrored' : hasTurns ? 'turned' : 'alike';
  const allowed = [...new Set(brief.routes.motifs)];
  return allowed.includes(wanted) ? [wanted] : allowed;
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

/** Directions from the middle port to its near neighbours, within [0, 90) [deg]. */
function rowAxes(ports: readonly DrawnPort[], middle: number, step_mm: number): number[] {
  const port = ports[middle];
  const axes: number[] = [0];
  for (const other of ports) {
    const dx = other.x_mm - port.x_mm;
    const dy = other.y_mm - port.y_mm;
    const square = dx * dx + dy * dy;
    if (square > 0 && square < 2.25 * step_mm * step_mm) {
      axes.push(quarterTurn(degrees(atan2(dy, dx))));
    }
  }
  return axes;
}

/** A direction within [0, 90), to a billionth of a degree so that equal ones are found equal. */
function quarterTurn(turn_deg: number): number {
  return (Math.round(normalTurn(turn_deg) * 1e9) / 1e9) % 90;
}

/** Genes of one channel that is turned by `turn_deg` against the lattice. */
function channelGenes(
  channel: Channel,
  design: Design,
  turn_deg: number,
): Record<string, number | string> {
  const { thickness_mm } = design.plate;
  const { section, bore_mm } = channel;
  const nominal = bore_mm[Math.trunc(bore_mm.length / 2)];
  const first = channel.points_mm[0];
  const last = channel.points_mm[channel.points_mm.length - 1];
  const [leanX, leanY] = turned(last[0] - first[0], last[1] - first[1], turn_deg);
  const end = channel.inletDirection;
  const named: Record<string, number | string> = {
    section: section.kind,
    thickness_mm,
    bore_mm: nominal,
    inletBore: bore_mm[0] / nominal,
    middleBore: 1,
    outletBore: bore_mm[bore_mm.length - 1] / nominal,
    roll_deg: halfTurn(channel.roll_deg + turn_deg),
    leanX_mm: leanX,
    leanY_mm: leanY,
    ends: end !== null && end[2] > 0.9999 ? 'faces' : 'lean',
    ...sectionGenes(section),
    ...genesOfWall(channel),
  };
  const bends = bendPoints(channel, design);
  named.bends = bends.length;
  bends.forEach(([x, y, z], i) => {
    const depth = z / thickness_mm;
    const [dx, dy] = turned(x - first[0], y - first[1], turn_deg);
    named[`bend${i + 1}X_mm`] = dx - leanX * depth;
    named[`bend${i + 1}Y_mm`] = dy - leanY * depth;
    named[`bend${i + 1}Depth`] = 2 * (depth * (bends.length + 1) - (i + 1));
  });
  return named;
}

/** Slots and even polygons look the same half a turn on: within (-90, 90]. */
function halfTurn(turn_deg: number): number {
  const turn = normalTurn(turn_deg);
  if (turn > 270) return turn - 360;
  return turn > 90 ? turn - 180 : turn;
}

function sectionGenes(section: Section): Record<string, number> {
  if (section.kind === 'slot') return { slotAspect: section.aspect };
  if (section.kind === 'polygon') return { sides: section.sides };
  return {};
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
  let ligament_mm = 1;
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

/**
 * Share of channels of either design without a like one in the other: port within a quarter of a
 * step, course within a quarter of the bore, bore within a tenth.
 */
function misfit(wanted: Design, made: Design): number {
  const a = portsOf(wanted);
  const b = portsOf(made);
  const near = 0.25 * Math.min(stepsOf(a), stepsOf(b));
  const courseA = sampleDesign(wanted, COURSE_STATIONS);
  const courseB = sampleDesign(made, COURSE_STATIONS);
  let lost = 0;
  for (let i = 0; i < a.length; i++) {
    const j = nearest(b, a[i].x_mm, a[i].y_mm);
    const dx = b[j].x_mm - a[i].x_mm;
    const dy = b[j].y_mm - a[i].y_mm;
    if (dx * dx + dy * dy > near * near || !isAlike(courseA, i, courseB, j)) lost++;
  }
  // Every channel of one that is like one of the other is counted from both sides.
  return (lost + Math.max(0, b.length - (a.length - lost))) / (a.length + b.length);
}

const COURSE_STATIONS = 9;

function isAlike(a: PlateSamples, i: number, b: PlateSamples, j: number): boolean {
  for (let k = 0; k < COURSE_STATIONS; k++) {
    const rowA = a.shapeOf[i] * COURSE_STATIONS + k;
    const rowB = b.shapeOf[j] * COURSE_STATIONS + k;
    const dx =
      a.offset_mm[2 * i] + a.point_mm[3 * rowA] - b.offset_mm[2 * j] - b.point_mm[3 * rowB];
    const dy =
      a.offset_mm[2 * i + 1] +
      a.point_mm[3 * rowA + 1] -
      b.offset_mm[2 * j + 1] -
      b.point_mm[3 * rowB + 1];
    const dz = a.point_mm[3 * rowA + 2] - b.point_mm[3 * rowB + 2];
    const bore = a.bore_mm[rowA];
    if (dx * dx + dy * dy + dz * dz > 0.0625 * bore * bore) return false;
    if (Math.abs(b.bore_mm[rowB] - bore) > 0.1 * bore) return false;
  }
  return true;
}
