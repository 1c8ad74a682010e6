/** Void on a comb of cut planes normal to x, y and z: the estimate's weakest section. */
import type { Outline } from '../brief/index.ts';
import { outlineArea, outlineBounds } from '../design/index.ts';
import type { Hole, Plate, PlateSamples } from '../design/index.ts';
import { LEAST_RISE, addBoxes, layBoxes } from './cut-boxes.ts';
import { outlineSpans } from './outline-spans.ts';
import { addPlenum, addPlenumDepths } from './plenum.ts';
import { sectionWidth } from './section-width.ts';

const PLANES = 128;
const DEPTHS = 32;
/**
 * Every other station stands for the two steps about it: half the time, and the comb is no finer
 * than that.
 */
const STRIDE = 2;
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
  const { plate } = samples;
  layComb(plate);
  voidX.fill(0);
  voidY.fill(0);
  layBoxes(samples, 1, 0, STRIDE);
  addBoxes(samples, 1, 0, comb.x0, 1 / comb.dx, PLANES, voidX);
  layBoxes(samples, 0, 1, STRIDE);
  addBoxes(samples, 0, 1, comb.y0, 1 / comb.dy, PLANES, voidY);
  sumDepths(samples);
  const plenum = samples.sides?.plenum;
  if (plenum) {
    addPlenum(plenum, comb.x0, comb.dx, PLANES, voidX);
    addPlenum(plenum, comb.y0, comb.dy, PLANES, voidY);
    addPlenumDepths(plenum, plate.thickness_mm, DEPTHS, voidZ);
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

/** Void of the flat cuts: offsets do not count, so each shape is spread once. */
function sumDepths(samples: PlateSamples): void {
  const { plate, stations, point_mm: point, tangent, area_mm2, bore_mm, first, second } = samples;
  voidZ.fill(0);
  const perZ = DEPTHS / plate.thickness_mm;
  const standing = new Int32Array(samples.shapeCount);
  for (let c = 0; c < samples.channelCount; c++) standing[samples.shapeOf[c]]++;
  for (let m = 0; m < samples.shapeCount; m++) {
    const step = samples.length_mm[m] / (stations - 1);
    for (let k = 1; k < stations; k += STRIDE) {
      const row = m * stations + k;
      const i = 3 * row;
      const long = k === stations - 1 ? step : STRIDE * step;
      const area = area_mm2[row];
      const width = sectionWidth(
        samples.sections[m],
        bore_mm[row],
        area,
        first[i + 2],
        second[i + 2],
      );
      const t = Math.abs(tangent[i + 2]);
      // Of the width across the axis, and half a step along it. Sliced level there is no width: with
      // it, depths between two slices of a slightly leaning channel would count both in full.
      const half = 0.5 * ((t < LEAST_RISE ? width * (1 - t * t) : 0) + long * t);
      const volume = standing[m] * area * long;
      spread(voidZ, DEPTHS, point[i + 2], half, 0.5 / perZ, perZ, volume);
    }
  }
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
