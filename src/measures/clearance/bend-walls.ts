/** How sharply and how far a channel turns, and the wall left inside its bends. */
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { sectionReach } from './section-reach.ts';
import { noteWall } from './tally.ts';
import type { Tally } from './tally.ts';

/**
 * Adds up the turn along each arc (`turn`) and finds the greatest curvature of the shape
 * (`sharpest`).
 *
 * On entry `turn` holds per step the greatest of the stations' own curvature, or, negative, of the turn
 * of the tangent and what the shortening of chord against arc betrays; peaks between the stations
 * (`peakBetween`) are added here.
 */
export function sumTurns(t: Tubes, shape: number, step: number): void {
  const { bend, turn } = t;
  const base = shape * t.stations;
  const last = base + t.stations - 1;
  // Four neighbouring curvatures; beyond the ends Infinity, so that no peak rises from there.
  let before = Infinity;
  let here = bend[base];
  let next = bend[base + 1];
  let sharpest = 0;
  let sum = 0;
  turn[base] = 0;
  for (let k = base + 1; k <= last; k++) {
    const after = k < last ? bend[k + 1] : Infinity;
    let most = turn[k];
    if (most < 0) most = -most;
    else if (here > before && next > after) {
      const peak = peakBetween(before, here, next, after);
      if (peak > most) most = peak;
    }
    if (most > sharpest) sharpest = most;
    sum += most * step;
    turn[k] = sum;
    before = here;
    here = next;
    next = after;
  }
  t.sharpest[shape] = sharpest;
}

/**
 * Notes the wall inside each bend, twice the radius left at its inner side; `packBounds` must have
 * run for the shape.
 *
 *   wall = 2 (1 / curvature - reach of the section towards the centre of curvature)
 *
 * Curvature as in `sumTurns`, but of the station's own alone where nothing lies hidden behind it.
 *
 * @returns depth of the fold where the bend is tighter than the section [mm], else 0.
 */
export function visitBends(t: Tubes, tally: Tally, shape: number, channel: number): number {
  const { stations, point, reach: reaches, bend, curvature, tangent, turn } = t;
  const bar = tally.thinnest_mm > 0 ? tally.thinnest_mm : 0;
  // Most channels bend so gently that even the sharpest with the widest section cannot matter.
  if (t.sharpest[shape] * (0.5 * bar + t.box[shape * BOX + 6]) <= 1) return 0;
  const base = shape * stations;
  const end = base + stations;
  const step = t.length_mm[shape] / (stations - 1);
  const step2 = step * step;
  let depth = 0;
  for (let k = base; k < end; k++) {
    if (k + 1 < end) {
      // The turn of the step bounds its curvature; mostly neither can matter.
      const bound = reaches[k] > reaches[k + 1] ? reaches[k] : reaches[k + 1];
      const cut = tally.thinnest_mm > -depth ? tally.thinnest_mm : -depth;
      if ((turn[k + 1] - turn[k]) * (0.5 * cut + bound) < 0.999999 * step) continue;
    }
    let sharpest = bend[k];
    let hidden = false;
    // Station whose section and centre of curvature count.
    let at = k;
    if (k + 1 < end) {
      const ends = sharpest > bend[k + 1] ? sharpest : bend[k + 1];
      const i = 3 * k;
      const turned2 = square(
        tangent[i + 3] - tangent[i],
        tangent[i + 4] - tangent[i + 1],
        tangent[i + 5] - tangent[i + 2],
      );
      const chord2 = square(
        point[i + 3] - point[i],
        point[i + 4] - point[i + 1],
        point[i + 5] - point[i + 2],
      );
      const slack2 = arcSlack(chord2, step2);
      const angle2 = ends * ends * step2;
      if (k > base && k + 2 < end) {
        const peak = peakBetween(bend[k - 1], bend[k], bend[k + 1], bend[k + 2]);
        if (peak > ends) {
          sharpest = peak;
          if (bend[k + 1] > bend[k]) at = k + 1;
        }
      }
      if (turned2 > 2 * angle2 || slack2 > 1.5 * angle2) {
        sharpest = hiddenBend(turned2, slack2, angle2, step);
        hidden = true;
      }
    }
    const reach = reaches[at];
    // Of interest only when it may be thinner than the thinnest or, folded, deeper than the deepest.
    const cut = tally.thinnest_mm > -depth ? tally.thinnest_mm : -depth;
    if (sharpest * (0.5 * cut + reach) <= 1) continue;
    const i = 3 * at;
    const inner = hidden
      ? reach
      : innerReach(
          t,
          shape,
          at,
          curvature[i] / bend[at],
          curvature[i + 1] / bend[at],
          curvature[i + 2] / bend[at],
        );
    const left = 1 / sharpest - inner;
    if (-2 * left > depth) depth = -2 * left;
    const x = t.offset[2 * channel] + point[3 * k];
    const y = t.offset[2 * channel + 1] + point[3 * k + 1];
    noteWall(tally, 2 * left, 'bend', x, y, point[3 * k + 2], channel, channel);
  }
  return depth;
}

/**
 * Peak of the curvature between the middle two of four stations, where the lines through the two
 * stations on either side meet: a spline's curvature has its peaks at its points, seldom at a
 * station. At most half as much again as at the sharper station; 0 where it does not rise from both
 * sides.
 */
function peakBetween(before: number, here: number, next: number, after: number): number {
  const rise = here - before;
  const fall = next - after;
  if (rise <= 0 || fall <= 0) return 0;
  const x = (next + fall - here) / (rise + fall);
  if (x <= 0 || x >= 1) return 0;
  return Math.min(here + rise * x, 1.5 * Math.max(here, next));
}

/** Square of the angle that would shorten an arc to its chord, 12 (1 - chord^2 / arc^2). */
export function arcSlack(chord2: number, step2: number): number {
  const slack = (1 - 2e-4) * step2 - chord2;
  return slack > 0 ? (12 * slack) / step2 : 0;
}

/**
 * Curvature of what turns within one step without showing at its stations. Chord of the turned
 * tangent to its angle: a (1 + a^2 / 24) up to the third order.
 */
export function hiddenBend(turned2: number, slack2: number, angle2: number, step: number): number {
  return Math.sqrt(Math.max(turned2 * (1 + turned2 / 12), slack2, angle2)) / step;
}

function square(x: number, y: number, z: number): number {
  return x * x + y * y + z * z;
}

/** Reach of a station's upright section towards a unit direction. */
function innerReach(t: Tubes, shape: number, k: number, x: number, y: number, z: number): number {
  const { uprightFirst: first, uprightSecond: second } = t;
  const i = 3 * k;
  const a = x * first[i] + y * first[i + 1] + z * first[i + 2];
  const b = x * second[i] + y * second[i + 1] + z * second[i + 2];
  return sectionReach(t, shape, k, a, b);
}
