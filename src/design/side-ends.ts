/** Ends of channels elsewhere than on the faces: which way they open, and how far to draw them out. */
import type { Channel, ChannelEnd, Design } from './model.ts';
import { outwards } from './outline-normal.ts';
import { plenumDistance, plenumSection } from './plenum.ts';
import { END } from './samples.ts';
import type { PlateSamples, SideEnds } from './samples.ts';

/** Whether a channel has an end that does not lie on its face. */
export function hasSideEnd(channel: Channel): boolean {
  return (channel.inlet ?? 'face') !== 'face' || (channel.outlet ?? 'face') !== 'face';
}

/** Whether a plate has more than channels from face to face. */
export function isSided(design: Design): boolean {
  return design.plenum !== undefined || design.channels.some(hasSideEnd);
}

const way = new Float64Array(3);

/** Works out the ends of sampled shapes; null for a plate of channels from face to face. */
export function sideEndsOf(samples: PlateSamples, design: Design): SideEnds | null {
  if (!isSided(design)) return null;
  const shapes = samples.shapeCount;
  const ends = {
    kind: new Uint8Array(2 * shapes),
    axis: new Float64Array(6 * shapes),
    plenum: design.plenum ?? null,
  };
  for (let m = 0; m < shapes; m++) {
    for (let end = 0; end < 2; end++) ends.axis[6 * m + 3 * end + 2] = 1;
  }
  const section = design.plenum ? plenumSection(design.plenum) : null;
  for (let n = 0; n < samples.channelCount; n++) {
    const m = samples.shapeOf[n];
    const channel = design.channels[samples.channelOfShape[m]];
    if (!hasSideEnd(channel)) continue;
    setEnd(samples, ends, m, n, 0, channel.inlet ?? 'face', section);
    setEnd(samples, ends, m, n, 1, channel.outlet ?? 'face', section);
  }
  return ends;
}

function setEnd(
  samples: PlateSamples,
  ends: { readonly kind: Uint8Array; readonly axis: Float64Array },
  shape: number,
  placed: number,
  end: 0 | 1,
  kind: ChannelEnd,
  section: Float64Array | null,
): void {
  ends.kind[2 * shape + end] = END[kind];
  if (kind === 'face') return;
  const { stations, point_mm, offset_mm } = samples;
  const i = 3 * (shape * stations + end * (stations - 1));
  const x = point_mm[i] + offset_mm[2 * placed];
  const y = point_mm[i + 1] + offset_mm[2 * placed + 1];
  way.fill(0);
  if (kind === 'rim') outwards(samples.plate.outline, x, y, way);
  else if (section !== null) plenumDistance(section, x, y, point_mm[i + 2], way);
  // `way` leads out of the plate at the rim and out of the plenum; air goes so at an outlet at the
  // rim and at an inlet out of the plenum.
  const sign = (kind === 'rim') === (end === 1) ? 1 : -1;
  ends.axis.set(
    way.map((value) => sign * value),
    6 * shape + 3 * end,
  );
}

/** Cosine between a channel and the surface's normal below which its end grazes it. */
const MOST_OBLIQUE = 0.1;

/**
 * How steeply a channel crosses the surface at one of its ends: tangent times the end's axis.
 *
 * @param end 0 inlet, 1 outlet.
 */
export function endRise(samples: PlateSamples, shape: number, end: 0 | 1): number {
  const { sides, stations, tangent } = samples;
  const i = 3 * (shape * stations + end * (stations - 1));
  if (sides === null) return tangent[i + 2];
  const a = 6 * shape + 3 * end;
  const { axis } = sides;
  return tangent[i] * axis[a] + tangent[i + 1] * axis[a + 1] + tangent[i + 2] * axis[a + 2];
}

/**
 * How far past its end a channel must be drawn out along its tangent so that its whole section lies
 * beyond the surface, and a margin more [mm]. Into a plenum no further than needed: a cutter must
 * not come out of its other side.
 */
export function endOverrun(
  samples: PlateSamples,
  shape: number,
  end: 0 | 1,
  margin_mm: number,
): number {
  const { stations, reach_mm, sides } = samples;
  const along = Math.max(MOST_OBLIQUE, Math.abs(endRise(samples, shape, end)));
  const reach = reach_mm[shape * stations + end * (stations - 1)];
  const tilt = Math.sqrt(Math.max(0, 1 - along * along));
  let depth = reach * tilt + margin_mm;
  if (sides?.plenum && sides.kind[2 * shape + end] === END.plenum) {
    // Beside the axis the outer wall recedes by u^2 / (2 r).
    depth += (reach * reach) / (2 * sides.plenum.outerRadius_mm);
  }
  return depth / along;
}
