/** Where around a channel its mesh has lines: at every corner of the section, and evenly between. */
import { atan, atan2, cos, radians, sin, tan } from '../numeric/index.ts';
import { normalTurn } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';

const TURN = 2 * Math.PI;
/** Lines of a section closer than this are one: a slot of aspect 1 has no flats [rad]. */
const SAME_LINE = 0.004;
/** A pocket's extra line is left out where another line runs this close [rad]. */
const NEAR_LINE = 0.035;
/** Widest step between the lines of a pocket [deg]. */
const POCKET_STEP_DEG = 10;

/**
 * Carried angles of a shape's mesh lines, rising, within [0, 2 pi) [rad].
 *
 * Polygons have a line in each corner and slots where their ends begin, so flat walls stay flat;
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
      return angles;
    }
    default:
      return unknownSection(section);
  }
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
  for (const pocket of samples.pockets[shape]) {
    const steps = 2 * Math.max(2, Math.ceil(pocket.width_deg / 2 / POCKET_STEP_DEG));
    const middle = Math.round(Math.min(Math.max(pocket.at, 0), 1) * (samples.stations - 1));
    const twist = samples.twist_rad[shape * samples.stations + middle];
    for (let j = 0; j <= steps; j++) {
      const off_deg = pocket.width_deg * (j / steps - 0.5);
      angles.push(wrap(radians(pocket.side_deg + off_deg) + twist));
    }
  }
  return angles;
}

function unknownSection(section: never): never {
  throw new Error(`Unknown section ${JSON.stringify(section)}.`);
}
