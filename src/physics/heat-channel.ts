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

/** (1 + s^5)^(1/5) - 1. */
const FIFTH = tabulate((s) => pow(1 + pow(s, 5), 0.2) - 1, 0, 1, 64);
/** Curved over straight developed Nusselt number, over sqrt(De). */
let curved: { readonly prandtl: number; readonly rise: Table; readonly join: Table } | null = null;

/** Tables for one Prandtl number, kept: a run has one kind of air. */
function tablesFor(prandtl: number): { readonly rise: Table; readonly join: Table } {
  if (curved?.prandtl !== prandtl) {
    const m = entryExponent(prandtl);
    const straight = curvedNusselt(0, prandtl, 'temperature');
    curved = {
      prandtl,
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
  const { stations, tangent } = arrays;
  const start = shape * stations;
  const step = (arrays.length[shape] * arrays.unit_m) / (stations - 1);
  const nu = stream.kinematicViscosity_m2_per_s;
  const Q = stream.flow_m3_per_s;
  const Re = stream.reynolds;
  const Pr = stream.prandtl;
  const w = Math.min(1, Math.max(0, (Re - LAMINAR_LIMIT) / (FULLY_TURBULENT - LAMINAR_LIMIT)));
  // In the passage the laminar part stands at its own end, Re 2300, the turbulent one at 4000.
  const beyond = Math.max(1, Re / LAMINAR_LIMIT);
  const turbulentRe = Math.max(Re, FULLY_TURBULENT);
  const turbulent = w > 0 ? gnielinskiNusselt(turbulentRe, Pr) : 0;
  const { rise, join } = tablesFor(Pr);
  const entry = 2 * entryFunction(Pr, 'temperature');
  const roofed = family.kind === 'roofed';
  let developed = roofed ? 0 : family.developed;
  let leveque = roofed ? 0 : 0.6135 * cbrt(family.fRe / 4);
  let [cx, cy, cz] = [0, 0, 0];
  let x = 0;
  let slender = 0;
  let root = 0;
  let kept = 0;
  let keptFor = 1;
  let all = 0;
  let all_x = 0;
  for (let j = 0; j < stations - 1; j += 1) {
    const at = start + j;
    if (roofed) {
      const strength = 0.5 * (arrays.roof[at] + arrays.roof[at + 1]);
      developed = teardropNusselt(strength, 'temperature');
      leveque = 0.6135 * cbrt(teardropFRe(strength) / 4);
    }
    // Mean of both ends; A/D_h^2 is what counts, the same for a bore of any size.
    const D_h =
      0.5 *
      (printedDiameter(arrays, at, family, stream.shrinkage) +
        printedDiameter(arrays, at + 1, family, stream.shrinkage)) *
      arrays.unit_m;
    const girth = printedGirth(arrays, at, family, stream.shrinkage);
    // Secondary flow follows the curvature with a lag; middle rule in a step.
    const t = 3 * at;
    const kx = (tangent[t + 3] - tangent[t]) / step;
    const ky = (tangent[t + 4] - tangent[t + 1]) / step;
    const kz = (tangent[t + 5] - tangent[t + 2]) / step;
    const k = Math.sqrt(kx * kx + ky * ky + kz * kz);
    const lag = step * inverseLag(k, D_h);
    const keep = 1 / (1 + lag);
    // Turned along with the tangent: what points along it falls away.
    const along = cx * tangent[t + 3] + cy * tangent[t + 4] + cz * tangent[t + 5];
    cx = keep * (cx - along * tangent[t + 3]) + (1 - keep) * kx;
    cy = keep * (cy - along * tangent[t + 4]) + (1 - keep) * ky;
    cz = keep * (cz - along * tangent[t + 5]) + (1 - keep) * kz;
    const ratio = 0.5 * D_h * Math.sqrt(cx * cx + cy * cy + cz * cz);
    const dx = (nu * girth * step) / (Pr * Q);
    const here = Q / (nu * girth * D_h);
    let units = 0;
    if (w < 1) {
      const De = (here / beyond) * Math.sqrt(ratio);
      const raised = developed * readTable(rise, Math.sqrt(De));
      const before = raised === keptFor ? kept : gathered(x, leveque, entry, raised, join);
      x += dx * beyond;
      kept = gathered(x, leveque, entry, raised, join);
      keptFor = raised;
      units = ((1 - w) * (kept - before)) / beyond;
    }
    if (w > 0) {
      slender += step / D_h;
      const next = cbrt(slender);
      const opening = 1 + ((next - root) * D_h) / step;
      root = next;
      units += w * turbulent * turbulentRise(turbulentRe, ratio) * dx * opening;
    }
    out[j] = 4 * stream.factor * units;
    all += out[j];
    all_x += dx;
  }
  return all / (4 * all_x);
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
