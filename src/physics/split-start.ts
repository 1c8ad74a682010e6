/** Where the flow split of a plate begins: a two-term law per channel, read off its digest. */
import type { ChannelDigests } from './channel-digest.ts';
import { DIGEST } from './digest-layout.ts';

const { LOBE_FIELDS, MAX_LOBES, PANEL_FIELDS, SHAPE_FIELDS } = DIGEST;
const { P_DEVELOPED, P_ENTRY, P_REACH } = DIGEST;
const { S_CREEP, S_EXIT, S_INLET, S_LOBES, S_SEPARATION, S_WIDENING } = DIGEST;
const { L_BASE, L_REYNOLDS, L_SLOPE } = DIGEST;

/** Developed laminar friction counts this often for what growing layers and curvature add; own heuristic. */
const FRICTION_FACTOR = 1.5;

// The terms of all shapes.
let linear = new Float64Array(128);
let square = new Float64Array(128);

/**
 * First guess of the flow through one channel of each shape when all share one pressure:
 * dp = L Q + K Q^2 of developed laminar friction and of inlet, exit, widening and bends.
 *
 * From equal velocities the pressures of a tangled plate differ by 65 % at first, from here by 18 %,
 * which spares a round of asking all channels (experiments/bench/evaluate).
 *
 * @param mean_m3_per_s flow through a channel on average.
 * @param out receives one flow per shape, to be scaled to the total.
 */
export function guessFlows(
  digests: ChannelDigests,
  shapes: number,
  mean_m3_per_s: number,
  out: Float64Array,
): void {
  if (linear.length < shapes) {
    linear = new Float64Array(2 * shapes);
    square = new Float64Array(2 * shapes);
  }
  let pressure = 0;
  for (let m = 0; m < shapes; m += 1) {
    const L = linearTerm(digests, m);
    const K = squareTerm(digests, m, mean_m3_per_s);
    linear[m] = L;
    square[m] = K;
    pressure += (L + K * mean_m3_per_s) * mean_m3_per_s;
  }
  const p = pressure / shapes;
  for (let m = 0; m < shapes; m += 1) {
    const L = linear[m];
    out[m] = (2 * p) / (L + Math.sqrt(L * L + 4 * square[m] * p));
  }
}

function linearTerm(digests: ChannelDigests, index: number): number {
  const { panel, panels, shape } = digests;
  let sum = 0;
  let before = 0;
  let at = PANEL_FIELDS * index * panels;
  for (let p = 0; p < panels; p += 1, at += PANEL_FIELDS) {
    const reach = panel[at + P_REACH];
    sum += panel[at + P_ENTRY] * panel[at + P_DEVELOPED] * (reach - before);
    before = reach;
  }
  return shape[SHAPE_FIELDS * index + S_CREEP] + FRICTION_FACTOR * sum;
}

function squareTerm(digests: ChannelDigests, index: number, flow: number): number {
  const { shape, lobe } = digests;
  const row = SHAPE_FIELDS * index;
  const f = shape[row + S_SEPARATION];
  let sum = shape[row + S_EXIT] + shape[row + S_INLET] + shape[row + S_WIDENING];
  let at = LOBE_FIELDS * MAX_LOBES * index;
  for (let l = shape[row + S_LOBES]; l > 0; l -= 1, at += LOBE_FIELDS) {
    const Re = lobe[at + L_REYNOLDS] * flow;
    sum += ((lobe[at + L_BASE] + lobe[at + L_SLOPE] * f) * Re) / (Re + 500);
  }
  return sum;
}
