/** Void on a comb of cut planes normal to x, y and z: the estimate's weakest section. */
import type { Outline } from '../brief/index.ts';
import { outlineArea, outlineBounds } from '../design/index.ts';
import type { Hole, Plate, PlateSamples } from '../design/index.ts';
import { outlineSpans } from './outline-spans.ts';
import { sectionWidth } from './section-width.ts';

const PLANES = 128;
const DEPTHS = 32;
// As in the raster: a plane counts from this share of the largest section on.
const LEAST_SECTION = 0.1;

interface Comb {
  outline: Outline | null;
  holes: readonly Hole[] | null;
  /** First plane and distance between planes, across x and across y [mm]. */
  x0: number;
  y0: number;
  dx: number;
  dy: number;
  area_mm2: number;
  /** Length of the plate and of its mounting holes in each plane [mm]. */
  readonly chordX: Float64Array;
  readonly chordY: Float64Array;
  readonly holeX: Float64Array;
  readonly holeY: Float64Array;
}

const comb: Comb = {
  outline: null,
  holes: null,
  x0: 0,
  y0: 0,
  dx: 1,
  dy: 1,
  area_mm2: 0,
  chordX: new Float64Array(PLANES),
  chordY: new Float64Array(PLANES),
  holeX: new Float64Array(PLANES),
  holeY: new Float64Array(PLANES),
};
const voidX = new Float64Array(PLANES + 1);
const voidY = new Float64Array(PLANES + 1);
const voidZ = new Float64Array(DEPTHS + 1);
const spans: number[] = [];

/** The same outline with x and y exchanged. */
function turned(outline: Outline): Outline {
  if (outline.kind === 'round') return outline;
  if (outline.kind === 'rectangle') {
    return { ...outline, width_mm: outline.height_mm, height_mm: outline.width_mm };
  }
  return { kind: 'polygon', points_mm: outline.points_mm.map(([x, y]) => [y, x]) };
}

function chords(outline: Outline, from: number, step: number, out: Float64Array): void {
  for (let i = 0; i < PLANES; i++) {
    const count = outlineSpans(outline, from + i * step, spans);
    out[i] = 0;
    for (let s = 0; s < count; s++) out[i] += spans[2 * s + 1] - spans[2 * s];
  }
}

/** One search has one outline: its comb is kept. */
function layComb(plate: Plate): void {
  if (comb.outline === plate.outline && comb.holes === plate.holes) return;
  const box = outlineBounds(plate.outline);
  comb.outline = plate.outline;
  comb.holes = plate.holes;
  comb.dx = (box.maxX_mm - box.minX_mm) / PLANES;
  comb.dy = (box.maxY_mm - box.minY_mm) / PLANES;
  comb.x0 = box.minX_mm + comb.dx / 2;
  comb.y0 = box.minY_mm + comb.dy / 2;
  comb.area_mm2 = outlineArea(plate.outline);
  chords(turned(plate.outline), comb.x0, comb.dx, comb.chordX);
  chords(plate.outline, comb.y0, comb.dy, comb.chordY);
  comb.holeX.fill(0);
  comb.holeY.fill(0);
  for (const hole of plate.holes) {
    for (let i = 0; i < PLANES; i++) {
      const r2 = (hole.diameter_mm * hole.diameter_mm) / 4;
      const ex = comb.x0 + i * comb.dx - hole.x_mm;
      const ey = comb.y0 + i * comb.dy - hole.y_mm;
      comb.holeX[i] += 2 * Math.sqrt(Math.max(0, r2 - ex * ex));
      comb.holeY[i] += 2 * Math.sqrt(Math.max(0, r2 - ey * ey));
    }
  }
}

/** Spreads a volume over [at - half, at + half] of the comb, as area per plane (differences). */
function spread(
  out: Float64Array,
  planes: number,
  at: number,
  half: number,
  from: number,
  perStep: number,
  volume: number,
): void {
  let first = Math.ceil((at - half - from) * perStep);
  let last = Math.floor((at + half - from) * perStep);
  const share = volume / (2 * half);
  if (last < first) return;
  if (first < 0) first = 0;
  if (last >= planes) last = planes - 1;
  if (last < first) return;
  out[first] += share;
  out[last + 1] -= share;
}

/**
 * Least share of solid over planes normal to x, y and z [0..1], from stations.
 *
 * Each station's slice of void is spread evenly over the planes it meets, so planes between
 * stations are seen, but the share is good to a few hundredths only.
 */
export function weakestShare(samples: PlateSamples): number {
  const { plate, stations, point_mm: point, tangent, area_mm2, bore_mm, length_mm } = samples;
  const { first, second } = samples;
  layComb(plate);
  voidX.fill(0);
  voidY.fill(0);
  voidZ.fill(0);
  const perZ = DEPTHS / plate.thickness_mm;
  const z0 = 0.5 / perZ;
  const perX = 1 / comb.dx;
  const perY = 1 / comb.dy;
  for (let c = 0; c < samples.channelCount; c++) {
    const shape = samples.shapeOf[c];
    const ox = samples.offset_mm[2 * c];
    const oy = samples.offset_mm[2 * c + 1];
    const step = length_mm[shape] / (stations - 1);
    const base = shape * stations;
    const section = samples.sections[shape];
    // Every other station stands for the two steps about it: half the time, and the comb is no
    // finer than that.
    for (let k = 1; k < stations; k += 2) {
      const row = base + k;
      const i = 3 * row;
      const long = k === stations - 1 ? step : 2 * step;
      const volume = area_mm2[row] * long;
      const area = area_mm2[row];
      const bore = bore_mm[row];
      const rx = sectionWidth(section, bore, area, first[i], second[i]);
      const ry = sectionWidth(section, bore, area, first[i + 1], second[i + 1]);
      const rz = sectionWidth(section, bore, area, first[i + 2], second[i + 2]);
      const tx = Math.abs(tangent[i]);
      const ty = Math.abs(tangent[i + 1]);
      const tz = Math.abs(tangent[i + 2]);
      // Of the width across the axis, and half a step along it.
      spread(
        voidX,
        PLANES,
        point[i] + ox,
        0.5 * (rx * (1 - tx * tx) + long * tx),
        comb.x0,
        perX,
        volume,
      );
      spread(
        voidY,
        PLANES,
        point[i + 1] + oy,
        0.5 * (ry * (1 - ty * ty) + long * ty),
        comb.y0,
        perY,
        volume,
      );
      spread(voidZ, DEPTHS, point[i + 2], 0.5 * (rz * (1 - tz * tz) + long * tz), z0, perZ, volume);
    }
  }
  const t = plate.thickness_mm;
  return Math.max(
    0,
    Math.min(
      leastOf(comb.chordX, comb.holeX, voidX, t),
      leastOf(comb.chordY, comb.holeY, voidY, t),
      leastDepth(plate.holes),
    ),
  );
}

function leastOf(chord: Float64Array, hole: Float64Array, gone: Float64Array, t: number): number {
  let most = 0;
  for (let i = 0; i < PLANES; i++) most = Math.max(most, chord[i]);
  let least = 1;
  let sum = 0;
  for (let i = 0; i < PLANES; i++) {
    sum += gone[i];
    if (chord[i] > LEAST_SECTION * most) {
      least = Math.min(least, 1 - hole[i] / chord[i] - sum / (chord[i] * t));
    }
  }
  return least;
}

function leastDepth(holes: readonly Hole[]): number {
  let hole = 0;
  for (const { diameter_mm: d } of holes) hole += (Math.PI / 4) * d * d;
  let most = 0;
  let sum = 0;
  for (let i = 0; i < DEPTHS; i++) {
    sum += voidZ[i];
    most = Math.max(most, sum);
  }
  return 1 - (hole + most) / comb.area_mm2;
}
