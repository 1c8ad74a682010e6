/** Solid between neighbouring channels, seen along the air: ligaments, slats and webs. */
import { circumradius, pocketBump, sectionSupport } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';

/** Neighbours kept per channel, those with the least solid between, out of so many candidates. */
export const MOST_NEIGHBOURS = 10;
const CANDIDATES = 16;
/** A channel leaning further than this is taken to lean so [cosine]. */
const LEAST_RISE = 0.2;
/** Two neighbours in one direction, ligaments too: only the nearer counts [cosine of 12 degrees]. */
const SAME_WAY = 0.978;

/** Footprints of all shapes at some depths: each section sheared along its channel into the plane. */
export interface Footprints {
  readonly samples: PlateSamples;
  readonly levels: number;
  /** Whether the shape meets the depth [M x levels]. */
  readonly present: Uint8Array;
  /**
   * Per shape and depth: x, y, the first and second axis in the plane (x y each), bore, roof, what
   * pockets add, and the furthest reach [M x levels x 10].
   */
  readonly data: Float64Array;
  /** Middle and furthest reach of every placed channel at half depth [N x 3]. */
  readonly middle: Float64Array;
  /** Whether the middle line alone parts it best from its like: round and nearly upright [M]. */
  readonly isPlain: Uint8Array;
}

const WIDTH = 10;

/** Lays the footprints at equal depths; the first and last lie a hundredth inside the faces. */
export function layFootprints(samples: PlateSamples, levels: number): Footprints {
  const { shapeCount, stations, point_mm, tangent, first, second, bore_mm, roof } = samples;
  const present = new Uint8Array(shapeCount * levels);
  const data = new Float64Array(shapeCount * levels * WIDTH);
  const t = samples.plate.thickness_mm;
  for (let m = 0; m < shapeCount; m++) {
    for (let l = 0; l < levels; l++) {
      const z = t * (levels === 1 ? 0.5 : 0.01 + (0.98 * l) / (levels - 1));
      const k = stationAt(samples, m, z);
      if (k < 0) continue;
      const row = m * stations + k;
      const tz = tangent[3 * row + 2];
      const rise = Math.max(LEAST_RISE, Math.abs(tz)) * (tz < 0 ? -1 : 1);
      const at = (m * levels + l) * WIDTH;
      present[m * levels + l] = 1;
      const off = (z - point_mm[3 * row + 2]) / rise;
      const fz = first[3 * row + 2] / rise;
      const gz = second[3 * row + 2] / rise;
      for (let d = 0; d < 2; d++) {
        const along = tangent[3 * row + d];
        data[at + d] = point_mm[3 * row + d] + off * along;
        data[at + 2 + d] = first[3 * row + d] - along * fz;
        data[at + 4 + d] = second[3 * row + d] - along * gz;
      }
      data[at + 6] = bore_mm[row];
      data[at + 7] = roof[row];
      let bulge = 0;
      const arc = (samples.length_mm[m] * k) / (stations - 1);
      for (const pocket of samples.pockets[m]) {
        bulge += pocketBump(pocket, arc, samples.length_mm[m]);
      }
      data[at + 8] = bulge;
      const reach = circumradius(samples.sections[m], bore_mm[row], roof[row]);
      data[at + 9] = reach / Math.abs(rise) + bulge;
    }
  }
  const middle = new Float64Array(3 * samples.channelCount);
  for (let c = 0; c < samples.channelCount; c++) {
    const at = (samples.shapeOf[c] * levels + (levels >> 1)) * WIDTH;
    middle[3 * c] = samples.offset_mm[2 * c] + data[at];
    middle[3 * c + 1] = samples.offset_mm[2 * c + 1] + data[at + 1];
    middle[3 * c + 2] = data[at + 9];
  }
  return { samples, levels, present, data, middle, isPlain: plainShapes(samples) };
}

/** Leaning less than this a round is as good as a circle in the plane [cosine of 8 degrees]. */
const NEARLY_UPRIGHT = 0.99;

function plainShapes(samples: PlateSamples): Uint8Array {
  const { shapeCount, stations, tangent } = samples;
  const isPlain = new Uint8Array(shapeCount);
  for (let m = 0; m < shapeCount; m++) {
    if (samples.sections[m].kind !== 'round') continue;
    isPlain[m] = 1;
    for (let k = m * stations; k < (m + 1) * stations; k++) {
      if (tangent[3 * k + 2] < NEARLY_UPRIGHT) isPlain[m] = 0;
    }
  }
  return isPlain;
}

/** Station nearest to a depth, or -1 when the channel does not come that far. */
function stationAt(samples: PlateSamples, shape: number, z_mm: number): number {
  const { stations, point_mm } = samples;
  let best = -1;
  let least = Infinity;
  for (let k = 0; k < stations; k++) {
    const off = Math.abs(point_mm[3 * (shape * stations + k) + 2] - z_mm);
    if (off < least) {
      least = off;
      best = k;
    }
  }
  return least <= samples.length_mm[shape] / (stations - 1) ? best : -1;
}

/** Where a footprint reaches in a direction of the plane, from its own middle [mm]. */
export function footprintSupport(
  prints: Footprints,
  shape: number,
  level: number,
  x: number,
  y: number,
): number {
  const { data, samples } = prints;
  const at = (shape * prints.levels + level) * WIDTH;
  const c = x * data[at + 2] + y * data[at + 3];
  const s = x * data[at + 4] + y * data[at + 5];
  const size = Math.sqrt(c * c + s * s);
  const section = samples.sections[shape];
  const inner = sectionSupport(section, data[at + 6], data[at + 7], c / size, s / size);
  return size * inner + data[at + 8];
}

/** Middle of a placed channel's footprint [mm]. */
export function footprintX(prints: Footprints, channel: number, level: number): number {
  const shape = prints.samples.shapeOf[channel];
  return (
    prints.samples.offset_mm[2 * channel] + prints.data[(shape * prints.levels + level) * WIDTH]
  );
}

export function footprintY(prints: Footprints, channel: number, level: number): number {
  const shape = prints.samples.shapeOf[channel];
  const at = (shape * prints.levels + level) * WIDTH + 1;
  return prints.samples.offset_mm[2 * channel + 1] + prints.data[at];
}

/** Long axis of a slot in the plane, not of unit length; x or y. */
export function longAxis(prints: Footprints, shape: number, level: number, axis: 0 | 1): number {
  return prints.data[(shape * prints.levels + level) * WIDTH + 2 + axis];
}

export function isPresent(prints: Footprints, channel: number, level: number): boolean {
  return prints.present[prints.samples.shapeOf[channel] * prints.levels + level] === 1;
}

/** Neighbours of one channel, least solid first; filled by `findNeighbours`. */
interface Neighbours {
  count: number;
  readonly other: Int32Array;
  /** Solid between: least over the depths, and mean [mm]. */
  readonly gap_mm: Float64Array;
  readonly mean_mm: Float64Array;
  /** Middle to middle along the shortest ligament, and its direction. */
  readonly pitch_mm: Float64Array;
  readonly alongX: Float64Array;
  readonly alongY: Float64Array;
  /** From middle to middle at half depth [mm]. */
  readonly stepX_mm: Float64Array;
  readonly stepY_mm: Float64Array;
}

export function createNeighbours(): Neighbours {
  const list = (): Float64Array => new Float64Array(CANDIDATES + 1);
  return {
    count: 0,
    other: new Int32Array(CANDIDATES + 1),
    gap_mm: list(),
    mean_mm: list(),
    pitch_mm: list(),
    alongX: list(),
    alongY: list(),
    stepX_mm: list(),
    stepY_mm: list(),
  };
}

const ligament = { gap_mm: 0, pitch_mm: 0, x: 0, y: 0 };

/**
 * Solid between two footprints at one depth, into `ligament`: the widest strip that parts them, of
 * the directions from middle to middle, square to either's long axis, and along the first's. Exact
 * for rounds and for parallel or end-to-end slots, never too wide for convex sections.
 */
function measureGap(prints: Footprints, a: number, b: number, level: number): void {
  const { shapeOf } = prints.samples;
  const dx = footprintX(prints, b, level) - footprintX(prints, a, level);
  const dy = footprintY(prints, b, level) - footprintY(prints, a, level);
  const fax = longAxis(prints, shapeOf[a], level, 0);
  const fay = longAxis(prints, shapeOf[a], level, 1);
  ligament.gap_mm = -Infinity;
  ligament.pitch_mm = 0;
  ligament.x = 1;
  ligament.y = 0;
  tryWay(prints, a, b, level, dx, dy, dx, dy);
  if (prints.isPlain[shapeOf[a]] === 1 && prints.isPlain[shapeOf[b]] === 1) return;
  tryWay(prints, a, b, level, dx, dy, -fay, fax);
  tryWay(prints, a, b, level, dx, dy, fax, fay);
  const fbx = longAxis(prints, shapeOf[b], level, 0);
  const fby = longAxis(prints, shapeOf[b], level, 1);
  if (fbx !== fax || fby !== fay) tryWay(prints, a, b, level, dx, dy, -fby, fbx);
}

function tryWay(
  prints: Footprints,
  a: number,
  b: number,
  level: number,
  dx: number,
  dy: number,
  wayX: number,
  wayY: number,
): void {
  const size = Math.sqrt(wayX * wayX + wayY * wayY);
  if (size < 1e-9) return;
  const sign = dx * wayX + dy * wayY < 0 ? -1 : 1;
  const x = (sign * wayX) / size;
  const y = (sign * wayY) / size;
  const { shapeOf } = prints.samples;
  const pitch = dx * x + dy * y;
  const gap =
    pitch -
    footprintSupport(prints, shapeOf[a], level, x, y) -
    footprintSupport(prints, shapeOf[b], level, -x, -y);
  if (gap <= ligament.gap_mm) return;
  ligament.gap_mm = gap;
  ligament.pitch_mm = pitch;
  ligament.x = x;
  ligament.y = y;
}

/** Finds the neighbours of a channel; ligaments wider than `most_mm` are left out. */
export function findNeighbours(
  prints: Footprints,
  channel: number,
  most_mm: number,
  out: Neighbours,
): void {
  const { samples, levels, middle } = prints;
  const half = levels >> 1;
  out.count = 0;
  if (!isPresent(prints, channel, half)) return;
  const x = middle[3 * channel];
  const y = middle[3 * channel + 1];
  const ownReach = middle[3 * channel + 2];
  for (let j = 0; j < samples.channelCount; j++) {
    const dx = middle[3 * j] - x;
    const dy = middle[3 * j + 1] - y;
    const reach = ownReach + middle[3 * j + 2] + limitOf(out, most_mm);
    if (dx * dx + dy * dy > reach * reach) continue;
    if (j === channel || !isPresent(prints, j, half)) continue;
    measureGap(prints, channel, j, half);
    if (ligament.gap_mm < limitOf(out, most_mm)) insert(out, j, dx, dy);
  }
  keepNearest(out);
  for (let n = 0; n < out.count; n++) deepen(prints, channel, n, out);
}

function limitOf(out: Neighbours, most_mm: number): number {
  return out.count < CANDIDATES ? most_mm : Math.min(most_mm, out.gap_mm[CANDIDATES - 1]);
}

/** Puts the ligament just measured in its place. */
function insert(out: Neighbours, other: number, dx: number, dy: number): void {
  let at = out.count;
  while (at > 0 && out.gap_mm[at - 1] > ligament.gap_mm) {
    copy(out, at - 1, at);
    at--;
  }
  out.other[at] = other;
  out.gap_mm[at] = ligament.gap_mm;
  out.pitch_mm[at] = ligament.pitch_mm;
  out.alongX[at] = ligament.x;
  out.alongY[at] = ligament.y;
  out.stepX_mm[at] = dx;
  out.stepY_mm[at] = dy;
  out.count = Math.min(out.count + 1, CANDIDATES);
}

const isBehind = new Uint8Array(CANDIDATES);

/** Leaves out candidates that stand behind a nearer one, whatever order they were met in. */
function keepNearest(out: Neighbours): void {
  const { stepX_mm: x, stepY_mm: y, alongX, alongY } = out;
  for (let n = 0; n < out.count; n++) {
    const far = Math.sqrt(x[n] * x[n] + y[n] * y[n]);
    isBehind[n] = 0;
    for (let k = 0; k < out.count && isBehind[n] === 0; k++) {
      const near = Math.sqrt(x[k] * x[k] + y[k] * y[k]);
      if (near > far - 1e-6) continue;
      if (x[n] * x[k] + y[n] * y[k] < SAME_WAY * near * far) continue;
      if (alongX[n] * alongX[k] + alongY[n] * alongY[k] >= SAME_WAY) isBehind[n] = 1;
    }
  }
  let kept = 0;
  for (let n = 0; n < out.count && kept < MOST_NEIGHBOURS; n++) {
    if (isBehind[n] === 1) continue;
    if (kept < n) copy(out, n, kept);
    kept++;
  }
  out.count = kept;
}

function copy(out: Neighbours, from: number, to: number): void {
  out.other[to] = out.other[from];
  out.gap_mm[to] = out.gap_mm[from];
  out.pitch_mm[to] = out.pitch_mm[from];
  out.alongX[to] = out.alongX[from];
  out.alongY[to] = out.alongY[from];
  out.stepX_mm[to] = out.stepX_mm[from];
  out.stepY_mm[to] = out.stepY_mm[from];
}

/** Looks at the other depths: the least ligament with its pitch, and the mean. */
function deepen(prints: Footprints, channel: number, n: number, out: Neighbours): void {
  if (prints.levels === 1) {
    out.mean_mm[n] = out.gap_mm[n];
    return;
  }
  const other = out.other[n];
  let sum = 0;
  let seen = 0;
  for (let level = 0; level < prints.levels; level++) {
    if (!isPresent(prints, channel, level) || !isPresent(prints, other, level)) continue;
    measureGap(prints, channel, other, level);
    sum += ligament.gap_mm;
    seen++;
    if (ligament.gap_mm >= out.gap_mm[n]) continue;
    out.gap_mm[n] = ligament.gap_mm;
    out.pitch_mm[n] = ligament.pitch_mm;
    out.alongX[n] = ligament.x;
    out.alongY[n] = ligament.y;
  }
  out.mean_mm[n] = sum / seen;
}
