/** The plenum in print: its pixels, its overhang, and what it takes out of cut planes. */
import { END, plenumRadii, plenumSection } from '../design/index.ts';
import type { PlateSamples, Plenum } from '../design/index.ts';
import { cos } from '../numeric/index.ts';
import { clearBits } from './grid.ts';
import type { Grid } from './grid.ts';

const radii = new Float64Array(2);
/** A port this near to the top's height leads through it [mm]. */
const TOUCH_mm = 0.01;

/** Clears the plenum from the layers it reaches, row by row. */
export function carvePlenum(grid: Grid, plenum: Plenum, solid: Int32Array): void {
  const { edge, layers, rows, words, layerWords, pixel_mm, layer_mm } = grid;
  for (let layer = 0; layer < layers; layer++) {
    const up = grid.a0_mm + layer * layer_mm;
    for (let r = 0; r < rows; r++) {
      const across = grid.v0_mm + r * pixel_mm;
      const y = edge ? up : across;
      if (!plenumRadii(plenum, edge ? across : up, radii)) continue;
      const outer = radii[1] * radii[1] - y * y;
      if (outer <= 0) continue;
      const at = layer * layerWords + r * words;
      const far = Math.sqrt(outer);
      const inner = radii[0] * radii[0] - y * y;
      const near = inner > 0 ? Math.sqrt(inner) : 0;
      clearSpan(grid, solid, at, -far, -near);
      clearSpan(grid, solid, at, near, far);
    }
  }
}

/** Clears the pixels whose middles lie in [from, to). */
function clearSpan(grid: Grid, solid: Int32Array, at: number, from: number, to: number): void {
  const first = Math.max(0, Math.ceil((from - grid.u0_mm) / grid.pixel_mm));
  const end = Math.min(grid.columns, Math.ceil((to - grid.u0_mm) / grid.pixel_mm));
  clearBits(solid, at, first, end);
}

/** Steps around the plenum in which its ceiling is judged where the plate stands on edge. */
const STEPS = 72;

/**
 * Ceiling of the plenum beyond the overhang limit [mm2].
 *
 * @param limitSine see `overhangSine`.
 */
export function plenumOverhang(plenum: Plenum, edge: boolean, limitSine: number): number {
  const section = plenumSection(plenum);
  let area = 0;
  for (let i = 0, j = section.length - 2; i < section.length; j = i, i += 2) {
    // A disc's section is mirrored: its other half is the same surface.
    const [a, b] = plenum.innerRadius_mm > 0 ? [section[j], section[i]] : [Math.max(0, section[j]), Math.max(0, section[i])]; // prettier-ignore
    const er = section[i] - section[j];
    const ez = section[i + 1] - section[j + 1];
    const length = Math.sqrt(er * er + ez * ez);
    const share = er === 0 ? 1 : (b - a) / er;
    const strip = Math.PI * (a + b) * length * Math.abs(share);
    if (!edge) {
      if (-er / length > limitSine) area += strip;
      continue;
    }
    for (let k = 0; k < STEPS; k++) {
      const up = (ez / length) * cos((2 * Math.PI * (k + 0.5)) / STEPS);
      if (up > limitSine) area += strip / STEPS;
    }
  }
  return area;
}

/**
 * Longest straight way over the plenum's flat top [mm]: what a printer must bridge, since it lays the
 * bridges of one ceiling in one direction. Of a ring a chord, of a disc its diameter; ports that lead
 * through the top part a ring into pieces.
 *
 *   ring 2 sqrt(r2^2 - r1^2), at most sqrt(w^2 + (2 pi r/n)^2) with n ports; disc 2 r2
 *
 * @param layer_mm layer height: the first layer over the top stands out by as much at its edges.
 */
export function flatSpan_mm(samples: PlateSamples, plenum: Plenum, layer_mm: number): number {
  if (!plenumRadii(plenum, plenum.top_mm, radii)) return 0;
  const isRing = radii[0] > 0;
  const inner = isRing ? radii[0] + layer_mm : 0;
  const outer = radii[1] - layer_mm;
  if (outer <= inner) return 0;
  if (inner === 0) return 2 * outer;
  const chord = 2 * Math.sqrt(outer * outer - inner * inner);
  const ports = portsInTop(samples, plenum);
  if (ports === 0) return chord;
  const step = (Math.PI * (inner + outer)) / ports;
  return Math.min(chord, Math.sqrt((outer - inner) * (outer - inner) + step * step));
}

function portsInTop(
  { sides, shapeCount, stations, point_mm }: PlateSamples,
  plenum: Plenum,
): number {
  if (sides === null) return 0;
  let count = 0;
  for (let m = 0; m < shapeCount; m++) {
    if (sides.kind[2 * m] !== END.plenum) continue;
    if (Math.abs(point_mm[3 * m * stations + 2] - plenum.top_mm) < TOUCH_mm) count++;
  }
  return count;
}

/** Slices of height in which the plenum is summed over upright planes. */
const SLICES = 12;

/**
 * Adds the void of the plenum to a comb of upright planes, as differences from plane to plane; it
 * is the same whichever way the planes run.
 *
 * @param from_mm first plane's distance from the plate centre. @param step_mm between planes.
 * @param out area per plane [planes + 1].
 */
export function addPlenum(
  plenum: Plenum,
  from_mm: number,
  step_mm: number,
  planes: number,
  out: Float64Array,
): void {
  const dz = (plenum.top_mm - plenum.floor_mm) / SLICES;
  let before = 0;
  for (let i = 0; i < planes; i++) {
    const off = from_mm + i * step_mm;
    let area = 0;
    for (let k = 0; k < SLICES; k++) {
      if (!plenumRadii(plenum, plenum.floor_mm + (k + 0.5) * dz, radii)) continue;
      const far = radii[1] * radii[1] - off * off;
      const near = radii[0] * radii[0] - off * off;
      if (far > 0) area += 2 * dz * (Math.sqrt(far) - (near > 0 ? Math.sqrt(near) : 0));
    }
    out[i] += area - before;
    before = area;
  }
  out[planes] -= before;
}

/** Adds the plenum's area to flat cuts at even depths, as differences [depths + 1]. */
export function addPlenumDepths(
  plenum: Plenum,
  thickness_mm: number,
  depths: number,
  out: Float64Array,
): void {
  let before = 0;
  for (let i = 0; i < depths; i++) {
    const isIn = plenumRadii(plenum, ((i + 0.5) * thickness_mm) / depths, radii);
    const area = isIn ? Math.PI * (radii[1] * radii[1] - radii[0] * radii[0]) : 0;
    out[i] += area - before;
    before = area;
  }
  out[depths] -= before;
}
