/** Widening stretches of a channel: what is lost where the stream slows down. */
import { atan } from '../numeric/index.ts';
import { conicalDiffuser } from './area-changes.ts';
import type { DigestRoom, StationArrays } from './channel-digest.ts';
import { DIGEST } from './digest-layout.ts';
import { readTable, tabulate } from './table.ts';

const { SHAPE_FIELDS } = DIGEST;
const { S_RECOVERED, S_WIDENING } = DIGEST;

/** A narrowing by less than this share does not end a widening run. */
const REVERSAL = 0.1;

/** Diffuser factor of (1 - b^2)^2 at b = 0.5 over x = t/(1 + t), t = tan(a/2). */
export const CONE = tabulate((x) => conicalDiffuser(coneOf(x), 0.5) / 0.5625, 0, 1, 96);

function coneOf(x: number): number {
  return x < 1 ? 2 * atan(x / (1 - x)) * (180 / Math.PI) : 180;
}

/**
 * Losses of all widening runs of a shape, per flow squared, in two limits.
 *
 * Without recovery (laminar) each loses q1 - q2; that sum is the same however finely a widening is
 * sliced. With turbulent recovery a run as a whole counts as ONE conical diffuser of its end areas,
 * K_cone/(1 - sigma^2) of the former sum, so slicing it gains nothing either. The length that sets
 * the cone's angle is (sum dA)^2/sum(dA^2/ds): a step followed by a long crawl is a step.
 * Narrowing costs friction only. Below b = 0.5 the table's b = 0.5 is used (within 20 %).
 *
 * Source: Rennels & Hudson 2012 (cone); runs and effective length are own heuristics.
 */
export function wideningLosses(
  digests: DigestRoom,
  index: number,
  arrays: StationArrays,
  density_kg_per_m3: number,
): void {
  const { area } = digests.scratch;
  const { shape, stations } = digests;
  const step = (arrays.length[index] * arrays.unit_m) / (stations - 1);
  const half = 0.5 * density_kg_per_m3;
  let lost = 0;
  let kept = 0;
  let low = area[0];
  let high = low;
  let runLost = 0;
  let grown = 0;
  let grownSquared = 0;
  for (let i = 1; i < stations; i += 1) {
    const A = area[i];
    const before = area[i - 1];
    const rise = A - before;
    if (A < low || A < (1 - REVERSAL) * high) {
      if (runLost > 0) {
        lost += runLost;
        kept += runLost * coneShare(low, high, (grown * grown * step) / grownSquared);
        runLost = 0;
        grown = 0;
        grownSquared = 0;
      }
      low = A;
      high = A;
    } else if (rise > 0) {
      runLost += half * (1 / (before * before) - 1 / (A * A));
      grown += rise;
      grownSquared += rise * rise;
      if (A > high) high = A;
    }
  }
  if (runLost > 0) {
    lost += runLost;
    kept += runLost * coneShare(low, high, (grown * grown * step) / grownSquared);
  }
  const row = SHAPE_FIELDS * index;
  shape[row + S_WIDENING] = lost;
  shape[row + S_RECOVERED] = kept;
}

/** Share of q1 - q2 that a turbulent cone loses between two areas over a length. */
function coneShare(low: number, high: number, length: number): number {
  const sigma = low / high;
  if (sigma > 1 - 1e-9) return 0;
  const slope = (Math.sqrt(high) - Math.sqrt(low)) / (Math.sqrt(Math.PI) * length);
  const factor = readTable(CONE, slope / (1 + slope));
  return Math.min(1, (factor * (1 - sigma)) / (1 + sigma));
}
