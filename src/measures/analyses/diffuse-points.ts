/**
 * The points that every ray set is made of: the same for every design, so that the search cannot
 * breed lucky rays.
 *
 * A plane Halton sequence (bases 2 and 3) serves every event of a ray's life; each event takes it in
 * an order of its own, which pads the sequence to any number of dimensions (Owen 1998). A few copies
 * of the set, each shifted by its own constants around the unit square (Cranley & Patterson 1976), are
 * as good as independent: their spread is the error.
 */
import { cos, createStream, radicalInverse, sin } from '../../numeric/index.ts';
import type { RandomStream } from '../../numeric/index.ts';

/** Points of the sequence, a power of 2. */
export const POINTS = 4096;
/** Copies. */
export const COPIES = 8;
/** Events with an order of their own: start, first direction, two a bounce; later ones begin again. */
const EVENTS = 24;

export interface PointSet {
  /** Cosine and sine of an even angle, and an even number 0..1, of each point [POINTS x 3]. */
  readonly point: Float64Array;
  /** Which point each ray takes at each event [EVENTS x POINTS]. */
  readonly order: Uint16Array;
  /** Shift of each copy at each event: cosine, sine, number [COPIES x EVENTS x 3]. */
  readonly shift: Float64Array;
}

let made: PointSet | null = null;

/** The set, made on first use: briefs that ask for no light need none. */
export function pointSet(): PointSet {
  made ??= makePoints();
  return made;
}

function makePoints(): PointSet {
  const point = new Float64Array(3 * POINTS);
  for (let k = 0; k < POINTS; k++) {
    writeAngle(radicalInverse(k + 1, 2), point, 3 * k);
    point[3 * k + 2] = radicalInverse(k + 1, 3);
  }
  const order = new Uint16Array(EVENTS * POINTS);
  const shift = new Float64Array(3 * COPIES * EVENTS);
  // One stream each: shifts from streams whose names differ in a digit were too much alike.
  const shuffling = createStream('anfract', 'light', 'orders');
  const shifting = createStream('anfract', 'light', 'shifts');
  for (let event = 0; event < EVENTS; event++) {
    const own = order.subarray(event * POINTS, (event + 1) * POINTS);
    for (let k = 0; k < POINTS; k++) own[k] = k;
    // The first event keeps the sequence's order: a part of the set then covers the port evenly.
    if (event > 0) shuffle(own, shuffling);
    for (let copy = 0; copy < COPIES; copy++) {
      const at = 3 * (copy * EVENTS + event);
      writeAngle(shifting.next(), shift, at);
      shift[at + 2] = shifting.next();
    }
  }
  return { point, order, shift };
}

function writeAngle(turn: number, out: Float64Array, at: number): void {
  out[at] = cos(2 * Math.PI * turn);
  out[at + 1] = sin(2 * Math.PI * turn);
}

/** Fisher-Yates within blocks: any run of BLOCK rays then still covers the square evenly. */
const BLOCK = 64;

function shuffle(list: Uint16Array, random: RandomStream): void {
  for (let from = 0; from < list.length; from += BLOCK) {
    for (let i = BLOCK - 1; i > 0; i--) {
      const j = Math.floor(random.next() * (i + 1));
      const kept = list[from + i];
      list[from + i] = list[from + j];
      list[from + j] = kept;
    }
  }
}

/**
 * Draws what a ray needs at an event: cosine and sine of an angle and a number 0..1.
 *
 * @param ray 0, 1, 2 ...; the sequence begins again after POINTS rays.
 * @param event 0 start, 1 first direction, 2 and 3 first bounce ...
 * @param out receives three numbers.
 */
export function drawPoint(
  set: PointSet,
  ray: number,
  event: number,
  copy: number,
  out: Float64Array,
): void {
  const own = event < EVENTS ? event : 2 + ((event - 2) % (EVENTS - 2));
  // A later round of the orders starts elsewhere in them, else rays would repeat themselves.
  const place = (ray + 977 * (event - own)) & (POINTS - 1);
  const k = 3 * set.order[own * POINTS + place];
  const s = 3 * (copy * EVENTS + own);
  const c = set.point[k];
  const d = set.point[k + 1];
  out[0] = c * set.shift[s] - d * set.shift[s + 1];
  out[1] = c * set.shift[s + 1] + d * set.shift[s];
  const v = set.point[k + 2] + set.shift[s + 2];
  out[2] = v >= 1 ? v - 1 : v;
}
