/**
 * A channel against itself.
 *
 * Two rules together leave no gap (thickness of a smooth tube = the lesser of its least radius of
 * curvature and half its least doubly critical self-distance): the bend rule (bend-walls.ts), and the
 * distance of stretches that face each other. No pair is skipped for lying near along the arc.
 * Source: Litherland, Simon, Durumeric & Rawdon 1999, Topology and its Applications 91:233.
 */
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { contact, segmentGap } from './segment-gap.ts';
import { noteWall } from './tally.ts';
import type { Tally } from './tally.ts';

/** Stretches face each other when their connecting line leans less than this along both [cosine]. */
const FACING = 0.75;
/**
 * Least turn between two stretches that face each other [rad]: by Fenchel's theorem the arc turns
 * by at least the two angles between its ends and the connecting line, 2 x 41.4 deg = 1.445.
 */
const LEAST_TURN = 1.44;

/** Allowance for rounding where a bound meets what it bounds [mm]. */
const ROUNDING_mm = 1e-9;

/** Least height of the pieces from each on to the outlet. */
let lowest = new Float64Array(0);

/** Pairs of pieces that may face each other near by, as i * stations + j, and their distances less all reach. */
let near = new Int32Array(0);
let nearBound = new Float64Array(0);

/**
 * Notes the wall between stretches of one channel that face each other; `packBounds` must have run
 * for the shape.
 *
 * A gap across an arc of constant radius is shorter than across the whole turn by the sine of the
 * angle between connecting line and channel, which is divided out: such pairs give exactly the
 * bend's wall.
 *
 * @returns depth of the deepest overlap with itself [mm], else 0.
 */
export function visitSelf(t: Tubes, tally: Tally, shape: number, channel: number): number {
  const { stations, turn } = t;
  const base = shape * stations;
  if (turn[base + stations - 1] < LEAST_TURN) return 0;
  let depth = 0;
  let cut = tally.thinnest_mm > 0 ? tally.thinnest_mm : 0;
  const count = listFacing(t, shape, cut);
  for (let n = 0; n < count; n++) {
    if (nearBound[n] >= cut) continue;
    const i = base + Math.trunc(near[n] / stations);
    const j = base + (near[n] % stations);
    const gap = segmentGap(t, shape, i, shape, j, 0, 0, cut, FACING);
    if (gap >= cut) continue;
    const { lean } = contact;
    const wall = gap > 0 ? gap / Math.sqrt(1 - lean * lean) : gap;
    if (-wall > depth) depth = -wall;
    if (wall < cut) cut = depth > 0 ? -depth : wall;
    const x = t.offset[2 * channel] + contact.x;
    const y = t.offset[2 * channel + 1] + contact.y;
    noteWall(tally, wall, 'self', x, y, contact.z, channel, channel);
  }
  return depth;
}

/**
 * Fills `near` with the pairs of pieces that may face each other with a gap below `cut`.
 *
 * A loop of its own: the compiler keeps what it knows of the arrays only where nothing is called.
 */
function listFacing(t: Tubes, shape: number, cut: number): number {
  const { stations, point, swell, turn } = t;
  if (lowest.length < stations) {
    lowest = new Float64Array(stations);
    near = new Int32Array((stations * stations) / 2);
    nearBound = new Float64Array((stations * stations) / 2);
  }
  const base = shape * stations;
  const end = base + stations - 1;
  const list = near;
  const bounds = nearBound;
  const low = lowest;
  fillLowest(point, base, end, low);
  const total = turn[end];
  const half = t.half[shape];
  const step = 2 * half;
  const near2 = 4 * step * step;
  const facing2 = FACING * FACING * step * step;
  const widest = half + t.box[shape * BOX + 6];
  let count = 0;
  let from = base + 2;
  for (let i = base; i < end - 2; i++) {
    const turned = turn[i];
    if (total - turned < LEAST_TURN) break;
    if (from < i + 2) from = i + 2;
    while (turn[from + 1] - turned < LEAST_TURN) from++;
    const p = 3 * i;
    const pz = 0.5 * (point[p + 2] + point[p + 5]);
    const reach = cut + (half + swell[i]);
    // A channel mostly climbs from face to face: once all that follows lies too high, none is near.
    const top = pz + (reach + widest);
    if (low[from - base] >= top) continue;
    const px = 0.5 * (point[p] + point[p + 3]);
    const py = 0.5 * (point[p + 1] + point[p + 4]);
    const hx = point[p + 3] - point[p];
    const hy = point[p + 4] - point[p + 1];
    const hz = point[p + 5] - point[p + 2];
    for (let j = from; j < end && low[j - base] < top; j++) {
      const q = 3 * j;
      const x = 0.5 * (point[q] + point[q + 3]) - px;
      const y = 0.5 * (point[q + 1] + point[q + 4]) - py;
      const z = 0.5 * (point[q + 2] + point[q + 5]) - pz;
      const limit = reach + (half + swell[j]);
      const square = x * x + y * y + z * z;
      if (square >= limit * limit || limit <= 0) continue;
      if (square > near2) {
        // At two steps' distance a facing pair still faces within 0.5 from middle to middle, and
        // its neighbours beside it are looked at as well.
        const alongI = x * hx + y * hy + z * hz;
        const alongJ =
          x * (point[q + 3] - point[q]) +
          y * (point[q + 4] - point[q + 1]) +
          z * (point[q + 5] - point[q + 2]);
        const most = facing2 * square;
        if (alongI * alongI > most || alongJ * alongJ > most) continue;
      }
      bounds[count] = Math.sqrt(square) - (limit - cut) - ROUNDING_mm;
      list[count++] = (i - base) * stations + (j - base);
    }
  }
  return count;
}

/** The least height of the middles of each piece and all that follow. */
function fillLowest(point: Float64Array, base: number, end: number, low: Float64Array): void {
  let least = Infinity;
  let after = point[3 * end + 2];
  for (let k = end - 1; k >= base; k--) {
    const before = point[3 * k + 2];
    const z = 0.5 * (before + after);
    if (z < least) least = z;
    low[k - base] = least;
    after = before;
  }
}
