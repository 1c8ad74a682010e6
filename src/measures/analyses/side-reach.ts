/** How far it is from a place inside a channel with a side end to the face that looks at the blades. */
import { END } from '../../design/index.ts';
import type { PlateSamples, SideEnds } from '../../design/index.ts';

/**
 * Least way from the places of a shape to the face at the fan [mm]: no finger or tool that passes
 * both sections and stays in the air makes it shorter. Channels with a port in that face are followed
 * to their own port, straight through the solid. Out of a plenum one goes through the channel's mouth
 * in it, and from there straight to the nearest port of that face. Never less than the way along z.
 *
 *   way >= |p - q| - h_p(u) - h_q(u),   h(u) = reach sqrt(1 - (u . t)^2),   u along p - q
 *
 * is what lies between two flat sections of a reach about their centres p and q, across tangents t.
 *
 * @param fanAtInlet whether the blades stand before the inlet face, z = 0.
 * @param out one way per station [>= stations].
 * Source: plane geometry (support functions of discs).
 */
export function sideWays(
  samples: PlateSamples,
  sides: SideEnds,
  shape: number,
  fanAtInlet: boolean,
  out: Float64Array,
): void {
  const { stations, point_mm, plate } = samples;
  const fanEnd = fanAtInlet ? 0 : stations - 1;
  const kind = sides.kind[2 * shape + (fanAtInlet ? 0 : 1)];
  const mouth = shape * stations + fanEnd;
  const beyond_mm = kind === END.plenum ? fromMouth(samples, sides, shape, fanEnd) : 0;
  for (let i = 0; i < stations; i++) {
    const row = shape * stations + i;
    const z_mm = point_mm[3 * row + 2];
    const along_mm = fanAtInlet ? z_mm : plate.thickness_mm - z_mm;
    out[i] = Math.max(0, along_mm, beyond_mm + between(samples, row, mouth, 0, 0));
  }
}

/** From a shape's mouth in the plenum to the nearest port in the face at the fan [mm]. */
function fromMouth(samples: PlateSamples, sides: SideEnds, shape: number, fanEnd: number): number {
  const { stations, channelCount, shapeOf, offset_mm } = samples;
  const mouth = shape * stations + fanEnd;
  const end = fanEnd === 0 ? 0 : 1;
  let least = Infinity;
  for (let n = 0; n < channelCount; n++) {
    if (shapeOf[n] !== shape) continue;
    for (let k = 0; k < channelCount; k++) {
      const other = shapeOf[k];
      if (sides.kind[2 * other + end] !== END.face) continue;
      const dx = offset_mm[2 * k] - offset_mm[2 * n];
      const dy = offset_mm[2 * k + 1] - offset_mm[2 * n + 1];
      least = Math.min(least, between(samples, mouth, other * stations + fanEnd, dx, dy));
    }
  }
  return least === Infinity ? 0 : least;
}

/** Least distance of two sections, the second moved by dx, dy [mm]; 0 where they may touch. */
function between(samples: PlateSamples, a: number, b: number, dx: number, dy: number): number {
  const { point_mm, tangent, reach_mm } = samples;
  const x = point_mm[3 * b] + dx - point_mm[3 * a];
  const y = point_mm[3 * b + 1] + dy - point_mm[3 * a + 1];
  const z = point_mm[3 * b + 2] - point_mm[3 * a + 2];
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(length > 0)) return 0;
  const along = (row: number): number =>
    (x * tangent[3 * row] + y * tangent[3 * row + 1] + z * tangent[3 * row + 2]) / length;
  const across = (row: number): number =>
    reach_mm[row] * Math.sqrt(Math.max(0, 1 - along(row) * along(row)));
  return Math.max(0, length - across(a) - across(b));
}
