/** Walls between channels and the plate's outer edge. */
import { insideDistance } from '../../design/index.ts';
import { BOX, ROUND } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { sectionPoint } from './section-reach.ts';
import { outwards } from './outline-distance.ts';
import { noteWall } from './tally.ts';
import type { Tally } from './tally.ts';

/** Rim intrusions below this are rounding [mm]. */
const TOUCH_mm = 1e-6;
const way = new Float64Array(2);
const frame = new Float64Array(2);

/**
 * Notes each channel's wall to the outline; what reaches into the rim is overlap, by its depth.
 */
export function visitEdges(t: Tubes, tally: Tally): void {
  const { outline, rim_mm } = t.plate;
  for (let i = 0; i < t.channels; i++) {
    const shape = t.shapeOf[i];
    const ox = t.offset[2 * i];
    const oy = t.offset[2 * i + 1];
    const need = Math.max(tally.thinnest_mm, rim_mm);
    if (insideDistance(outline, ox, oy) - farthest(t, shape) >= need) continue;
    let least = need;
    for (let k = shape * t.stations; k < (shape + 1) * t.stations; k++) {
      const x = t.point[3 * k] + ox;
      const y = t.point[3 * k + 1] + oy;
      if (insideDistance(outline, x, y) - t.reach[k] >= least) continue;
      const wall = stationEdge(t, shape, k, x, y);
      if (wall >= least) continue;
      least = wall;
      noteWall(tally, wall, 'edge', x, y, t.point[3 * k + 2], i, -1);
    }
    if (rim_mm - least > TOUCH_mm) tally.overlaps_mm.edge += rim_mm - least;
  }
}

/** Greatest distance of a shape's wall from its own offset, in plan. */
function farthest(t: Tubes, shape: number): number {
  const o = shape * BOX;
  const x = Math.max(-t.box[o], t.box[o + 3], 0);
  const y = Math.max(-t.box[o + 1], t.box[o + 4], 0);
  return Math.sqrt(x * x + y * y) + t.box[o + 6];
}

/**
 * Least distance from the wall of one station to the outline.
 *
 * From the centreline's way out, and from 60 degrees either side of it, climbs to the section point
 * nearest to the edge: furthest point along the way out there, repeated. Each step comes nearer
 * where the outline is convex; inward corners are packed as posts (see tubes.ts).
 */
export function stationEdge(
  t: Tubes,
  shape: number,
  station: number,
  x: number,
  y: number,
): number {
  const { outline } = t.plate;
  outwards(outline, x, y, way);
  const c = way[0];
  const s = way[1];
  const least = climb(t, shape, station, x, y);
  if (t.kind[shape] === ROUND && t.pocketed[station] === 0) return least;
  way[0] = 0.5 * c - 0.8660254037844386 * s;
  way[1] = 0.5 * s + 0.8660254037844386 * c;
  const left = climb(t, shape, station, x, y);
  way[0] = 0.5 * c + 0.8660254037844386 * s;
  way[1] = 0.5 * s - 0.8660254037844386 * c;
  return Math.min(least, left, climb(t, shape, station, x, y));
}

function climb(t: Tubes, shape: number, station: number, x: number, y: number): number {
  const { first, second } = t;
  const { outline } = t.plate;
  const i = 3 * station;
  let least = Infinity;
  for (let step = 0; step < 4; step++) {
    const a = way[0] * first[i] + way[1] * first[i + 1];
    const b = way[0] * second[i] + way[1] * second[i + 1];
    sectionPoint(t, shape, station, a, b, frame);
    const px = x + frame[0] * first[i] + frame[1] * second[i];
    const py = y + frame[0] * first[i + 1] + frame[1] * second[i + 1];
    const wall = insideDistance(outline, px, py);
    if (wall >= least) return least;
    least = wall;
    outwards(outline, px, py, way);
  }
  return least;
}
