/**
 * Saw teeth on a channel's wall: rings that stand inwards, one flank shallow and one steep, to stir
 * the air along the wall. What stands outside the channel's drawn section stays as it is.
 *
 * Of every tooth the flank that faces down in build direction is the shallow one. On a wall whose
 * channel leans by a from the build direction a flank of slope m hangs by a + atan m at the most, so
 *
 *   m = tan(45 deg - a) = (c - s)/(c + s),  c = |tangent . up|, s = sqrt(1 - c^2)
 *
 * supports itself, less where the wall tapers or bends; the other flank is four times as steep as high. Where the run would outgrow the
 * pitch the tooth gets lower, and from 45 degrees on there is none.
 */
import type { Build, Channel, Design } from './model.ts';
import type { PlateSamples } from './samples.ts';

/** Teeth of a sampled plate. */
export interface PlateTeeth {
  /** Height of the teeth about a station, 0 where there are none [M x S] [mm]. */
  readonly height_mm: Float64Array;
  /** Distance from tooth to tooth, 0 for a shape without [M] [mm]. */
  readonly pitch_mm: Float64Array;
  /** Of each shape, per tooth: arc position of its first foot, its tip, its last foot; height [n x 4] [mm]. */
  readonly knots: readonly Float64Array[];
}

/** Run of the steep flank over the tooth's height. */
const STEEP = 0.25;
/** A tooth is no higher than this share of the bore, whatever is asked for. */
export const HIGHEST_TOOTH = 0.2;
/** Teeth lower than this are left out [mm]. */
const LEAST_MM = 0.01;
const NONE = new Float64Array(0);

/**
 * Slope of the flank that supports itself in a channel at an angle to the build direction.
 *
 * @param rise |tangent . up|.
 * @returns height over run, 0 where the channel leans 45 degrees or more.
 * @example toothSlope(1) // 1
 * @example toothSlope(0.9) // 0.34741644
 * Source: plane geometry on the 45-degree rule of filament printing (common practice, no source).
 */
export function toothSlope(rise: number): number {
  const s = Math.sqrt(Math.max(0, 1 - rise * rise));
  return Math.max(0, (rise - s) / (rise + s));
}

/** Teeth of every shape, or null for a plate without any. */
export function teethOf(samples: PlateSamples, design: Design): PlateTeeth | null {
  if (!design.channels.some((channel) => channel.teeth !== undefined)) return null;
  const { shapeCount, stations } = samples;
  const height_mm = new Float64Array(shapeCount * stations);
  const pitch_mm = new Float64Array(shapeCount);
  const knots: Float64Array[] = [];
  for (let m = 0; m < shapeCount; m++) {
    const channel = design.channels[samples.channelOfShape[m]];
    pitch_mm[m] = channel.teeth?.pitch_mm ?? 0;
    knots.push(channel.teeth ? layTeeth(samples, m, channel, height_mm) : NONE);
  }
  return { height_mm, pitch_mm, knots };
}

/**
 * Lays the teeth of a shape at equal steps, the plain rest shared by both ends and no shorter than a
 * tooth is high, so that the openings in the faces keep their bore.
 */
function layTeeth(
  samples: PlateSamples,
  shape: number,
  channel: Channel,
  height_mm: Float64Array,
): Float64Array {
  const wanted = channel.teeth ?? { height_mm: 0, pitch_mm: 1 };
  const { stations } = samples;
  const length = samples.length_mm[shape];
  const pitch = wanted.pitch_mm;
  const count = Math.floor((length - 2 * wanted.height_mm) / pitch + 1e-9);
  const start = 0.5 * (length - count * pitch);
  const knots: number[] = [];
  const cells = new Float64Array(Math.max(0, count));
  // Half a pitch, in stations.
  const reach = (0.5 * pitch * (stations - 1)) / length;
  for (let i = 0; i < count; i++) {
    const middle = start + (i + 0.5) * pitch;
    const at = (middle / length) * (stations - 1);
    const rise = riseAt(samples, shape, at, samples.plate.build);
    const bore = mix(samples.bore_mm, shape * stations, stations, at);
    // On the inner side of a bend the same tooth stands on less wall.
    const inner = 1 - 0.5 * bore * bendAt(samples, shape, at);
    const slope =
      (toothSlope(leastRise(samples, shape, at, reach)) - taperAt(samples, shape, at)) * inner;
    if (slope <= 0) continue;
    const run = 1 / slope + STEEP;
    const height = Math.min(wanted.height_mm, pitch / run, HIGHEST_TOOTH * bore);
    if (height < LEAST_MM) continue;
    cells[i] = height;
    const from = middle - 0.5 * run * height;
    // The shallow flank lies towards the bed.
    const tip = from + (rise > 0 ? height / slope : STEEP * height);
    knots.push(from, tip, from + run * height, height);
  }
  for (let k = 0; k < stations; k++) {
    const cell = ((length * k) / (stations - 1) - start) / pitch;
    if (cell > 0 && cell < count) height_mm[shape * stations + k] = cells[Math.trunc(cell)];
  }
  return Float64Array.from(knots);
}

/** Curvature [1/mm]. */
function bendAt(samples: PlateSamples, shape: number, at: number): number {
  const { stations, curvature_per_mm: k } = samples;
  const i = 3 * (shape * stations + Math.round(at));
  return Math.sqrt(k[i] * k[i] + k[i + 1] * k[i + 1] + k[i + 2] * k[i + 2]);
}

/** How fast the wall itself narrows or widens, radius over arc. */
function taperAt(samples: PlateSamples, shape: number, at: number): number {
  const { stations, bore_mm, length_mm } = samples;
  const k = shape * stations + Math.min(stations - 2, Math.trunc(at));
  const step = length_mm[shape] / (stations - 1);
  return (0.5 * Math.abs(bore_mm[k + 1] - bore_mm[k])) / step;
}

/** The flattest that the channel lies within the reach of a tooth, |tangent . up|. */
function leastRise(samples: PlateSamples, shape: number, at: number, reach: number): number {
  const { build } = samples.plate;
  return Math.min(
    Math.abs(riseAt(samples, shape, Math.max(0, at - reach), build)),
    Math.abs(riseAt(samples, shape, at, build)),
    Math.abs(riseAt(samples, shape, Math.min(samples.stations - 1, at + reach), build)),
  );
}

function riseAt(samples: PlateSamples, shape: number, at: number, build: Build): number {
  const { stations, tangent } = samples;
  const k = Math.min(stations - 2, Math.trunc(at));
  const i = 3 * (shape * stations + k) + (build === 'edge' ? 1 : 2);
  return tangent[i] + (at - k) * (tangent[i + 3] - tangent[i]);
}

function mix(values: Float64Array, from: number, stations: number, at: number): number {
  const k = Math.min(stations - 2, Math.trunc(at));
  return values[from + k] + (at - k) * (values[from + k + 1] - values[from + k]);
}

/**
 * Height of the wall's teeth at an arc position [mm].
 *
 * @param knots teeth of the shape, as in `PlateTeeth.knots`.
 * @example toothHeight(Float64Array.of(1, 2, 2.25, 1), 1.5) // 0.5
 * @example toothHeight(Float64Array.of(1, 2, 2.25, 1), 3) // 0
 */
export function toothHeight(knots: Float64Array, arc_mm: number): number {
  for (let k = 0; k < knots.length; k += 4) {
    if (arc_mm <= knots[k] || arc_mm >= knots[k + 2]) continue;
    const tip = knots[k + 1];
    const off =
      arc_mm <= tip ? (tip - arc_mm) / (tip - knots[k]) : (arc_mm - tip) / (knots[k + 2] - tip);
    return knots[k + 3] * (1 - off);
  }
  return 0;
}

/**
 * Solid in the teeth of a shape [mm3].
 *
 *   per tooth: A/R^2 (R h b - h^2 b/3),  h height, b length of its foot, R half the bore
 *
 * Source: parallel sets of sections whose sides all touch the inscribed circle, which is why the set
 * h further in is the section of bore 2 (R - h); exact in a straight channel of one bore.
 */
export function toothVolume(samples: PlateSamples, shape: number): number {
  const { teeth, stations, bore_mm, area_mm2, length_mm } = samples;
  if (teeth === null) return 0;
  const knots = teeth.knots[shape];
  let sum = 0;
  for (let k = 0; k < knots.length; k += 4) {
    const at = (knots[k + 1] / length_mm[shape]) * (stations - 1);
    const r = 0.5 * mix(bore_mm, shape * stations, stations, at);
    const area = mix(area_mm2, shape * stations, stations, at);
    const h = knots[k + 3];
    const foot = knots[k + 2] - knots[k];
    sum += (area / (r * r)) * h * foot * (r - h / 3);
  }
  return sum;
}
