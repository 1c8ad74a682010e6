/**
 * Heat transfer along one channel: transfer units of every step between its stations.
 *
 * In laminar flow the transfer units from the inlet to x* are 4 x* Nu_mean(x*), whatever the size of
 * the section, so a step takes the difference of that between its ends: heat is met where the wall
 * is met first, and the sum is the published mean value.
 */
import { cbrt, pow } from '../numeric/index.ts';
import type { StationArrays } from './channel-digest.ts';
import {
  curvedNusselt,
  entryExponent,
  entryFunction,
  gnielinskiNusselt,
  turbulentRise,
} from './convection.ts';
import { inverseLag } from './curved.ts';
import { teardropFRe } from './ducts.ts';
import { FULLY_TURBULENT, LAMINAR_LIMIT } from './friction.ts';
import { teardropNusselt } from './heat-ducts.ts';
import { readTable, tabulate } from './table.ts';
import type { Table } from './table.ts';

/** How a section family exchanges heat with an even wall temperature. */
export type HeatFamily =
  | { readonly kind: 'tangential'; readonly fRe: number; readonly developed: number }
  | { readonly kind: 'slot'; readonly fRe: number; readonly developed: number }
  | { readonly kind: 'roofed' };

/** Air in one channel. */
export interface HeatStream {
  readonly flow_m3_per_s: number;
  /** Mean Reynolds number, which says whether the channel runs laminar. */
  readonly reynolds: number;
  readonly kinematicViscosity_m2_per_s: number;
  readonly prandtl: number;
  /** How much smaller than drawn a bore comes out, on the diameter, in the arrays' unit. */
  readonly shrinkage: number;
  /** Rise by what stands on the wall (teeth); 1 for a plain wall. */
  readonly factor: number;
}

/** 1.5 * 0.409: see `meanNusselt`. */
const LEVEQUE = 1.5 * 0.409;
/** (1 + s^5)^(1/5) - 1. */
const FIFTH = tabulate((s) => pow(1 + pow(s, 5), 0.2) - 1, 0, 1, 64);
interface AirTables {
  readonly prandtl: number;
  /** 2 f(Pr), see `meanNusselt`. */
  readonly entry: number;
  /** Curved over straight developed Nusselt number, over sqrt(De). */
  readonly rise: Table;
  /** (1 + s^m)^(1/m) - 1. */
  readonly join: Table;
}
let curved: AirTables | null = null;

/** Tables for one Prandtl number, kept: a run has one kind of air. */
function tablesFor(prandtl: number): AirTables {
  if (curved?.prandtl !== prandtl) {
    const m = entryExponent(prandtl);
    const straight = curvedNusselt(0, prandtl, 'temperature');
    curved = {
      prandtl,
      entry: 2 * entryFunction(prandtl, 'temperature'),
      rise: tabulate(
        (u) => Math.max(1, curvedNusselt(u * u, prandtl, 'temperature') / straight),
        0,
        60,
        480,
      ),
      join: tabulate((s) => pow(1 + pow(s, m), 1 / m) - 1, 0, 1, 64),
    };
  }
  return curved;
}

/** (a^n + b^n)^(1/n) from a table of (1 + s^n)^(1/n) - 1. */
function joined(a: number, b: number, table: Table): number {
  return a > b ? a * (1 + readTable(table, b / a)) : b * (1 + readTable(table, a / b));
}

/**
 * x* times the mean Nusselt number up to x*, `meanNusselt` from tables (within 1e-4); 0 at x* = 0.
 *
 * @param leveque 1.5 * 0.409 (fRe/4)^(1/3). @param entry 2 f(Pr).
 */
function gathered(
  x: number,
  leveque: number,
  entry: number,
  developed: number,
  join: Table,
): number {
  if (!(x > 0)) return 0;
  const settled = joined(leveque / cbrt(x), developed, FIFTH);
  return x * joined(entry / Math.sqrt(x), settled, join);
}

/** What the steps of the shape at hand are, filled by `walkSteps`. */
let size_m = new Float64Array(0);
let girth = new Float64Array(0);
let bend = new Float64Array(0);
let reach = new Float64Array(0);

/**
 * Transfer units h P ds/(m' cp) of every step between the stations of one shape, for an even wall
 * temperature.
 *
 * Laminar up to Re 2300 with the developed value raised by secondary flow (Manlapaz & Churchill on a
 * Dean number of the relaxed curvature, dc/ds = (k - c)/lag as for friction), turbulent from 4000
 * (Gnielinski, raised in bends as the friction), in between a straight line in
 * Re. Uses the printed bore; side pockets count neither for nor against (still air).
 *
 * @param out receives the units [stations - 1].
 * @returns their sum over 4 x*: the mean Nusselt number of the whole channel.
 */
export function channelUnits(
  arrays: StationArrays,
  shape: number,
  family: HeatFamily,
  stream: HeatStream,
  out: Float64Array,
): number {
  const steps = arrays.stations - 1;
  const { reynolds: Re } = stream;
  walkSteps(arrays, shape, family, stream);
  const w = Math.min(1, Math.max(0, (Re - LAMINAR_LIMIT) / (FULLY_TURBULENT - LAMINAR_LIMIT)));
  out.fill(0, 0, steps);
  if (w < 1) addLaminar(arrays, shape, family, stream, 1 - w, out);
  if (w > 0) addTurbulent(arrays, shape, stream, w, out);
  let all = 0;
  let all_x = 0;
  for (let j = 0; j < steps; j += 1) {
    out[j] *= 4 * stream.factor;
    all += out[j];
    all_x += reach[j];
  }
  return all / (4 * all_x);
}

/** Size, relaxed curvature D_h c/2 and share of x* of every step, as printed. */
function walkSteps(
  arrays: StationArrays,
  shape: number,
  family: HeatFamily,
  stream: HeatStream,
): void {
  const { stations, tangent } = arrays;
  if (size_m.length < stations) {
    size_m = new Float64Array(stations);
    girth = new Float64Array(stations);
    bend = new Float64Array(stations);
    reach = new Float64Array(stations);
  }
  const step = (arrays.length[shape] * arrays.unit_m) / (stations - 1);
  const perGirth =
    (stream.kinematicViscosity_m2_per_s * step) / (stream.prandtl * stream.flow_m3_per_s);
  let [cx, cy, cz] = [0, 0, 0];
  let before = printedDiameter(arrays, shape * stations, family, stream.shrinkage);
  for (let j = 0; j < stations - 1; j += 1) {
    const at = shape * stations + j;
    const after = printedDiameter(arrays, at + 1, family, stream.shrinkage);
    const D_h = 0.5 * (before + after) * arrays.unit_m;
    before = after;
    // Secondary flow follows the curvature with a lag; turned along with the tangent, what points
    // along it falls away.
    const t = 3 * at;
    const kx = (tangent[t + 3] - tangent[t]) / step;
    const ky = (tangent[t + 4] - tangent[t + 1]) / step;
    const kz = (tangent[t + 5] - tangent[t + 2]) / step;
    const k = Math.sqrt(kx * kx + ky * ky + kz * kz);
    const keep = 1 / (1 + step * inverseLag(k, D_h));
    const along = cx * tangent[t + 3] + cy * tangent[t + 4] + cz * tangent[t + 5];
    cx = keep * (cx - along * tangent[t + 3]) + (1 - keep) * kx;
    cy = keep * (cy - along * tangent[t + 4]) + (1 - keep) * ky;
    cz = keep * (cz - along * tangent[t + 5]) + (1 - keep) * kz;
    size_m[j] = D_h;
    girth[j] = printedGirth(arrays, at, family, stream.shrinkage);
    bend[j] = 0.5 * D_h * Math.sqrt(cx * cx + cy * cy + cz * cz);
    reach[j] = perGirth * girth[j];
  }
}

/**
 * Adds the laminar part. After the first step two steps are taken at once, which halves the cost and
 * moves heat by less than a step: their sum is the same.
 */
function addLaminar(
  arrays: StationArrays,
  shape: number,
  family: HeatFamily,
  stream: HeatStream,
  share: number,
  out: Float64Array,
): void {
  const steps = arrays.stations - 1;
  const { entry, rise, join } = tablesFor(stream.prandtl);
  // In the passage to turbulence the laminar part stands at its own end, Re 2300.
  const beyond = Math.max(1, stream.reynolds / LAMINAR_LIMIT);
  const perSize = stream.flow_m3_per_s / (stream.kinematicViscosity_m2_per_s * beyond);
  const roofed = family.kind === 'roofed';
  let developed = roofed ? 0 : family.developed;
  let leveque = roofed ? 0 : LEVEQUE * cbrt(family.fRe / 4);
  let x = 0;
  let kept = 0;
  let keptFor = 0;
  for (let j = 0; j < steps;) {
    const end = Math.min(steps, j === 0 ? 1 : j + 2);
    const last = end - 1;
    if (roofed) {
      const at = shape * arrays.stations + j;
      const strength = 0.5 * (arrays.roof[at] + arrays.roof[at + end - j]);
      developed = teardropNusselt(strength, 'temperature');
      leveque = LEVEQUE * cbrt(teardropFRe(strength) / 4);
    }
    // De = Re sqrt(D_h c/2), here the square root of its mean over the steps.
    const first = (perSize / (girth[j] * size_m[j])) * Math.sqrt(bend[j]);
    const second = (perSize / (girth[last] * size_m[last])) * Math.sqrt(bend[last]);
    const raised = developed * readTable(rise, Math.sqrt(0.5 * (first + second)));
    const before = raised === keptFor ? kept : gathered(x, leveque, entry, raised, join);
    const dx = last > j ? reach[j] + reach[last] : reach[j];
    x += dx * beyond;
    kept = gathered(x, leveque, entry, raised, join);
    keptFor = raised;
    const perReach = (share * (kept - before)) / (beyond * dx);
    for (; j < end; j += 1) out[j] += perReach * reach[j];
  }
}

/** Adds the turbulent part, in the passage at its own end, Re 4000. */
function addTurbulent(
  arrays: StationArrays,
  shape: number,
  stream: HeatStream,
  share: number,
  out: Float64Array,
): void {
  const steps = arrays.stations - 1;
  const step = (arrays.length[shape] * arrays.unit_m) / steps;
  const Re = Math.max(stream.reynolds, FULLY_TURBULENT);
  const long = share * gnielinskiNusselt(Re, stream.prandtl);
  let slender = 0;
  let root = 0;
  for (let j = 0; j < steps; j += 1) {
    slender += step / size_m[j];
    const next = cbrt(slender);
    // 1 + (D/L)^(2/3) on the way to L, as what each step adds to it.
    const opening = 1 + ((next - root) * size_m[j]) / step;
    root = next;
    out[j] += long * turbulentRise(Re, bend[j]) * reach[j] * opening;
  }
}

/** Hydraulic diameter as printed, in the arrays' unit: drawn less shrinkage, at least a tenth. */
function printedDiameter(
  arrays: StationArrays,
  at: number,
  family: HeatFamily,
  shrinkage: number,
): number {
  const bore = arrays.bore[at];
  const printed = Math.max(bore - shrinkage, 0.1 * bore);
  if (family.kind !== 'slot') return printed;
  const off = (bore - printed) / 2;
  const area = arrays.area[at] - off * (arrays.perimeter[at] - Math.PI * off);
  return (4 * area) / (arrays.perimeter[at] - 2 * Math.PI * off);
}

/** A/D_h^2 as printed [-]. */
function printedGirth(
  arrays: StationArrays,
  at: number,
  family: HeatFamily,
  shrinkage: number,
): number {
  const bore = arrays.bore[at];
  if (family.kind !== 'slot') return arrays.area[at] / (bore * bore);
  const off = (bore - Math.max(bore - shrinkage, 0.1 * bore)) / 2;
  const area = arrays.area[at] - off * (arrays.perimeter[at] - Math.PI * off);
  const D_h = (4 * area) / (arrays.perimeter[at] - 2 * Math.PI * off);
  return area / (D_h * D_h);
}
