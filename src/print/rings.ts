/**
 * The wall of a shape as rings of points: what the raster cuts and the overhang area is summed on.
 *
 * Rings stand normal to the centreline at the stations, and once more beyond each end, far enough
 * along its tangent that the whole ring lies outside the plate or inside the plenum. In a plate with
 * side ends a point closes every end: layers would else cut a lying tube into an open line.
 */
import {
  END,
  endOverrun,
  pocketBump,
  pocketLip,
  pocketWindow,
  polarRadius,
  twistAngle,
} from '../design/index.ts';
import type { PlateSamples, Pocket, Section } from '../design/index.ts';
import { atan2, cos, sin } from '../numeric/index.ts';

/** Points per ring of a round or teardrop section. */
const RING_POINTS = 24;
const STEP_RAD = (2 * Math.PI) / RING_POINTS;

/** Rings of one shape; memory serves shape after shape. */
export interface Rings {
  /** Rings (stations + 2, or + 4 with closed ends) and points per ring. */
  rings: number;
  points: number;
  /** First band of quads within the plate, and one past the last: those of side ends lie beyond. */
  firstBand: number;
  endBand: number;
  /** Coordinates relative to the placement [rings x points x 3] [mm]. */
  wall_mm: Float64Array;
}

export function createRings(): Rings {
  return { rings: 0, points: 0, firstBand: 0, endBand: 0, wall_mm: new Float64Array(0) };
}

/** Frame angles of a ring's points [rad], so placed that corners and tangent points are met. */
function ringAngles(section: Section): Float64Array {
  switch (section.kind) {
    case 'round':
    case 'teardrop':
      return Float64Array.from({ length: RING_POINTS }, (_, j) => j * STEP_RAD);
    case 'polygon': {
      const perSide = Math.max(2, Math.ceil(24 / section.sides));
      const count = perSide * section.sides;
      // Corners stand half a side beyond the first axis.
      return Float64Array.from(
        { length: count },
        (_, j) => Math.PI / section.sides + (2 * Math.PI * j) / count,
      );
    }
    case 'slot': {
      const shift = section.aspect - 1;
      return Float64Array.from({ length: 2 * SLOT_ARC }, (_, j) => {
        const right = j < SLOT_ARC;
        const turn = Math.PI * ((j % SLOT_ARC) / (SLOT_ARC - 1) - 0.5);
        const x = shift + cos(turn);
        return right ? atan2(sin(turn), x) : Math.PI + atan2(sin(turn), x);
      });
    }
    default:
      return unknownSection(section);
  }
}

// Points on each round end of a slot.
const SLOT_ARC = 11;

function unknownSection(section: never): never {
  throw new Error(`Unknown section ${JSON.stringify(section)}.`);
}

/**
 * Writes the rings of one shape.
 *
 * Points of neighbouring rings join at equal carried angles (a teardrop's frame may swing round);
 * a teardrop keeps a point on its apex by shifting whole points. Each ring is blown up so that its
 * polygon has the section's own area: an inscribed one would lose 0.6 %.
 */
export function writeRings(samples: PlateSamples, shape: number, out: Rings): void {
  const { stations, point_mm: point, first, second, bore_mm, roof, length_mm } = samples;
  const section = samples.sections[shape];
  const pockets = samples.pockets[shape];
  const angles = ringAngles(section);
  const points = angles.length;
  out.points = points;
  const kind = samples.sides?.kind;
  const lead = kind ? 2 : 1;
  out.rings = stations + 2 * lead;
  out.firstBand = lead - 1 + (kind && kind[2 * shape] !== END.face ? 1 : 0);
  out.endBand = lead + stations - (kind && kind[2 * shape + 1] !== END.face ? 1 : 0);
  if (out.wall_mm.length < 3 * out.rings * points) {
    out.wall_mm = new Float64Array(3 * out.rings * points);
  }
  const wall = out.wall_mm;
  const cosine = angles.map((angle) => cos(angle));
  const sine = angles.map((angle) => sin(angle));
  const windows = pockets.map((pocket) => angles.map((angle) => pocketWindow(pocket, angle)));
  const hasLips = pockets.some(({ lip_mm }) => lip_mm !== undefined);
  const radius = new Float64Array(points);
  const arcStep = length_mm[shape] / (stations - 1);
  for (let s = 0; s < stations; s++) {
    const row = shape * stations + s;
    const i = 3 * row;
    let twice = 0;
    for (let j = 0; j < points; j++) {
      radius[j] = polarRadius(section, bore_mm[row], roof[row], cosine[j], sine[j]);
    }
    for (let j = 0, before = points - 1; j < points; before = j++) {
      twice += radius[before] * radius[j] * (cosine[before] * sine[j] - sine[before] * cosine[j]);
    }
    const scale = Math.sqrt((2 * samples.area_mm2[row]) / twice);
    const shift = section.kind === 'teardrop' ? Math.round(twistAngle(samples, row) / STEP_RAD) : 0;
    for (let j = 0; j < points; j++) {
      let r = scale * radius[j];
      if (pockets.length > 0) {
        let bump = 0;
        for (let p = 0; p < pockets.length; p++) {
          const depth = pocketBump(pockets[p], s * arcStep, length_mm[shape]) * windows[p][j];
          if (depth > bump) bump = depth;
        }
        r += bump;
        if (hasLips) r -= lipAt(pockets, windows, j, s * arcStep, length_mm[shape]);
      }
      const place = shift === 0 ? j : (((j + shift) % points) + points) % points;
      const at = 3 * ((s + lead) * points + place);
      const c = r * cosine[j];
      const n = r * sine[j];
      wall[at] = point[i] + c * first[i] + n * second[i];
      wall[at + 1] = point[i + 1] + c * first[i + 1] + n * second[i + 1];
      wall[at + 2] = point[i + 2] + c * first[i + 2] + n * second[i + 2];
    }
  }
  extend(samples, shape, out, 0);
  extend(samples, shape, out, stations - 1);
}

/** How far lips stand inwards at one point of a ring [mm]. */
function lipAt(
  pockets: readonly Pocket[],
  windows: readonly Float64Array[],
  j: number,
  arc_mm: number,
  length_mm: number,
): number {
  let most = 0;
  for (let p = 0; p < pockets.length; p++) {
    most = Math.max(most, pocketLip(pockets[p], arc_mm, length_mm) * windows[p][j]);
  }
  return most;
}

// An end more oblique than this cosine is not followed further: it would run on for ever.
const MOST_OBLIQUE = 0.1;
const MARGIN_MM = 0.5;

/** Copies an end ring along its tangent until it lies outside the plate. */
function extend(samples: PlateSamples, shape: number, out: Rings, station: number): void {
  const row = shape * samples.stations + station;
  const [tx, ty, tz] = samples.tangent.subarray(3 * row, 3 * row + 3);
  const along = Math.max(MOST_OBLIQUE, Math.abs(tz));
  const tilt = Math.sqrt(Math.max(0, 1 - tz * tz));
  const forth =
    samples.sides === null
      ? (samples.reach_mm[row] * tilt) / along + MARGIN_MM / along
      : endOverrun(samples, shape, station === 0 ? 0 : 1, MARGIN_MM);
  const way = station === 0 ? -forth : forth;
  const { points, wall_mm: wall } = out;
  const isClosed = samples.sides !== null;
  const from = 3 * (station + (isClosed ? 2 : 1)) * points;
  const to = station === 0 ? from - 3 * points : from + 3 * points;
  for (let j = 0; j < 3 * points; j += 3) {
    wall[to + j] = wall[from + j] + way * tx;
    wall[to + j + 1] = wall[from + j + 1] + way * ty;
    wall[to + j + 2] = wall[from + j + 2] + way * tz;
  }
  if (!isClosed) return;
  const { point_mm } = samples;
  const closing = station === 0 ? to - 3 * points : to + 3 * points;
  for (let j = 0; j < 3 * points; j += 3) {
    wall[closing + j] = point_mm[3 * row] + way * tx;
    wall[closing + j + 1] = point_mm[3 * row + 1] + way * ty;
    wall[closing + j + 2] = point_mm[3 * row + 2] + way * tz;
  }
}
