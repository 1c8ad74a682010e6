/** Walls that leave the plate through their own port's face, come back in, and leave it again. */
import { END, polarRadius } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { cos, sin } from '../../numeric/index.ts';
import { isFar } from './face-walls.ts';
import { noteWall } from './tally.ts';
import type { Tally } from './tally.ts';
import type { Tubes } from './tubes.ts';

/** Lines along the wall, at equal angles; of a slot about its round ends. */
const LINES = 32;
const turn = (share: number): number => 2 * Math.PI * share;
const LINE_COS = Float64Array.from({ length: LINES }, (_, i) => cos(turn((i + 0.5) / LINES)));
const LINE_SIN = Float64Array.from({ length: LINES }, (_, i) => sin(turn((i + 0.5) / LINES)));

/** An edge that thin before the wall leaves again is a burr, no wall: meshes leave it out too [mm]. */
const BURR_mm = 0.1;

/** Shallower than this is rounding [mm]. */
const TOUCH_mm = 1e-6;

const isInside = new Uint8Array(LINES);

/**
 * Depth by which the wall of a shape dips through a face that it had left behind, both faces [mm].
 *
 * A leaning channel crosses its face over some stretch: every line along its wall must do so once.
 * Where a channel, a long slot above all, widens faster than it rises, its side dips back: a second
 * opening beside the port, which the wall to the face, counted from the end of the port on, does not
 * see in thin plates. Exact at the stations, for every line of a slot's flat sides and 32 others.
 * Shapes whose height over the face grows faster than their reach towards it are passed over.
 */
export function visitDips(t: Tubes, tally: Tally, shape: number, channel: number): number {
  let depth = 0;
  for (let end: 0 | 1 = 0; ; end = 1) {
    if (mayDip(t, tally, shape, end)) depth += visitEnd(t.samples, tally, shape, channel, end);
    if (end === 1) return depth;
  }
}

function visitEnd(
  samples: PlateSamples,
  tally: Tally,
  shape: number,
  channel: number,
  end: 0 | 1,
): number {
  const { sides } = samples;
  const section = samples.sections[shape];
  if (sides !== null && sides.kind[2 * shape + end] !== END.face) return 0;
  const { stations, point_mm, first, second, bore_mm, roof, offset_mm } = samples;
  const isSlot = section.kind === 'slot';
  const out = end === 0 ? -1 : 1;
  let depth = 0;
  isInside.fill(0);
  flats.fill(Infinity);
  for (let n = 0; n < stations; n++) {
    const k = shape * stations + (end === 0 ? n : stations - 1 - n);
    const height = heightOver(samples, k, end);
    const upFirst = out * first[3 * k + 2];
    const upSecond = out * second[3 * k + 2];
    const half = isSlot ? 0.5 * (section.aspect - 1) * bore_mm[k] : 0;
    let deepest = 0;
    for (let i = 0; i < LINES; i++) {
      const c = LINE_COS[i];
      const s = LINE_SIN[i];
      const radius = isSlot ? 0.5 * bore_mm[k] : polarRadius(section, bore_mm[k], roof[k], c, s);
      const along = (c > 0 ? half : -half) + radius * c;
      const clear = height - upFirst * along - upSecond * radius * s;
      if (clear >= BURR_mm) isInside[i] = 1;
      else if (isInside[i] === 1 && -clear > deepest) deepest = -clear;
    }
    if (isSlot) {
      const rise = -upFirst * half;
      const across = 0.5 * upSecond * bore_mm[k];
      deepest = Math.max(deepest, dipOfFlat(0, height - across, rise));
      deepest = Math.max(deepest, dipOfFlat(2, height + across, rise));
    }
    if (deepest <= Math.max(depth, TOUCH_mm)) continue;
    depth = deepest;
    const x = point_mm[3 * k] + offset_mm[2 * channel];
    const y = point_mm[3 * k + 1] + offset_mm[2 * channel + 1];
    noteWall(tally, -depth, 'face', x, y, point_mm[3 * k + 2], channel, -1);
  }
  return depth;
}

/**
 * Lines q of a slot's two flat sides, -1 to 1 along each, that have been inside: all from `flats[at]`
 * on, and all up to -`flats[at + 1]`; Infinity while there are none [2 sides, at 0 and 2].
 */
const flats = new Float64Array(4);

/**
 * Dip of a flat side at a station, where line q stands `middle` + q `rise` over the face; then adds
 * the lines that are inside here. Those of earlier stations form [q, 1], [-1, q] or both.
 */
function dipOfFlat(at: 0 | 2, middle: number, rise: number): number {
  let deepest = 0;
  const from = flats[at];
  const to = flats[at + 1];
  if (from <= 1) deepest = Math.max(-(middle + from * rise), -(middle + rise));
  if (to <= 1) deepest = Math.max(deepest, -(middle - to * rise), -(middle - rise));
  if (rise === 0) {
    if (middle >= BURR_mm) flats[at] = -1;
  } else {
    const edge = (BURR_mm - middle) / rise;
    if (rise > 0 && edge <= 1) flats[at] = Math.min(from, Math.max(-1, edge));
    if (rise < 0 && edge >= -1) flats[at + 1] = Math.min(to, Math.max(-1, -edge));
  }
  return deepest;
}

/** Whether, within reach of the face, the reach towards it ever grows faster than the height over it. */
function mayDip(t: Tubes, tally: Tally, shape: number, end: 0 | 1): boolean {
  const { stations, blocks, blockSize, point, reach_mm, tangent } = t;
  const last = (shape + 1) * stations - 1;
  // Heights over the face: z, or thickness - z.
  const floor = end === 0 ? 0 : t.plate.thickness_mm;
  const up = end === 0 ? 1 : -1;
  for (let b = 0; b < blocks; b++) {
    if (isFar(t, tally, shape, b, end)) continue;
    const from = shape * stations + b * blockSize;
    const to = Math.min(last, from + blockSize);
    for (let k = from; k < to; k++) {
      const near = end === 0 ? k : k + 1;
      const next = end === 0 ? k + 1 : k;
      const wider = reach_mm[next] - reach_mm[near];
      if (wider <= 0) continue;
      const height = up * (point[3 * next + 2] - floor);
      const rise = tangent[3 * next + 2];
      const lean = Math.sqrt(Math.max(0, 1 - rise * rise));
      if (height >= lean * reach_mm[next]) continue;
      if (lean * wider > height - up * (point[3 * near + 2] - floor)) return true;
    }
  }
  return false;
}

function heightOver({ point_mm, plate }: PlateSamples, station: number, end: 0 | 1): number {
  const z = point_mm[3 * station + 2];
  return end === 0 ? z : plate.thickness_mm - z;
}
