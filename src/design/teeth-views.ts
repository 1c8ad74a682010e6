/** Samples of a toothed plate with the teeth in the bore: as built, or as what passes sees them. */
import type { Section } from './model.ts';
import { HULL_CORNERS } from './pockets.ts';
import type { PlateSamples } from './samples.ts';
import { crossAxes, raiseRoof } from './section-frames.ts';
import { circumradius, sectionArea, sectionPerimeter } from './sections.ts';
import { toothHeight } from './teeth.ts';

/**
 * The plate with its bore narrowed to the tips of the teeth at every station that has teeth about it:
 * what a probe, a sphere or a line of sight meets. The samples themselves where nothing has teeth.
 */
export function tipSamples(samples: PlateSamples): PlateSamples {
  const { teeth } = samples;
  if (teeth === null) return samples;
  const view = {
    bore_mm: Float64Array.from(samples.bore_mm),
    area_mm2: Float64Array.from(samples.area_mm2),
    perimeter_mm: Float64Array.from(samples.perimeter_mm),
    reach_mm: Float64Array.from(samples.reach_mm),
  };
  for (let k = 0; k < view.bore_mm.length; k++) {
    const h = teeth.height_mm[k];
    if (h === 0) continue;
    const share = 1 - (2 * h) / samples.bore_mm[k];
    view.bore_mm[k] *= share;
    view.area_mm2[k] *= share * share;
    view.perimeter_mm[k] *= share;
    // A toothed channel has no pockets, so the whole reach is the section's.
    view.reach_mm[k] *= share;
  }
  return { ...samples, ...view, teeth: null };
}

/** Two rows closer than this on the arc are one [mm]. */
const SAME_MM = 1e-6;

/**
 * The plate as built: rows at every station and, between them, at every foot and tip of a tooth, the
 * bore less twice the tooth's height. Rows of a toothed shape do not stand at equal steps; those of
 * the others do. The samples themselves where nothing has teeth.
 *
 * Between stations the centreline follows the cubic through their points and tangents; the frame
 * is carried over and turned to the build direction anew.
 */
export function toothedSamples(samples: PlateSamples): PlateSamples {
  const { teeth } = samples;
  if (teeth === null) return samples;
  const arcs = teeth.knots.map((knots, m) => rowsOf(samples, m, knots));
  const rows = Math.max(...arcs.map((list) => list.length));
  const view = emptyRows(samples, rows);
  for (let m = 0; m < samples.shapeCount; m++) {
    const even = teeth.knots[m].length === 0;
    const list = even ? evenArcs(samples.length_mm[m], rows) : filled(arcs[m], rows);
    fillShape(samples, m, list, teeth.knots[m], view);
  }
  return view;
}

/** Rows over the height of a pocket's lip that show its form. */
const ROWS_PER_LIP = 3;
const MOST_PARTS = 8;

/**
 * The plate as built, for drawing it layer by layer: with its teeth, and with rows close enough for
 * the lips of its pockets. The samples themselves where the plate has neither.
 */
export function builtSamples(samples: PlateSamples): PlateSamples {
  if (samples.teeth !== null) return toothedSamples(samples);
  let finest = Infinity;
  samples.pockets.forEach((pockets, m) => {
    for (const { lip_mm: lip } of pockets) {
      if (lip !== undefined && lip > 0) finest = Math.min(finest, lip / samples.length_mm[m]);
    }
  });
  const parts = Math.min(MOST_PARTS, Math.ceil(ROWS_PER_LIP / (finest * (samples.stations - 1))));
  if (!(parts > 1)) return samples;
  const rows = (samples.stations - 1) * parts + 1;
  const view = emptyRows(samples, rows);
  for (let m = 0; m < samples.shapeCount; m++) {
    fillShape(samples, m, evenArcs(samples.length_mm[m], rows), NO_TEETH, view);
  }
  return view;
}

const NO_TEETH = new Float64Array(0);

function evenArcs(length_mm: number, rows: number): number[] {
  return Array.from({ length: rows }, (_, k) => (length_mm * k) / (rows - 1));
}

/** Arc positions of a shape's stations and teeth, rising. */
function rowsOf(samples: PlateSamples, shape: number, knots: Float64Array): number[] {
  const arcs = evenArcs(samples.length_mm[shape], samples.stations);
  for (let k = 0; k < knots.length; k += 4) arcs.push(knots[k], knots[k + 1], knots[k + 2]);
  arcs.sort((a, b) => a - b);
  const last = samples.length_mm[shape];
  return arcs.filter(
    (arc, i) => i === 0 || (arc - arcs[i - 1] > SAME_MM && (arc === last || last - arc > SAME_MM)),
  );
}

/** Splits the widest gaps until there are so many rows. */
function filled(arcs: readonly number[], rows: number): number[] {
  const out = [...arcs];
  while (out.length < rows) {
    let widest = 1;
    for (let i = 2; i < out.length; i++) {
      if (out[i] - out[i - 1] > out[widest] - out[widest - 1]) widest = i;
    }
    out.splice(widest, 0, 0.5 * (out[widest - 1] + out[widest]));
  }
  return out;
}

function emptyRows(samples: PlateSamples, stations: number): PlateSamples {
  const rows = samples.shapeCount * stations;
  const twist = new Float64Array(2 * rows);
  return {
    ...samples,
    stations,
    point_mm: new Float64Array(3 * rows),
    tangent: new Float64Array(3 * rows),
    first: new Float64Array(3 * rows),
    second: new Float64Array(3 * rows),
    bore_mm: new Float64Array(rows),
    roof: new Float64Array(rows),
    curvature_per_mm: new Float64Array(3 * rows),
    area_mm2: new Float64Array(rows),
    perimeter_mm: new Float64Array(rows),
    reach_mm: new Float64Array(rows),
    twist,
    pocketHull: samples.pocketHull.slice(
      0,
      2 * HULL_CORNERS * samples.pocketStart[samples.shapeCount],
    ),
    teeth: null,
  };
}

function fillShape(
  from: PlateSamples,
  shape: number,
  arcs: readonly number[],
  knots: Float64Array,
  to: PlateSamples,
): void {
  const last = from.stations - 1;
  const step = from.length_mm[shape] / last;
  const section = from.sections[shape];
  arcs.forEach((arc, row) => {
    const k = Math.min(last - 1, Math.trunc(arc / step));
    const t = Math.min(1, arc / step - k);
    const out = shape * to.stations + row;
    layRow(from, shape * from.stations + k, t, step, to, out);
    const bore = from.bore_mm[shape * from.stations + k];
    const next = from.bore_mm[shape * from.stations + k + 1];
    to.bore_mm[out] = bore + t * (next - bore) - 2 * toothHeight(knots, arc);
  });
  const begin = shape * to.stations;
  crossAxes(to.tangent, to.first, to.second, 3 * begin, to.stations);
  if (section.kind === 'teardrop') {
    const { tangent, first, second, roof, twist } = to;
    raiseRoof(to.plate.build, tangent, first, second, roof, twist, begin, to.stations);
  } else {
    for (let k = begin; k < begin + to.stations; k++) to.twist[2 * k] = 1;
  }
  for (let k = begin; k < begin + to.stations; k++) sizeRow(section, to, k);
  if (from.pockets[shape].length > 0) copyReach(from, shape, to);
}

function sizeRow(section: Section, to: PlateSamples, k: number): void {
  to.area_mm2[k] = sectionArea(section, to.bore_mm[k], to.roof[k]);
  to.perimeter_mm[k] = sectionPerimeter(section, to.bore_mm[k], to.roof[k]);
  to.reach_mm[k] = circumradius(section, to.bore_mm[k], to.roof[k]);
}

/** A pocketed shape beside toothed ones: the greater reach of the stations on either side. */
function copyReach(from: PlateSamples, shape: number, to: PlateSamples): void {
  const last = from.stations - 1;
  for (let row = 0; row < to.stations; row++) {
    const k = Math.min(last - 1, Math.trunc((row / (to.stations - 1)) * last));
    const at = shape * from.stations + k;
    to.reach_mm[shape * to.stations + row] = Math.max(from.reach_mm[at], from.reach_mm[at + 1]);
  }
}

const carriedA = new Float64Array(3);
const carriedB = new Float64Array(3);

/** The axis carried without twist, from the section's frame. */
function carriedAxis(from: PlateSamples, k: number, out: Float64Array): void {
  const c = from.twist[2 * k];
  const s = from.twist[2 * k + 1];
  for (let i = 0; i < 3; i++) out[i] = c * from.first[3 * k + i] - s * from.second[3 * k + i];
}

/** Point, tangent, carried axis and curvature between two stations of one shape. */
function layRow(
  from: PlateSamples,
  k: number,
  t: number,
  step: number,
  to: PlateSamples,
  row: number,
): void {
  const { point_mm: p, tangent: d, curvature_per_mm: c } = from;
  carriedAxis(from, k, carriedA);
  carriedAxis(from, k + 1, carriedB);
  const t2 = t * t;
  const t3 = t2 * t;
  let along = 0;
  let size = 0;
  for (let i = 0; i < 3; i++) {
    const a = 3 * k + i;
    const b = a + 3;
    const o = 3 * row + i;
    to.point_mm[o] =
      (1 - 3 * t2 + 2 * t3) * p[a] +
      (3 * t2 - 2 * t3) * p[b] +
      step * ((t - 2 * t2 + t3) * d[a] + (t3 - t2) * d[b]);
    to.tangent[o] = d[a] + t * (d[b] - d[a]);
    to.curvature_per_mm[o] = c[a] + t * (c[b] - c[a]);
    size += to.tangent[o] * to.tangent[o];
  }
  size = 1 / Math.sqrt(size);
  for (let o = 3 * row; o < 3 * row + 3; o++) to.tangent[o] *= size;
  for (let i = 0; i < 3; i++) {
    to.first[3 * row + i] = carriedA[i] + t * (carriedB[i] - carriedA[i]);
    along += to.first[3 * row + i] * to.tangent[3 * row + i];
  }
  size = 0;
  for (let o = 3 * row; o < 3 * row + 3; o++) {
    to.first[o] -= along * to.tangent[o];
    size += to.first[o] * to.first[o];
  }
  size = 1 / Math.sqrt(size);
  for (let o = 3 * row; o < 3 * row + 3; o++) to.first[o] *= size;
}
