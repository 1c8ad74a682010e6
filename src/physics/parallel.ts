/** Channels side by side share one pressure drop: how the flow splits. */

/**
 * Pressure drop over flow of one branch.
 *
 * @param out receives dp [Pa] and Q d(dp)/dQ [Pa]; the latter may be approximate, it only steers.
 */
export type BranchPressure = (branch: number, flow_m3_per_s: number, out: Float64Array) => void;

/** Branches that split a flow among themselves, by the same steps as `splitFlow`. */
export interface JointPressure {
  /** @returns common pressure drop [Pa], or NaN if the branches do not come to terms. */
  solve(split: FlowSplit, total_m3_per_s: number, tolerance: number): number;
}

/** A flow split in the making or done; made once and warm-started from solve to solve. */
export interface FlowSplit {
  readonly branches: number;
  /** Number of equal channels in each branch [M]. */
  readonly count: Float64Array;
  /** Flow through one channel of the branch [M] [m3/s]. */
  readonly flow_m3_per_s: Float64Array;
  /** Pressure and slope of each branch at `flow` [M]. */
  readonly pressure_Pa: Float64Array;
  readonly slope_Pa: Float64Array;
  /** Flow and pressure at which each branch was asked before [M]; flow 0 if never. */
  readonly earlierFlow_m3_per_s: Float64Array;
  readonly earlierPressure_Pa: Float64Array;
}

/**
 * Relative spread of the branches' pressures at which a split counts as solved. A last step follows
 * whose own error is of second order: what is handed back is good to about 1e-7.
 */
export const SPLIT_TOLERANCE = 1e-4;
const MAX_ROUNDS = 60;
const reply = new Float64Array(2);

/**
 * Starts a split.
 *
 * @param share flow to begin with through a channel of each branch, e.g. its area; only ratios count.
 */
export function createFlowSplit(count: Float64Array, share: Float64Array): FlowSplit {
  const branches = count.length;
  // One block: an array of its own for each costs more than the rest of a split's start.
  const block = new Float64Array(5 * branches);
  const part = (i: number): Float64Array => block.subarray(i * branches, (i + 1) * branches);
  const flow_m3_per_s = part(0);
  flow_m3_per_s.set(share);
  return {
    branches,
    count,
    flow_m3_per_s,
    pressure_Pa: part(1),
    slope_Pa: part(2),
    earlierFlow_m3_per_s: part(3),
    earlierPressure_Pa: part(4),
  };
}

/**
 * Splits a total flow so that every branch has the same pressure drop.
 *
 * Each branch is replaced near its present flow by dp (a x + (1 - a) x^2), x = Q/Q_now, which has
 * the branch's value and slope; the common pressure that carries the total flow through these
 * replacements is found by Newton, the flows are moved there, and the branches asked again, until
 * all pressures agree. Every branch's dp must rise strictly with its flow.
 *
 * @param tolerance relative spread of the branches' pressures at which to stop.
 * @returns common pressure drop [Pa].
 * @throws RangeError if the flow is not a positive number, or the branches do not come to terms.
 */
export function splitFlow(
  split: FlowSplit,
  total_m3_per_s: number,
  pressure: BranchPressure | JointPressure,
  tolerance: number = SPLIT_TOLERANCE,
): number {
  if (!(total_m3_per_s > 0) || !Number.isFinite(total_m3_per_s)) {
    throw new RangeError(`total flow is ${total_m3_per_s} m3/s; it must be a positive number`);
  }
  const common =
    typeof pressure === 'function'
      ? solveRounds(split, total_m3_per_s, pressure, tolerance)
      : pressure.solve(split, total_m3_per_s, tolerance);
  if (Number.isNaN(common)) {
    throw new RangeError(`no common pressure drop found for ${total_m3_per_s} m3/s`);
  }
  return common;
}

function solveRounds(
  split: FlowSplit,
  total_m3_per_s: number,
  pressure: BranchPressure,
  tolerance: number,
): number {
  scaleFlows(split, total_m3_per_s);
  for (let round = 0; round < MAX_ROUNDS; round += 1) {
    const spread = askBranches(split, pressure);
    const common = commonPressure(split, total_m3_per_s);
    // Full steps settle in a few rounds; late rounds only occur if a slope is badly off.
    const damping = round < 20 ? 1 : 0.5;
    for (let i = 0; i < split.branches; i += 1) {
      const x = replacementFlow(split.pressure_Pa[i], split.slope_Pa[i], common);
      split.flow_m3_per_s[i] *= 1 + damping * (x - 1);
    }
    scaleFlows(split, total_m3_per_s);
    if (spread < tolerance) return common;
  }
  return Number.NaN;
}

function scaleFlows(split: FlowSplit, total: number): void {
  let sum = 0;
  for (let i = 0; i < split.branches; i += 1) sum += split.count[i] * split.flow_m3_per_s[i];
  const scale = total / sum;
  for (let i = 0; i < split.branches; i += 1) split.flow_m3_per_s[i] *= scale;
}

/** Asks every branch; returns the relative spread of their pressures. */
function askBranches(split: FlowSplit, pressure: BranchPressure): number {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (let i = 0; i < split.branches; i += 1) {
    pressure(i, split.flow_m3_per_s[i], reply);
    const p = reply[0];
    split.pressure_Pa[i] = p;
    split.slope_Pa[i] = branchSlope(split, i, p, reply[1]);
    split.earlierFlow_m3_per_s[i] = split.flow_m3_per_s[i];
    split.earlierPressure_Pa[i] = p;
    if (p < low) low = p;
    if (p > high) high = p;
  }
  return (high - low) / high;
}

/** Slope of a branch: the chord from where it was asked before if that lies near, else its own word. */
function branchSlope(split: FlowSplit, i: number, p: number, told_Pa: number): number {
  const Q = split.flow_m3_per_s[i];
  const dQ = Q - split.earlierFlow_m3_per_s[i];
  const step = Math.abs(dQ);
  // A nearer earlier point would make the chord a difference of rounding errors.
  if (step > 0.1 * Q || step < 1e-8 * Q) return Math.min(2.6 * p, Math.max(p, told_Pa));
  // ln(p/p0)/ln(Q/Q0) to second order: the exponent of a power law through both points.
  const earlier = split.earlierPressure_Pa[i];
  const chord = (p * (p - earlier) * (Q + split.earlierFlow_m3_per_s[i])) / ((p + earlier) * dQ);
  return Math.min(2.6 * p, Math.max(p, chord));
}

/** Flow ratio x at which a x + (1 - a) x^2 = target/dp, a = 2 - slope/dp. */
function replacementFlow(pressure_Pa: number, slope_Pa: number, target_Pa: number): number {
  const a = 2 - slope_Pa / pressure_Pa;
  const y = target_Pa / pressure_Pa;
  // Written so that it stays exact as the quadratic part vanishes.
  return (2 * y) / (a + Math.sqrt(a * a + 4 * (1 - a) * y));
}

// The replacements of all branches, so that each step of Newton costs one root and one division.
let linear = new Float64Array(128);
let square = new Float64Array(128);
let perPressure = new Float64Array(128);

function commonPressure(split: FlowSplit, total: number): number {
  if (linear.length < split.branches) {
    linear = new Float64Array(2 * split.branches);
    square = new Float64Array(2 * split.branches);
    perPressure = new Float64Array(2 * split.branches);
  }
  let weight = 0;
  let p = 0;
  for (let i = 0; i < split.branches; i += 1) {
    const w = split.count[i] * split.flow_m3_per_s[i];
    const dp = split.pressure_Pa[i];
    const inverse = 1 / dp;
    const a = 2 - split.slope_Pa[i] * inverse;
    weight += w;
    p += w * dp;
    linear[i] = a;
    square[i] = 4 * (1 - a) * inverse;
    perPressure[i] = w * inverse;
  }
  p /= weight;
  for (let step = 0; step < 30; step += 1) {
    let sum = 0;
    let rate = 0;
    for (let i = 0; i < split.branches; i += 1) {
      const a = linear[i];
      const q = perPressure[i];
      const root = Math.sqrt(a * a + square[i] * p);
      const shared = q / (root * (a + root));
      sum += 2 * p * root * shared;
      rate += (a + root) * shared;
    }
    // Flow is a concave function of pressure: Newton from above can fall below zero, so it is held.
    const next = Math.max(0.1 * p, p + (total - sum) / rate);
    const moved = Math.abs(next - p);
    p = next;
    if (moved < 1e-9 * p) break;
  }
  return p;
}

/**
 * Q d(dp)/dQ of the whole plate at the last solved split, for a solver that steps from there [Pa].
 */
export function splitSlope(split: FlowSplit): number {
  let total = 0;
  let rate = 0;
  for (let i = 0; i < split.branches; i += 1) {
    const flow = split.count[i] * split.flow_m3_per_s[i];
    total += flow;
    rate += flow / split.slope_Pa[i];
  }
  return total / rate;
}
