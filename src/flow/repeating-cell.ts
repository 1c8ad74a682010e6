/** The rectangle of plate that one channel serves, from how the plate's ports really stand. */
import { cosDeg, outlineArea, polarRadius, sinDeg } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';

/** Directions in which a port is looked at: every corner of a slot and nearly so of a polygon. */
const PORT_DIRECTIONS = 24;
/**
 * Web between neighbouring ports, in times a port's narrow side: at least and at most. Own choice. Below
 * the least a web is thinner than two cells; beyond the most jets no longer feel each other within the
 * outlet plenum, and a wider cell costs time only.
 */
const WEB_RANGE = { least: 0.12, most: 0.62 } as const;
/** Sine of the least angle between the two steps that span a cell of the lattice. */
const LEAST_SINE = 0.5;

/**
 * Sides along x and y of the rectangle around a port: the port's own box with an even web around it, so
 * wide that the rectangle has the area of the lattice's cell at that shape's channels.
 *
 *   (w + g) (h + g) = A,  g within `WEB_RANGE`
 *
 * A is the median over the shape's channels of |a x b|, a the step to the nearest inlet port and b the
 * nearest one well aside of it; but not more than the plate's share for one channel. Exact for channels
 * in rows and columns; where rows are staggered, neighbours stand beside instead of between.
 *
 * @returns width and height [mm].
 */
export function repeatingCell(samples: PlateSamples, shape: number): readonly [number, number] {
  const first = shape * samples.stations;
  const inlet = portBox(samples, shape, first);
  const outlet = portBox(samples, shape, first + samples.stations - 1);
  const width = Math.max(inlet[0], outlet[0]);
  const height = Math.max(inlet[1], outlet[1]);
  const narrow = Math.min(samples.bore_mm[first], samples.bore_mm[first + samples.stations - 1]);
  const area = latticeArea(samples, shape);
  const sum = width + height;
  const web = 0.5 * (Math.sqrt(Math.max(0, sum * sum + 4 * (area - width * height))) - sum);
  const held = Math.min(Math.max(web, WEB_RANGE.least * narrow), WEB_RANGE.most * narrow);
  return [width + held, height + held];
}

/** Width and height of the section at a row as seen from the face, without pockets [mm]. */
function portBox(samples: PlateSamples, shape: number, row: number): readonly [number, number] {
  const { bore_mm, roof, sections, first, second } = samples;
  let x = 0;
  let y = 0;
  for (let i = 0; i < PORT_DIRECTIONS; i++) {
    const c = cosDeg((360 * i) / PORT_DIRECTIONS);
    const s = sinDeg((360 * i) / PORT_DIRECTIONS);
    const r = polarRadius(sections[shape], bore_mm[row], roof[row], c, s);
    x = Math.max(x, Math.abs(r * (c * first[3 * row] + s * second[3 * row])));
    y = Math.max(y, Math.abs(r * (c * first[3 * row + 1] + s * second[3 * row + 1])));
  }
  return [2 * x, 2 * y];
}

/** Area of the lattice's cell at the channels of a shape [mm2]. */
function latticeArea(samples: PlateSamples, shape: number): number {
  const N = samples.channelCount;
  const share = outlineArea(samples.plate.outline) / N;
  const areas: number[] = [];
  for (let n = 0; n < N; n++) {
    if (samples.shapeOf[n] === shape) areas.push(Math.min(share, areaAt(samples, n)));
  }
  return areas.toSorted((a, b) => a - b)[areas.length >> 1];
}

/** |a x b| at a channel; infinite where it stands alone or in one row. */
function areaAt(samples: PlateSamples, at: number): number {
  const [x, y] = portAt(samples, at);
  const steps: (readonly [number, number, number])[] = [];
  for (let n = 0; n < samples.channelCount; n++) {
    if (n === at) continue;
    const [px, py] = portAt(samples, n);
    const dx = px - x;
    const dy = py - y;
    steps.push([dx, dy, Math.sqrt(dx * dx + dy * dy)]);
  }
  steps.sort((a, b) => a[2] - b[2]);
  for (let i = 1; i < steps.length; i++) {
    const [a, b] = [steps[0], steps[i]];
    const cross = Math.abs(a[0] * b[1] - a[1] * b[0]);
    if (cross > LEAST_SINE * a[2] * b[2]) return cross;
  }
  return Infinity;
}

/** Centre of a channel's inlet port [mm]. */
function portAt(samples: PlateSamples, channel: number): readonly [number, number] {
  const row = 3 * samples.shapeOf[channel] * samples.stations;
  return [
    samples.offset_mm[2 * channel] + samples.point_mm[row],
    samples.offset_mm[2 * channel + 1] + samples.point_mm[row + 1],
  ];
}
