/** Where around a channel its mesh has lines: at every corner of the section, and evenly between. */
import { atan, atan2, cos, radians, sin, tan } from '../numeric/index.ts';
import { normalTurn, twistAngle } from '../design/index.ts';
import type { PlateSamples, Pocket } from '../design/index.ts';
import { isPrism } from './ring-stations.ts';

const TURN = 2 * Math.PI;
/** Lines of a section closer than this are one: a slot of aspect 1 has no flats [rad]. */
const SAME_LINE = 0.004;
/** Most steps along the flat of a long slot. */
const MOST_FLAT_STEPS = 16;
/** A pocket's extra line is left out where another line runs this close [rad]. */
const NEAR_LINE = 0.035;
/** Bounds of the step between the lines of a pocket [rad]. */
const POCKET_STEP = { min: 0.05, max: 0.175 } as const;
/** Wanted distance between a pocket's wall and its chords around the channel [mm]. */
const POCKET_SAGITTA_MM = 0.05;

/**
 * Carried angles of a shape's mesh lines, rising, within [0, 2 pi) [rad].
 *
 * Polygons have a line in each corner and slots where their ends begin, so flat walls stay flat, and
 * lines between where the channel is no prism;
 * rounds, teardrops and slot ends have `sides` steps per turn. Pockets add lines at their edges,
 * their middle and between.
 *
 * @param sides steps per turn of a round section, even.
 */
export function ringAngles(samples: PlateSamples, shape: number, sides: number): Float64Array {
  const base = sectionAngles(samples, shape, sides).map(wrap).toSorted(ascending);
  const angles = base.filter((a, k) => k === 0 || a - base[k - 1] > SAME_LINE);
  if (angles[0] + TURN - angles[angles.length - 1] <= SAME_LINE) angles.pop();
  for (const extra of pocketAngles(samples, shape)) {
    const off = angles.map((a) => Math.abs(a - extra)).map((d) => Math.min(d, TURN - d));
    if (Math.min(...off) > NEAR_LINE) angles.push(extra);
  }
  return Float64Array.from(angles.toSorted(ascending));
}

const ascending = (a: number, b: number): number => a - b;

function wrap(angle: number): number {
  return radians(normalTurn((angle * 360) / TURN));
}

function sectionAngles(samples: PlateSamples, shape: number, sides: number): number[] {
  const section = samples.sections[shape];
  switch (section.kind) {
    case 'round':
    case 'teardrop':
      return Array.from({ length: sides }, (_, j) => (TURN * j) / sides);
    case 'polygon':
      return polygonAngles(section.sides, Math.ceil(sides / (2 * section.sides)));
    case 'slot': {
      const half = Math.max(2, Math.round(sides / 2));
      const angles: number[] = [];
      for (let j = 0; j <= half; j++) {
        const t = Math.PI * (j / half - 0.5);
        const angle = atan2(sin(t), section.aspect - 1 + cos(t));
        angles.push(angle, angle + Math.PI);
      }
      const steps = isPrism(samples, shape) ? 1 : flatSteps(section.aspect);
      for (let k = 1; k < steps; k++) {
        const angle = atan2(1, (section.aspect - 1) * ((2 * k) / steps - 1));
        angles.push(angle, angle + Math.PI);
      }
      return angles;
    }
    default:
      return unknownSection(section);
  }
}

/** Steps along a slot's flat of half a bore; a tapered flat meets an oblique face in a curve. */
function flatSteps(aspect: number): number {
  return Math.min(MOST_FLAT_STEPS, Math.ceil(2 * (aspect - 1)));
}

/** Corners, and equal steps along each flat: a tapered flat meets an oblique face in a curve. */
function polygonAngles(corners: number, steps: number): number[] {
  const angles: number[] = [];
  const half = Math.PI / corners;
  for (let j = 0; j < corners; j++) {
    for (let k = 0; k < steps; k++) {
      const along = tan(half) * ((2 * k) / steps - 1);
      angles.push(2 * half * (j + 1) + atan(along));
    }
  }
  return angles;
}

function pocketAngles(samples: PlateSamples, shape: number): number[] {
  const angles: number[] = [];
  const row = shape * samples.stations;
  let radius_mm = Infinity;
  for (let k = row; k < row + samples.stations; k++) {
    radius_mm = Math.min(radius_mm, samples.bore_mm[k] / 2);
  }
  for (const pocket of samples.pockets[shape]) {
    const width = radians(pocket.width_deg);
    const { from, to } = twistAlong(samples, shape, pocket);
    const span = Math.min(TURN, width + to - from);
    const step = pocketStep(width, pocket.depth_mm, radius_mm);
    const steps = 2 * Math.max(2, Math.ceil(span / 2 / step));
    const start = radians(pocket.side_deg) - width / 2 + from;
    for (let j = 0; j <= steps; j++) angles.push(wrap(start + (span * j) / steps));
  }
  return angles;
}

/** Least and greatest twist of the section frame along a pocket, which goes with that frame [rad]. */
function twistAlong(
  samples: PlateSamples,
  shape: number,
  pocket: Pocket,
): { from: number; to: number } {
  const last = samples.stations - 1;
  const row = shape * samples.stations;
  const half = pocket.length_mm / 2 / samples.length_mm[shape];
  const station = (share: number): number => Math.round(Math.min(Math.max(share, 0), 1) * last);
  const middle = twistAngle(samples, row + station(pocket.at));
  let [from, to] = [middle, middle];
  for (let k = station(pocket.at - half); k <= station(pocket.at + half); k++) {
    const turn = wrap(twistAngle(samples, row + k) - middle);
    const off = turn > Math.PI ? turn - TURN : turn;
    from = Math.min(from, middle + off);
    to = Math.max(to, middle + off);
  }
  return { from, to };
}

/**
 * Step between a pocket's lines. A chord of angle a strays from a wall of polar radius r(theta) by
 * a^2 / 8 (|r''| + 2 r'^2 / r + r) at most; here r' and r'' are those of depth cos^2(pi theta / width).
 */
function pocketStep(width: number, depth_mm: number, radius_mm: number): number {
  const slope = (Math.PI / width) * depth_mm;
  const curve = 2 * (Math.PI / width) * slope + (2 * slope * slope) / radius_mm + radius_mm;
  const wanted = Math.sqrt((8 * POCKET_SAGITTA_MM) / curve);
  return Math.min(POCKET_STEP.max, Math.max(POCKET_STEP.min, wanted));
}

function unknownSection(section: never): never {
  throw new Error(`Unknown section ${JSON.stringify(section)}.`);
}
