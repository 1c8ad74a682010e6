/**
 * Steady conduction in a solid of cells that give heat to streams of air, on a compressed list of
 * cells: unknowns are temperatures as shares, 0 = incoming air, 1 = hot body.
 */
import {
  apply,
  applyBetween,
  passAir,
  prepare,
  solveLower,
  solveUpper,
  sumAstray,
} from './heat-factors.ts';
import type { HeatNet } from './heat-net.ts';

export interface HeatSolution {
  /** Temperature share of every cell. */
  readonly share: Float64Array;
  /** Heat from the hot body, and to the air, per kelvin between hot body and incoming air [W/K]. */
  readonly fromFace_W_per_K: number;
  readonly toAir_W_per_K: number;
  readonly rounds: number;
  /** Whether the unbalanced heats fell below `HEAT_TOLERANCE`. */
  readonly settled: boolean;
}

/** Sum of all cells' unbalanced heats at which the search stops, as a share of the heat that flows. */
export const HEAT_TOLERANCE = 5e-5;
const MOST_ROUNDS = 400;
/** So many times the tolerance is near enough to look at the unbalanced heats one by one. */
const NEARLY = 30;

/** Heat from the hot body at these temperatures [W/K]. */
function fromFace(net: HeatNet, x: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < net.count; i += 1) sum += net.toFace_W_per_K[i] * (1 - x[i]);
  return sum;
}

/**
 * Solves for the temperatures by stabilised bi-conjugate gradients: air makes the matrix lopsided,
 * since a ring feels the ones before it only.
 *
 * @param share start of the search, overwritten by the solution [count + 1].
 * Source: van der Vorst 1992, SIAM J. Sci. Stat. Comput. 13:631; incomplete factors: Meijerink & van
 * der Vorst 1977.
 */
export function solveHeat(net: HeatNet, share: Float64Array): HeatSolution {
  const work = prepare(net);
  const { count: n, toFace_W_per_K: face } = net;
  const vector = (): Float64Array => new Float64Array(n + 1);
  const [r, shadow, p, v, y, z, t] = [
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
  ];
  apply(work, share, v);
  for (let i = 0; i < n; i += 1) t[i] = face[i] - v[i];
  solveLower(work, t, r);
  shadow.set(r);
  v.fill(0);
  let [before, alpha, omega] = [1, 1, 1];
  let rounds = 0;
  for (; rounds < MOST_ROUNDS; rounds += 1) {
    let astray = 0;
    let flowing = 0;
    let rho = 0;
    for (let i = 0; i < n; i += 1) {
      astray += Math.abs(work.pivot[i] * r[i]);
      flowing += face[i] * (1 - share[i]);
      rho += shadow[i] * r[i];
    }
    // Only when it may be over are the heats themselves looked at.
    if (astray <= NEARLY * HEAT_TOLERANCE * flowing) {
      if (sumAstray(work, r) <= HEAT_TOLERANCE * flowing) break;
    }
    const beta = (rho / before) * (alpha / omega);
    before = rho;
    for (let i = 0; i < n; i += 1) p[i] = r[i] + beta * (p[i] - omega * v[i]);
    solveUpper(work, p, y);
    applyBetween(work, p, y, v);
    let met = 0;
    for (let i = 0; i < n; i += 1) met += shadow[i] * v[i];
    alpha = rho / met;
    for (let i = 0; i < n; i += 1) r[i] -= alpha * v[i];
    solveUpper(work, r, z);
    applyBetween(work, r, z, t);
    let square = 0;
    let along = 0;
    for (let i = 0; i < n; i += 1) {
      square += t[i] * t[i];
      along += t[i] * r[i];
    }
    omega = square > 0 ? along / square : 0;
    for (let i = 0; i < n; i += 1) {
      share[i] += alpha * y[i] + omega * z[i];
      r[i] -= omega * t[i];
    }
    if (!Number.isFinite(omega) || omega === 0) break;
  }
  const settled = rounds < MOST_ROUNDS;
  // What is left over is spread by one factor near 1 on all temperatures, with which heat in and
  // out agree: face (1 - f share) = f air.
  let whole = 0;
  let met = 0;
  for (let i = 0; i < n; i += 1) {
    whole += face[i];
    met += face[i] * share[i];
  }
  const factor = whole / (met + passAir(work, share, null));
  for (let i = 0; i < n; i += 1) share[i] *= factor;
  const fromFace_W_per_K = fromFace(net, share);
  const toAir_W_per_K = passAir(work, share, null);
  return { share, fromFace_W_per_K, toAir_W_per_K, rounds, settled };
}
