/** Fan and plate together: the operating point. */

/** Air density at which fan curves are quoted [kg/m3], common practice (ISO 5801 standard air). */
export const FAN_STANDARD_DENSITY = 1.2;

/** Static pressure of a fan over flow: straight lines between the points, flow strictly rising. */
export interface FanCurve {
  readonly flow_m3_per_s: Float64Array;
  readonly pressure_Pa: Float64Array;
}

/**
 * The curve in other air: at fixed speed a fan moves the same volume, and its pressure goes with
 * the density.
 *
 * @param density_kg_per_m3 density of the air at hand.
 * Source: fan laws.
 */
export function fanInAir(curve: FanCurve, density_kg_per_m3: number): FanCurve {
  const scale = density_kg_per_m3 / FAN_STANDARD_DENSITY;
  return {
    flow_m3_per_s: curve.flow_m3_per_s,
    pressure_Pa: curve.pressure_Pa.map((p) => p * scale),
  };
}

/**
 * The curve at another speed: flow goes with the speed, pressure with its square.
 *
 *   Q = Q0 n,  p = p0 n^2,  n = N/N0
 *
 * @param share speed over the speed of the curve [-], > 0. Holds at about equal Reynolds number,
 *   near enough from 0.5 to 1.5; the curve's shape is taken along unchanged.
 * @example fanAtSpeed({ flow_m3_per_s: Float64Array.of(0, 0.02), pressure_Pa: Float64Array.of(40, 0) }, 0.5).pressure_Pa[0] // 10
 * Source: fan laws (affinity laws), any fan handbook.
 */
export function fanAtSpeed(curve: FanCurve, share: number): FanCurve {
  if (share === 1) return curve;
  return {
    flow_m3_per_s: curve.flow_m3_per_s.map((flow) => flow * share),
    pressure_Pa: curve.pressure_Pa.map((pressure) => pressure * share * share),
  };
}

/**
 * Pressure of a fan at a flow. Before the first point its pressure is held; beyond the last the
 * last stretch is carried on down (never below zero), or, should it not fall, ends there.
 */
export function fanPressure(curve: FanCurve, flow_m3_per_s: number): number {
  const { flow_m3_per_s: q, pressure_Pa: p } = curve;
  if (flow_m3_per_s <= q[0]) return p[0];
  let k = 1;
  while (k < q.length - 1 && q[k] < flow_m3_per_s) k += 1;
  const slope = (p[k] - p[k - 1]) / (q[k] - q[k - 1]);
  const value = p[k - 1] + slope * (flow_m3_per_s - q[k - 1]);
  if (flow_m3_per_s > q[k] && slope >= 0) return 0;
  return Math.max(0, value);
}

/** Flow at which a fan's pressure reaches zero for good: its free delivery [m3/s]. */
export function freeFlow(curve: FanCurve): number {
  const { flow_m3_per_s: q, pressure_Pa: p } = curve;
  const last = q.length - 1;
  if (p[last] > 0) {
    const slope = (p[last] - p[last - 1]) / (q[last] - q[last - 1]);
    return slope < 0 ? q[last] - p[last] / slope : q[last];
  }
  let k = last;
  while (k > 0 && p[k - 1] <= 0) k -= 1;
  return q[k];
}

/**
 * All flows where a fan meets dp (a x + (1 - a) x^2), x = Q/Q0, from the greatest down.
 *
 * @param a 0 for a square law, 1 for a straight line.
 */
function fanCrossings(curve: FanCurve, flow0: number, dp: number, a: number): number[] {
  const { knots, start_Pa, end_Pa, slope } = stretchesOf(curve);
  const found: number[] = [];
  const A = (dp * (1 - a)) / (flow0 * flow0);
  const linear = (dp * a) / flow0;
  for (let k = knots.length - 1; k > 0; k -= 1) {
    const q0 = knots[k - 1];
    const q1 = knots[k];
    const B = linear - slope[k];
    const C = slope[k] * q0 - start_Pa[k];
    const plateEnd = A * q1 * q1 + (dp * a * q1) / flow0;
    if (k === knots.length - 1 && plateEnd < end_Pa[k]) found.push(q1);
    const root = B * B - 4 * A * C;
    if (root < 0) continue;
    const s = Math.sqrt(root);
    let high = (-2 * C) / (B + s);
    let low = B < s ? (-2 * C) / (B - s) : Number.NaN;
    if (!(A > 0)) {
      high = -C / B;
      low = Number.NaN;
    } else if (low > high) [high, low] = [low, high];
    if (isNext(high, q0, q1, found)) found.push(high);
    if (isNext(low, q0, q1, found)) found.push(low);
  }
  return found;
}

/** Whether a crossing lies on a stretch and below those found. */
function isNext(x: number, q0: number, q1: number, found: readonly number[]): boolean {
  return x > q0 && x <= q1 && (found.length === 0 || x < found[found.length - 1]);
}

/** Straight stretches of a fan's curve from no flow to free flow: stretch k ends at knot k. */
interface Stretches {
  readonly knots: readonly number[];
  readonly start_Pa: readonly number[];
  readonly end_Pa: readonly number[];
  readonly slope: readonly number[];
}

/** A search has one fan, which is asked some times for every design. */
const stretches = new WeakMap<FanCurve, Stretches>();

function stretchesOf(curve: FanCurve): Stretches {
  let known = stretches.get(curve);
  if (known === undefined) {
    known = cutCurve(curve);
    stretches.set(curve, known);
  }
  return known;
}

function cutCurve(curve: FanCurve): Stretches {
  const free = freeFlow(curve);
  const knots = [0, ...curve.flow_m3_per_s.filter((flow) => flow > 0 && flow < free), free];
  const start_Pa = knots.map((_, k) => (k > 0 ? fanPressure(curve, knots[k - 1]) : Number.NaN));
  // A curve that ends at a pressure falls straight down there.
  const end_Pa = knots.map((knot) => lineEnd(curve, knot));
  const slope = knots.map((knot, k) => (end_Pa[k] - start_Pa[k]) / (knot - knots[k - 1]));
  return { knots, start_Pa, end_Pa, slope };
}

function lineEnd(curve: FanCurve, flow: number): number {
  const { flow_m3_per_s: q, pressure_Pa: p } = curve;
  const last = q.length - 1;
  return flow >= q[last] && p[last] > 0 && p[last] >= p[last - 1]
    ? p[last]
    : fanPressure(curve, flow);
}

export interface OperatingPoint {
  readonly flow_m3_per_s: number;
  readonly pressure_Pa: number;
  /** Further crossings at smaller flow, where a fan may also settle or hunt, from the greatest down. */
  readonly others_m3_per_s: readonly number[];
}

/** A plate's pressure drop: writes dp [Pa] and Q d(dp)/dQ [Pa] at a flow, to a relative tolerance. */
export type PlatePressure = (flow_m3_per_s: number, out: Float64Array, tolerance: number) => void;

const MAX_STEPS = 40;
/** Relative move of the flow at which the point counts as found; the last move's own error is of second order. */
export const POINT_TOLERANCE = 1e-4;
const COARSE = 0.2;
const reply = new Float64Array(2);

/**
 * Operating point of a fan on a plate: the crossing with the greatest flow. Coming from free flow
 * it is the first place where the plate asks for no more than the fan gives, so the plate's curve
 * rises through the fan's there and the point is stable.
 *
 * The plate is replaced by a x + (1 - a) x^2 through its value and slope, crossed with the fan, and
 * asked again there, until the flow stands still. Other crossings are those of the last replacement.
 *
 * @param start_m3_per_s flow to begin from, > 0.
 * @param tolerance relative move of the flow at which to stop.
 * @throws RangeError if no point is found.
 */
export function operatingPoint(
  curve: FanCurve,
  start_m3_per_s: number,
  plate: PlatePressure,
  tolerance: number = POINT_TOLERANCE,
): OperatingPoint {
  let Q = start_m3_per_s;
  // The plate is asked no more closely than the last move deserves.
  let asked = COARSE;
  for (let step = 0; step < MAX_STEPS; step += 1) {
    plate(Q, reply, asked);
    const dp = reply[0];
    const a = Math.min(1, Math.max(0, 2 - reply[1] / dp));
    const crossings = fanCrossings(curve, Q, dp, a);
    if (crossings.length === 0) throw new RangeError('the fan curve gives no pressure at any flow');
    const moved = Math.abs(crossings[0] - Q);
    if (moved < tolerance * Q && asked <= tolerance) {
      const [flow, ...others] = crossings;
      return {
        flow_m3_per_s: flow,
        pressure_Pa: fanPressure(curve, flow),
        others_m3_per_s: others,
      };
    }
    asked = Math.max(tolerance, Math.min(COARSE, (0.1 * moved) / Q));
    // Late steps are halved in case the replacement swings between two crossings.
    Q = step < 20 ? crossings[0] : (Q + crossings[0]) / 2;
  }
  throw new RangeError(`no operating point found near ${Q} m3/s`);
}
