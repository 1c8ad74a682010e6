/** How much of the ports lies where the fan's blades pass. */
import type { Brief } from '../../brief/index.ts';
import { cos, sin } from '../../numeric/index.ts';
import { END } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import type { Analysis } from '../assessment.ts';
import { portArea } from './sight.ts';

/** Share of the inlet ports' area within the ring that the blades sweep [0..1]; NaN without a ring. */
export const sweptRingAnalysis: Analysis<number> = {
  name: 'swept ring',
  run: ({ brief, samples }) => {
    const ring = sweptRing(brief);
    if (ring === null) return Number.NaN;
    let open = 0;
    let swept = 0;
    for (let i = 0; i < samples.channelCount; i++) {
      const station = faceStation(samples, samples.shapeOf[i]);
      if (station < 0) continue;
      const area = portArea(samples, samples.shapeOf[i], station);
      open += area;
      swept += area * shareInside(samples, i, station, area, ring);
    }
    return open > 0 ? swept / open : Number.NaN;
  },
};

/** Station of the port before the fan: the inlet, or the end that lies on a face; -1 for neither. */
export function faceStation({ sides, stations }: PlateSamples, shape: number): number {
  if (sides === null || sides.kind[2 * shape] === END.face) return 0;
  return sides.kind[2 * shape + 1] === END.face ? stations - 1 : -1;
}

export type Ring = NonNullable<Extract<Brief['air']['supply'], { kind: 'fan' }>['swept']>;

/** The ring of the brief's fan, or null. */
export function sweptRing(brief: Brief): Ring | null {
  const { supply } = brief.air;
  return supply.kind === 'fan' ? (supply.swept ?? null) : null;
}

const POINTS = 64;
/** Turn from one point to the next: the golden angle [rad]. */
const GOLDEN = Math.PI * (3 - Math.sqrt(5));
/** Points that share a disc of radius 1 evenly, along Vogel's spiral [64 x 2]. */
const SPREAD = Float64Array.from({ length: 2 * POINTS }, (_, k) => {
  const point = k >> 1;
  const radius = Math.sqrt((point + 0.5) / POINTS);
  const angle = GOLDEN * point;
  return radius * (k % 2 === 0 ? cos(angle) : sin(angle));
});

/** Share of a port, taken as a disc of its area, that lies within the ring. */
export function shareInside(
  samples: PlateSamples,
  channel: number,
  station: number,
  area_mm2: number,
  ring: Ring,
): number {
  const at = 3 * (samples.shapeOf[channel] * samples.stations + station);
  const x = samples.point_mm[at] + samples.offset_mm[2 * channel] - ring.x_mm;
  const y = samples.point_mm[at + 1] + samples.offset_mm[2 * channel + 1] - ring.y_mm;
  const radius = Math.sqrt(area_mm2 / Math.PI);
  const inner = 0.25 * ring.hub_mm * ring.hub_mm;
  const outer = 0.25 * ring.diameter_mm * ring.diameter_mm;
  let inside = 0;
  for (let k = 0; k < SPREAD.length; k += 2) {
    const px = x + radius * SPREAD[k];
    const py = y + radius * SPREAD[k + 1];
    const square = px * px + py * py;
    if (square >= inner && square <= outer) inside++;
  }
  return inside / POINTS;
}
