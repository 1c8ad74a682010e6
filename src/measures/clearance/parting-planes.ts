/**
 * Passing over pairs of pieces that one plane parts. Sections that are not round mostly turn out to
 * stand apart only once the direction between them is found (`segmentGap`, `convexGap`), and the same
 * direction does for their neighbours: two blocks are projected on it once, after which a pair
 * costs a subtraction.
 */
import { ROUND } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { TOLERANCE_mm } from './convex-gap.ts';
import { sectionReach } from './section-reach.ts';
import { isPlain } from './segment-gap.ts';

/** Beyond the tolerance within which a gap is found, so that none is passed over that would be found thinner. */
const SLACK_mm = 1.1 * TOLERANCE_mm;

/** Of the pieces of both blocks: how far A reaches along the direction, how near B begins, ... */
let top = new Float64Array(8);
let bottom = new Float64Array(8);
/** ... and the same of balls of their inradii along the chords. */
let topCore = new Float64Array(8);
let bottomCore = new Float64Array(8);
let plainA = new Uint8Array(8);
let plainB = new Uint8Array(8);

/** Whether a shape is round without pockets: the line between centrelines says all there is to know. */
export function isSimple(t: Tubes, shape: number): boolean {
  return t.kind[shape] === ROUND && (shape >= t.channelShapes || t.pockets[shape].length === 0);
}

/**
 * Leaves out of a list those pairs of two blocks that a direction shows to stand at least `cut`
 * apart, and not to touch; keeps the order of the rest.
 *
 *   min over B of p . d - max over A of p . d - bulges >= max(cut, 0)
 *
 * Pairs of plain pieces stay, and those whose inscribed balls this direction does not part:
 * `segmentGap` leaves their gap a bound from below, which may be less.
 *
 * @param list pairs as i * stations + j, stations within their shapes, from `from` to `count`.
 * @param bounds what goes with each pair and is moved with it.
 * @param way unit direction from A to B.
 * @returns how many pairs the list has left.
 */
export function dropParted(
  t: Tubes,
  shapeA: number,
  blockA: number,
  shapeB: number,
  blockB: number,
  ox: number,
  oy: number,
  cut: number,
  list: Int32Array,
  bounds: Float64Array,
  from: number,
  count: number,
  way: Float64Array,
): number {
  const { blockSize, stations } = t;
  if (top.length < blockSize) {
    top = new Float64Array(blockSize);
    bottom = new Float64Array(blockSize);
    topCore = new Float64Array(blockSize);
    bottomCore = new Float64Array(blockSize);
    plainA = new Uint8Array(blockSize);
    plainB = new Uint8Array(blockSize);
  }
  const dx = way[0];
  const dy = way[1];
  const dz = way[2];
  project(t, shapeA, blockA, dx, dy, dz, top, topCore, plainA);
  project(t, shapeB, blockB, -dx, -dy, -dz, bottom, bottomCore, plainB);
  const firstA = blockA * blockSize;
  const firstB = blockB * blockSize;
  const touching = SLACK_mm - (ox * dx + oy * dy);
  const least = (cut > 0 ? cut : 0) + touching;
  let kept = from;
  for (let n = from; n < count; n++) {
    const i = Math.trunc(list[n] / stations);
    const a = i - firstA;
    const b = list[n] - i * stations - firstB;
    const isParted = -bottom[b] - top[a] >= least && -bottomCore[b] - topCore[a] >= touching;
    if (isParted && (plainA[a] === 0 || plainB[b] === 0)) continue;
    bounds[kept] = bounds[n];
    list[kept++] = list[n];
  }
  return kept;
}

/** How far each piece of a block reaches in a direction, with all that its arc may add. */
function project(
  t: Tubes,
  shape: number,
  block: number,
  dx: number,
  dy: number,
  dz: number,
  out: Float64Array,
  core: Float64Array,
  plain: Uint8Array,
): void {
  const { point, first, second, bore, reach, swell, stations, blockSize } = t;
  const from = shape * stations + block * blockSize;
  const end = Math.min((shape + 1) * stations - 1, from + blockSize);
  let before = 0;
  let middleBefore = 0;
  for (let k = from, i = 3 * from; k <= end; k++, i += 3) {
    const a = dx * first[i] + dy * first[i + 1] + dz * first[i + 2];
    const b = dx * second[i] + dy * second[i + 1] + dz * second[i + 2];
    const middle = dx * point[i] + dy * point[i + 1] + dz * point[i + 2];
    const far = middle + sectionReach(t, shape, k, a, b);
    if (k > from) {
      const m = k - 1;
      const wider = reach[m] > reach[k] ? reach[m] : reach[k];
      out[m - from] = (before > far ? before : far) + (swell[m] - wider);
      core[m - from] =
        (middleBefore > middle ? middleBefore : middle) +
        0.5 * (bore[m] < bore[k] ? bore[m] : bore[k]);
      plain[m - from] = isPlain(t, shape, m) ? 1 : 0;
    }
    before = far;
    middleBefore = middle;
  }
}
