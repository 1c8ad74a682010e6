/** Sections at ends in the rim or in the plenum, cut off where the surface is. */
import { END } from '../../design/index.ts';
import type { SideEnds } from '../../design/index.ts';
import { shearPort } from './ports.ts';
import { sectionReach } from './section-reach.ts';
import type { Tubes } from './tubes.ts';

/** A channel more oblique than this is treated as this [cosine]. */
const LEAST_RISE = 0.2;

/** As `shearPorts`, with the surface of each side end taken as flat where the centreline meets it. */
export function shearSides(t: Tubes, shape: number, { kind, axis }: SideEnds): void {
  for (let end: 0 | 1 = 0; ; end = 1) {
    const a = 6 * shape + 3 * end;
    if (kind[2 * shape + end] === END.face) shearPort(t, shape, end);
    else shearEnd(t, shape, end, axis[a], axis[a + 1], axis[a + 2]);
    if (end === 1) return;
  }
}

function shearEnd(t: Tubes, shape: number, end: 0 | 1, x: number, y: number, z: number): void {
  const { stations, tangent, point, first, second } = t;
  const base = shape * stations;
  const last = base + stations - 1;
  const origin = 3 * (end === 0 ? base : last);
  const sign = end === 0 ? -1 : 1;
  for (let n = 0; n < stations; n++) {
    const k = end === 0 ? base + n : last - n;
    const i = 3 * k;
    const a = first[i] * x + first[i + 1] * y + first[i + 2] * z;
    const b = second[i] * x + second[i + 1] * y + second[i + 2] * z;
    const reach = sectionReach(t, shape, k, sign * a, sign * b);
    const height =
      -sign *
      ((point[i] - point[origin]) * x +
        (point[i + 1] - point[origin + 1]) * y +
        (point[i + 2] - point[origin + 2]) * z);
    if (reach <= Math.max(0, height) || reach < 1e-6) return;
    const rise = tangent[i] * x + tangent[i + 1] * y + tangent[i + 2] * z;
    const slope = Math.max(LEAST_RISE, rise);
    const share = (1 - Math.max(0, height) / reach) / slope;
    for (let d = 0; d < 3; d++) {
      first[i + d] -= share * a * tangent[i + d];
      second[i + d] -= share * b * tangent[i + d];
    }
    t.reach[k] /= slope;
  }
}
