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
  /** Turning of the air, -K times the length [rad]. */
  TURN_X: 34,
  TURN_Y: 36,
  /** Square of the speed [m2/s2], and the fourth power of the friction velocity [m4/s4]. */
  SQUARE: 38,
  SHEAR: 40,
  /**
   * The kernel's own: 1 where length or rate of loss differ from the step before in the first shape, 2
   * in the second, 3 in both.
   */
  NEWS: 42,
  /** Size of the turning [rad]. */
  BENT: 44,
  STEP: 46,
} as const;
const { DS, KX, KY, SPEED, LOG_RATE, SPREAD, OUTER_X, OUTER_Y, POCKET, OPEN } = STEP_COLUMNS;
const { SIDE_X, SIDE_Y, FACING, WIDTH, PER_BORE, TIME, PER_TIME, STEP } = STEP_COLUMNS;
const { TURN_X, TURN_Y, SQUARE, SHEAR, BENT } = STEP_COLUMNS;

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
  const { stations } = samples;
  const last = stations - 1;
  if (bends.length < 8 * stations) bends = new Float64Array(16 * stations);
  layStations(samples, shape, bends, 0);
  const bent = bends;
  const hasPockets = samples.pockets[shape].length > 0;
  const ds_mm = samples.length_mm[shape] / last;
  const flow_m_mm2 = stream.flow_m3_per_s * 1e6;
  const eighthFriction = 0.125 * stream.friction;
  const perFlow = 1 / flow_m_mm2;
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
    const a = STATION * from;
    const b = STATION * to;
    let kx = bent[a] + bent[b];
    let ky = bent[a + 2] + bent[b + 2];
    let bore = bent[a + 4] + bent[b + 4];
    let area = bent[a + 6] + bent[b + 6];
    for (let i = a + STATION; i < b; i += STATION) {
      kx += 2 * bent[i];
      ky += 2 * bent[i + 2];
      bore += 2 * bent[i + 4];
      area += 2 * bent[i + 6];
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
    table[j + TURN_X] = -kx * length_mm;
    table[j + TURN_Y] = -ky * length_mm;
    const square = speed * speed;
    const shear = square * eighthFriction;
    table[j + SQUARE] = square;
    table[j + SHEAR] = shear * shear;
    table[j + POCKET] = -1;
    const bent_rad = length_mm * Math.sqrt(kx * kx + ky * ky);
    table[j + BENT] = bent_rad;
    turning_rad += bent_rad;
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

let bends = new Float64Array(0);

/** Numbers of a station, see `layStations`. */
export const STATION = 8;

/**
 * Curvature of a shape's stations in the carried frame, which does not swing round, bore and area: of
 * two shapes side by side like the steps' columns.
 *
 * @param out receives [stations x STATION] numbers, the first at `at`.
 */
export function layStations(
  samples: PlateSamples,
  shape: number,
  out: Float64Array,
  at: number,
): void {
  const { stations, curvature_per_mm, first, second, twist, bore_mm, area_mm2 } = samples;
  const isTwisted = samples.sections[shape].kind === 'teardrop';
  let row = shape * stations;
  let to = at;
  for (let i = 0; i < stations; i++, row++, to += STATION) {
    const from = 3 * row;
    const x = curvature_per_mm[from];
    const y = curvature_per_mm[from + 1];
    const z = curvature_per_mm[from + 2];
    const u = x * first[from] + y * first[from + 1] + z * first[from + 2];
    const v = x * second[from] + y * second[from + 1] + z * second[from + 2];
    if (isTwisted) {
      const c = twist[2 * row];
      const s = twist[2 * row + 1];
      out[to] = u * c - v * s;
      out[to + 2] = u * s + v * c;
    } else {
      out[to] = u;
      out[to + 2] = v;
    }
    out[to + 4] = bore_mm[row];
    out[to + 6] = area_mm2[row];
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
      if (to_mm <= middle_mm) turningBefore_rad[p] += steps[j + BENT];
      if (from_mm >= middle_mm + half_mm) break;
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
