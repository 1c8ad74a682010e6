/**
 * Flow networks: nodes joined by branches, each with a pressure drop that rises with its flow.
 *
 * Newton on the node pressures: every round replaces each branch by its tangent, eliminates the
 * branch flows and solves one linear system for the pressures of the free nodes. The flows it gives
 * balance at every node whatever the branches say; what remains to settle is the energy.
 * Source: Todini & Pilati 1988, A gradient algorithm for the analysis of pipe networks; uniqueness:
 * the flows minimise a convex content (Collins et al. 1978, Management Science 24:747).
 */
import { factorSymmetric } from '../numeric/index.ts';
import type { SymmetricSystem } from '../numeric/index.ts';

/** Who is joined to whom, what is held and what is fed in. */
export interface Network {
  readonly nodes: number;
  /** Node at which each branch starts and ends [B]; flow from start to end counts positive. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Pressure held at a node; NaN where it is free [N] [Pa]. At least one node is held. */
  readonly held_Pa: Float64Array;
  /** Flow fed into a free node from outside, negative when drawn off [N] [m3/s]. */
  readonly inflow_m3_per_s: Float64Array;
}

/**
 * Pressure drop of one branch at a flow of either sign.
 *
 * @param out receives the drop [Pa], rising with the flow, and its slope d(drop)/dQ [Pa s/m3]. The
 *   slope may be approximate and is only raised to a small positive number: it merely steers.
 */
export type BranchLaw = (branch: number, flow_m3_per_s: number, out: Float64Array) => void;

export interface NetworkFlow {
  /** Pressure at every node [N] [Pa]. */
  readonly pressure_Pa: Float64Array;
  /** Flow of every branch [B] [m3/s]. */
  readonly flow_m3_per_s: Float64Array;
  /** Greatest flow missing at a free node over the greatest flow of all. */
  readonly imbalance: number;
  /** Greatest difference of a branch's drop and its nodes' pressures over the greatest drop. */
  readonly misfit: number;
  readonly rounds: number;
}

/** Greatest misfit at which a network counts as solved. */
export const NETWORK_TOLERANCE = 1e-10;
/** The same where the rounds run out. */
const ROUGH_TOLERANCE = 1e-6;
const MOST_ROUNDS = 100;
/** Least slope of a branch, as a share of the steepest: a quadratic branch at rest has none. */
const LEAST_SLOPE = 1e-7;
/** Share of the descent at the start of a step that may remain at its end. */
const LEFT_OVER = 0.5;
const MOST_TRIALS = 40;
/** Misfit below which steps are taken whole: what the content falls by is lost in rounding. */
const NEAR = 1e-6;

/**
 * Solves a network.
 *
 * @param start flows to begin with [B]; they need not balance. The answer does not depend on them.
 * @throws RangeError when a free node hangs on no held one, or the pressures do not settle.
 */
export function solveNetwork(
  network: Network,
  law: BranchLaw,
  start?: Float64Array,
  tolerance: number = NETWORK_TOLERANCE,
): NetworkFlow {
  const { from, to, held_Pa } = network;
  const branches = from.length;
  const unknown = numberFreeNodes(network);
  const work: Work = {
    flow: start ? Float64Array.from(start) : firstFlows(network, law),
    drop: new Float64Array(branches),
    slope: new Float64Array(branches),
    step: new Float64Array(branches),
    trial: new Float64Array(branches),
    pressure: Float64Array.from(held_Pa, (p) => (Number.isNaN(p) ? 0 : p)),
    reply: new Float64Array(2),
  };
  ask(work, law, work.flow);
  let misfit = Infinity;
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    raiseSlopes(work.slope);
    const system = assemble(network, unknown, work.slope);
    settlePressures(network, unknown, system, work);
    for (let b = 0; b < branches; b++) {
      const head = work.pressure[from[b]] - work.pressure[to[b]];
      work.step[b] = (head - work.drop[b]) / work.slope[b];
    }
    // The first step brings any start into balance; later ones go as far as they descend.
    if (round === 1) {
      for (let b = 0; b < branches; b++) work.flow[b] += work.step[b];
      ask(work, law, work.flow);
    } else descend(network, law, work, misfit < NEAR);
    misfit = misfitOf(network, work);
    // Laws with small jumps never settle to the last digit: in the end a rougher fit will do.
    const wanted = round < MOST_ROUNDS ? tolerance : Math.max(tolerance, ROUGH_TOLERANCE);
    if (misfit <= wanted && round > 1) {
      return {
        pressure_Pa: work.pressure,
        flow_m3_per_s: work.flow,
        imbalance: imbalanceOf(network, work.flow),
        misfit,
        rounds: round,
      };
    }
  }
  throw new RangeError(
    `The network does not settle: after ${MOST_ROUNDS} rounds a branch misses its pressures by ` +
      `${misfit} of the greatest drop.`,
  );
}

interface Work {
  readonly flow: Float64Array;
  readonly drop: Float64Array;
  readonly slope: Float64Array;
  readonly step: Float64Array;
  readonly trial: Float64Array;
  readonly pressure: Float64Array;
  readonly reply: Float64Array;
}

/** Numbers the free nodes; -1 for held ones. */
function numberFreeNodes({ nodes, from, to, held_Pa }: Network): Int32Array {
  const reached = Uint8Array.from(held_Pa, (p) => (Number.isNaN(p) ? 0 : 1));
  for (let grown = true; grown;) {
    grown = false;
    for (let b = 0; b < from.length; b++) {
      if (reached[from[b]] === reached[to[b]]) continue;
      reached[from[b]] = 1;
      reached[to[b]] = 1;
      grown = true;
    }
  }
  const lost = reached.indexOf(0);
  if (lost >= 0) {
    throw new RangeError(`node ${lost} of the network is joined to no node of held pressure`);
  }
  const unknown = new Int32Array(nodes);
  let count = 0;
  for (let n = 0; n < nodes; n++) unknown[n] = Number.isNaN(held_Pa[n]) ? count++ : -1;
  return unknown;
}

/** Flows of the right order: what is fed in, or what the held pressures drive through a branch. */
function firstFlows({ from, held_Pa, inflow_m3_per_s }: Network, law: BranchLaw): Float64Array {
  let fed = 0;
  for (const q of inflow_m3_per_s) fed = Math.max(fed, Math.abs(q));
  let [low, high] = [Infinity, -Infinity];
  for (const p of held_Pa) {
    if (Number.isNaN(p)) continue;
    low = Math.min(low, p);
    high = Math.max(high, p);
  }
  const reply = new Float64Array(2);
  return Float64Array.from(from, (_, b) => {
    let q = fed > 0 ? fed : 1;
    if (fed > 0 || high <= low) return q;
    for (let n = 0; n < 60; n++) {
      law(b, q, reply);
      if (reply[0] <= high - low) break;
      q *= 0.25;
    }
    return q;
  });
}

function ask(work: Work, law: BranchLaw, flow: Float64Array): void {
  const { drop, slope, reply } = work;
  for (let b = 0; b < flow.length; b++) {
    law(b, flow[b], reply);
    drop[b] = reply[0];
    slope[b] = reply[1];
  }
}

function raiseSlopes(slope: Float64Array): void {
  let steepest = 0;
  for (const value of slope) steepest = Math.max(steepest, value);
  const least = steepest > 0 ? LEAST_SLOPE * steepest : 1;
  for (let b = 0; b < slope.length; b++) if (!(slope[b] > least)) slope[b] = least;
}

/** Sums of conductances: the linear system of the free nodes. */
function assemble(
  { from, to }: Network,
  unknown: Int32Array,
  slope: Float64Array,
): SymmetricSystem | null {
  let n = 0;
  for (const u of unknown) n = Math.max(n, u + 1);
  if (n === 0) return null;
  const matrix = new Float64Array(n * n);
  for (let b = 0; b < from.length; b++) {
    const i = unknown[from[b]];
    const j = unknown[to[b]];
    const conductance = 1 / slope[b];
    if (i === j) continue;
    if (i >= 0) matrix[i * n + i] += conductance;
    if (j >= 0) matrix[j * n + j] += conductance;
    if (i < 0 || j < 0) continue;
    matrix[i * n + j] -= conductance;
    matrix[j * n + i] -= conductance;
  }
  return factorSymmetric(matrix, n);
}

/** Pressures at which the branches' tangents balance; a second pass takes out the rounding. */
function settlePressures(
  network: Network,
  unknown: Int32Array,
  system: SymmetricSystem | null,
  { flow, drop, slope, pressure }: Work,
): void {
  if (system === null) return;
  const { nodes, from, to, inflow_m3_per_s: inflow } = network;
  let n = 0;
  for (const u of unknown) n = Math.max(n, u + 1);
  for (let pass = 0; pass < 2; pass++) {
    const missing = new Float64Array(n);
    for (let k = 0; k < nodes; k++) if (unknown[k] >= 0) missing[unknown[k]] += inflow[k];
    for (let b = 0; b < from.length; b++) {
      const q = flow[b] + (pressure[from[b]] - pressure[to[b]] - drop[b]) / slope[b];
      if (unknown[from[b]] >= 0) missing[unknown[from[b]]] -= q;
      if (unknown[to[b]] >= 0) missing[unknown[to[b]]] += q;
    }
    const rise = system.solve(missing);
    for (let k = 0; k < nodes; k++) if (unknown[k] >= 0) pressure[k] += rise[unknown[k]];
  }
}

/**
 * Goes along the step until the content hardly falls further: its slope there is the sum over the
 * branches of (drop - head) step, negative at the start. Steps keep the balance, so any share of one
 * is as balanced as the whole.
 */
function descend(network: Network, law: BranchLaw, work: Work, isNear: boolean): void {
  const { flow, step, trial, slope } = work;
  let first = 0;
  for (let b = 0; b < flow.length; b++) first -= slope[b] * step[b] * step[b];
  let share = 1;
  for (let count = 0; count < MOST_TRIALS; count++) {
    for (let b = 0; b < flow.length; b++) trial[b] = flow[b] + share * step[b];
    ask(work, law, trial);
    const here = contentSlope(network, work);
    if (isNear || here <= -LEFT_OVER * first) break;
    // The content's slope rises along the step: its zero lies between the two ends.
    share *= Math.min(0.9, Math.max(0.1, first / (first - here)));
  }
  flow.set(trial);
}

function contentSlope({ from, to }: Network, { drop, pressure, step }: Work): number {
  let sum = 0;
  for (let b = 0; b < step.length; b++) {
    sum += (drop[b] - (pressure[from[b]] - pressure[to[b]])) * step[b];
  }
  return sum;
}

function misfitOf({ from, to }: Network, { drop, pressure }: Work): number {
  let most = 0;
  let worst = 0;
  for (let b = 0; b < drop.length; b++) {
    const head = pressure[from[b]] - pressure[to[b]];
    most = Math.max(most, Math.abs(drop[b]), Math.abs(head));
    worst = Math.max(worst, Math.abs(drop[b] - head));
  }
  return most > 0 ? worst / most : 0;
}

function imbalanceOf(network: Network, flow: Float64Array): number {
  const { nodes, from, to, held_Pa, inflow_m3_per_s } = network;
  const missing = Float64Array.from(inflow_m3_per_s);
  let most = 0;
  for (let b = 0; b < flow.length; b++) {
    missing[from[b]] -= flow[b];
    missing[to[b]] += flow[b];
    most = Math.max(most, Math.abs(flow[b]));
  }
  let worst = 0;
  for (let n = 0; n < nodes; n++) {
    if (Number.isNaN(held_Pa[n])) worst = Math.max(worst, Math.abs(missing[n]));
  }
  return most > 0 ? worst / most : 0;
}
