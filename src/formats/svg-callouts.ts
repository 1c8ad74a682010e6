/** Names of dots in a plot: a ring, a leader and a line of lettering where there is room for it. */
import { INK, lettering, num, rule, strokeOf } from './svg-sheet.ts';

export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

interface Callout extends Spot {
  readonly text: string;
}

export interface Area {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

interface Place extends Area {
  readonly isRight: boolean;
}

const LETTER_WIDTH = 5.9;
const LINE_HEIGHT = 15;
/** Steps outwards from the dot. */
const REACHES = [12, 30, 52, 80, 115];
/** Cost of lying on another name or outside the plot, in dots covered. */
const FORBIDDEN = 1000;

/**
 * Names dots so that they cover few other dots and never one another, in the order given: of places
 * to the right and left, above and below, at growing distance, the one that covers least.
 *
 * @param dots all dots of the plot, those named included.
 */
export function drawCallouts(
  callouts: readonly Callout[],
  dots: readonly Spot[],
  plot: Area,
): string[] {
  const taken: Place[] = [];
  return callouts.map((callout) => {
    const place = bestPlace(callout, dots, taken, plot);
    taken.push(place);
    return drawCallout(callout, place);
  });
}

function bestPlace(
  { x, y, radius, text }: Callout,
  dots: readonly Spot[],
  taken: readonly Place[],
  plot: Area,
): Place {
  const width = LETTER_WIDTH * text.length + 4;
  let best: Place | null = null;
  let least = Infinity;
  for (const reach of REACHES) {
    for (const isRight of [true, false]) {
      for (const rise of [-1, 1, -0.4, 0.4]) {
        const out = radius + reach;
        const left = isRight ? x + out : x - out - width;
        const place = {
          left,
          top: y + rise * out - LINE_HEIGHT / 2,
          width,
          height: LINE_HEIGHT,
          isRight,
        };
        let cost = reach / 100;
        for (const dot of dots) if (covers(place, dot)) cost++;
        for (const other of taken) if (overlap(place, other)) cost += FORBIDDEN;
        if (!contains(plot, place)) cost += FORBIDDEN;
        if (cost < least) {
          least = cost;
          best = place;
        }
      }
    }
  }
  if (best === null) throw new Error('A callout has no place at all.');
  return best;
}

function covers(area: Area, dot: Spot): boolean {
  const dx = dot.x - Math.min(Math.max(dot.x, area.left), area.left + area.width);
  const dy = dot.y - Math.min(Math.max(dot.y, area.top), area.top + area.height);
  return dx * dx + dy * dy < dot.radius * dot.radius;
}

function overlap(a: Area, b: Area): boolean {
  return (
    a.left < b.left + b.width &&
    b.left < a.left + a.width &&
    a.top < b.top + b.height &&
    b.top < a.top + a.height
  );
}

function contains(outer: Area, inner: Area): boolean {
  return (
    inner.left >= outer.left &&
    inner.top >= outer.top &&
    inner.left + inner.width <= outer.left + outer.width &&
    inner.top + inner.height <= outer.top + outer.height
  );
}

function drawCallout({ x, y, radius, text }: Callout, place: Place): string {
  const { left, top, width, height, isRight } = place;
  const [ring, middle] = [radius + 3, top + height / 2];
  const end = isRight ? left : left + width;
  const [dx, dy] = [end - x, middle - y];
  const length = Math.sqrt(dx * dx + dy * dy);
  const share = length > ring ? ring / length : 0;
  return (
    `<circle cx="${num(x)}" cy="${num(y)}" r="${num(ring)}" fill="none" ` +
    `${strokeOf({ tone: INK.accent, width: 1.3 })}/>` +
    rule(x + share * dx, y + share * dy, end, middle, { tone: INK.accent, width: 0.7 }) +
    `<rect x="${num(left)}" y="${num(top)}" width="${num(width)}" height="${num(height)}" ` +
    `fill="${INK.paper}" fill-opacity="0.8"/>` +
    lettering(isRight ? left + 2 : left + width - 2, middle + 4, text, {
      anchor: isRight ? 'start' : 'end',
      tone: INK.accent,
    })
  );
}
