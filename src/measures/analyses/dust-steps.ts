/** The steps of a channel shape as dust passes them: what does not depend on the size class. */
import type { PlateSamples } from '../../design/index.ts';
import { log2, radians } from '../../numeric/index.ts';
import { decay, mouthCover, pocketHold } from './dust-chances.ts';
import { lipGain } from './dust-lips.ts';

/** What the march reads of a shape's air stream. */
export interface ShapeStream {
  readonly flow_m3_per_s: number;
  readonly reynolds: number;
  /** Mean Darcy friction factor. */
  readonly friction: number;
}

/** Skimming grains spread back into the air over this many bores; own heuristic. */
const SPREAD_BORES = 3;

/**
 * Columns of the steps of two shapes side by side, what does not depend on the size class: a step is
 * STEP numbers, first and second shape in turn, so that the second shape's lie one place on.
 *
 * An object to be taken apart where it is used: constants of the own module fold into a loop,
 * imported ones are looked up each time (15 % of the march).
 */
export const STEP_COLUMNS = {
  /** Length [mm]. */
  DS: 0,
  /** Curvature in the carried frame [1/mm]. */
  KX: 2,
  KY: 4,
  /** [m/s]. */
  SPEED: 6,
  /** log2 of speed over bore [1/s]. */
  LOG_RATE: 8,
  /** Share of the skimming grains that go back into the air. */
  SPREAD: 10,
  /** Way to the outer wall, unit or zero; laid for channels with pockets only. */
  OUTER_X: 12,
  OUTER_Y: 14,
  /** Index of the pocket whose mouth is passed, or -1. */
  POCKET: 16,
  /** Its hold times the part of the step that its mouth takes. */
  OPEN: 18,
  /** Way into it, unit. */
  SIDE_X: 20,
  SIDE_Y: 22,
  /** Part of the outer strip, as the skimming grains see it, that the mouth takes. */
  FACING: 24,
  /** Width of the mouth [rad]. */
  WIDTH: 26,
  /** Quotients that all classes share: one over the bore [1/mm], time of passage [s] and its inverse. */
  PER_BORE: 28,
  TIME: 30,
  PER_TIME: 32,
  STEP: 34,
} as const;
const { DS, KX, KY, SPEED, LOG_RATE, SPREAD, OUTER_X, OUTER_Y, POCKET, OPEN } = STEP_COLUMNS;
const { SIDE_X, SIDE_Y, FACING, WIDTH, PER_BORE, TIME, PER_TIME, STEP } = STEP_COLUMNS;

/** Turning of the shape laid last [rad]. */
let turning = 0;

export function stepTurning(): number {
  return turning;
}

/** Steps of a shape of so many stations. */
export function stepCount(stations: number, stride: number): number {
  return Math.ceil((stations - 1) / stride);
}

/**
 * Averages curvature, bore and speed over each step.
 *
 * @param stride stations per step.
 * @param table receives the columns of `stepCount` steps, the first from `at` on.
 */
export function laySteps(
  samples: PlateSamples,
  shape: number,
  stream: ShapeStream,
  stride: number,
  table: Float64Array,
  at: number,
): void {
  const { stations, bore_mm, area_mm2 } = samples;
  const last = stations - 1;
  layCurvature(samples, shape);
  const bent = bends;
  const hasPockets = samples.pockets[shape].length > 0;
  const ds_mm = samples.length_mm[shape] / last;
  const flow_m_mm2 = stream.flow_m3_per_s * 1e6;
  const perFlow = 1 / flow_m_mm2;
  const base = shape * stations;
  let length_mm = ds_mm * stride;
  let share = 1 / (2 * stride);
  let perLength = 1 / length_mm;
  let j = at;
  let outerX = 0;
  let outerY = 0;
  let turning_rad = 0;
  let nearRate = 0;
  let nearLog = 0;
  for (let from = 0; from < last; from += stride, j += STEP) {
    const to = Math.min(last, from + stride);
    if (to - from < stride) {
      length_mm = ds_mm * (to - from);
      share = 1 / (2 * (to - from));
      perLength = 1 / length_mm;
    }
    let kx = bent[2 * from] + bent[2 * to];
    let ky = bent[2 * from + 1] + bent[2 * to + 1];
    let bore = bore_mm[base + from] + bore_mm[base + to];
    let area = area_mm2[base + from] + area_mm2[base + to];
    for (let i = from + 1; i < to; i++) {
      kx += 2 * bent[2 * i];
      ky += 2 * bent[2 * i + 1];
      bore += 2 * bore_mm[base + i];
      area += 2 * area_mm2[base + i];
    }
    kx *= share;
    ky *= share;
    bore *= share;
    area *= share;
    const perBore = 1 / bore;
    const speed = flow_m_mm2 / area;
    const spread = 1 - decay(length_mm * perBore * (1 / SPREAD_BORES));
    const rate = Math.max(1e-9, 1e3 * speed * perBore);
    // Rates of one channel lie close together: log2 by its series about one of them.
    let y = (rate - nearRate) / (rate + nearRate);
    if (Math.abs(y) > NEAR) {
      nearRate = rate;
      nearLog = log2(rate);
      y = 0;
    }
    const y2 = y * y;
    table[j + LOG_RATE] = nearLog + TWO_OVER_LN2 * y * (1 + y2 * (1 / 3 + y2 * (1 / 5)));
    table[j + DS] = length_mm;
    table[j + PER_BORE] = perBore;
    table[j + TIME] = 1e-3 * length_mm * area * perFlow;
    table[j + PER_TIME] = 1e3 * speed * perLength;
    table[j + KX] = kx;
    table[j + KY] = ky;
    table[j + SPEED] = speed;
    table[j + SPREAD] = spread;
    table[j + POCKET] = -1;
    turning_rad += length_mm * Math.sqrt(kx * kx + ky * ky);
    if (!hasPockets) continue;
    outerX += spread * (-kx - outerX);
    outerY += spread * (-ky - outerY);
    const norm = Math.sqrt(outerX * outerX + outerY * outerY);
    table[j + OUTER_X] = norm > 1e-12 ? outerX / norm : 0;
    table[j + OUTER_Y] = norm > 1e-12 ? outerY / norm : 0;
  }
  turning = turning_rad;
}

/** (x - 1)/(x + 1) up to which the series of log2 x is within 1e-5. */
const NEAR = 0.2;
const TWO_OVER_LN2 = 2 / Math.LN2;

let bends = new Float64Array(64);

/** Curvature of a shape's stations in the carried frame, which does not swing round [S x 2]. */
function layCurvature(samples: PlateSamples, shape: number): void {
  const { stations, curvature_per_mm, first, second, twist } = samples;
  if (bends.length < 2 * stations) bends = new Float64Array(4 * stations);
  const out = bends;
  let row = shape * stations;
  for (let i = 0; i < stations; i++, row++) {
    const at = 3 * row;
    const x = curvature_per_mm[at];
    const y = curvature_per_mm[at + 1];
    const z = curvature_per_mm[at + 2];
    const u = x * first[at] + y * first[at + 1] + z * first[at + 2];
    const v = x * second[at] + y * second[at + 1] + z * second[at + 2];
    const c = twist[2 * row];
    const s = twist[2 * row + 1];
    out[2 * i] = u * c - v * s;
    out[2 * i + 1] = u * s + v * c;
  }
}

/** Notes for each step the pocket that takes most of it; of pockets at one spot only one counts. */
export function layMouths(
  samples: PlateSamples,
  shape: number,
  minimumFeature_mm: number,
  stride: number,
  steps: Float64Array,
  at: number,
  turningBefore_rad: Float64Array,
): void {
  const pockets = samples.pockets[shape];
  const { pocketAxis, twist } = samples;
  const count = stepCount(samples.stations, stride);
  for (let p = 0; p < pockets.length; p++) {
    const pocket = pockets[p];
    const middle_mm = pocket.at * samples.length_mm[shape];
    const half_mm = 0.5 * pocket.length_mm;
    const hold = pocketHold(pocket.length_mm, pocket.depth_mm, minimumFeature_mm) * lipGain(pocket);
    const width_rad = radians(pocket.width_deg);
    const c = pocketAxis[2 * (samples.pocketStart[shape] + p)];
    const s = pocketAxis[2 * (samples.pocketStart[shape] + p) + 1];
    let from_mm = 0;
    for (let k = 0; k < count; k++) {
      const j = at + k * STEP;
      const to_mm = from_mm + steps[j + DS];
      const bent = Math.sqrt(steps[j + KX] * steps[j + KX] + steps[j + KY] * steps[j + KY]);
      if (to_mm <= middle_mm) turningBefore_rad[p] += steps[j + DS] * bent;
      const within = Math.min(to_mm, middle_mm + half_mm) - Math.max(from_mm, middle_mm - half_mm);
      from_mm = to_mm;
      if (within <= 0) continue;
      const row = shape * samples.stations + k * stride;
      const x = c * twist[2 * row] - s * twist[2 * row + 1];
      const y = c * twist[2 * row + 1] + s * twist[2 * row];
      const open = (hold * within) / steps[j + DS];
      const facing = mouthCover(x * steps[j + OUTER_X] + y * steps[j + OUTER_Y], width_rad);
      const rank = open * (0.01 + facing);
      const isTaken = steps[j + POCKET] >= 0;
      if (isTaken && rank <= steps[j + OPEN] * (0.01 + steps[j + FACING])) continue;
      steps[j + POCKET] = p;
      steps[j + OPEN] = open;
      steps[j + SIDE_X] = x;
      steps[j + SIDE_Y] = y;
      steps[j + FACING] = facing;
      steps[j + WIDTH] = width_rad;
    }
  }
}
