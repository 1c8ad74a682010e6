/**
 * Dust along one channel shape: what strikes a wall, what stays on it, what a pocket keeps.
 *
 * Own heuristic on published bend losses. Per size class a ledger of three parts that always add up
 * to what came in: carried by the air, skimming along the outer wall, kept (on walls or in pockets).
 * So no grain is caught twice, however many bends and pockets there are.
 *
 * - Slip: a grain turns after the air with its stopping distance lambda = tau U. Its angle phi to
 *   the stream follows d phi/ds = k - phi/lambda and it drifts by phi ds. Wiggles shorter than
 *   lambda cancel, as they do for a grain that cannot follow them.
 * - Striking: the fitted loss per radian of a bend (laminar and turbulent, blended by Reynolds
 *   number), on the turning phi ds/lambda. For Stk above 1/2 grains fly so straight that geometry
 *   rules: what is left is the overlap of the bore with itself, shifted by the drift.
 * - On the wall: a grain strikes it at the speed v = U sin phi. Of dry grains the share
 *   1/(1 + (v/V_c)^2) sticks, V_c falling as 1/d, and of these 1/(1 + (u/u_t)^4) of friction velocities
 *   stays; the rest skims along the outer wall, spreading back into the air over three bores.
 *   Without the rebound a bare bend at 3 m/s would keep most grains of 20 to 50 um, which in
 *   practice need a pocket or a sticky wall.
 * - Over a pocket's mouth: of what strikes there and of what skims there the share G B O enters and
 *   stays unless the pocket's own shear lifts it. G is the part of the 120 degrees of wall about
 *   the outer side that the mouth takes, B = H/(H + Lc/2) the chance that a rebound stays inside,
 *   O = 1 up to Lc/H = 6 falling to 0.3 at 12, where the stream reaches the floor.
 */
import type { PlateSamples } from '../../design/index.ts';
import { turbulentBendRate } from '../../physics/index.ts';
import { boreOverlap, mouthCover } from './dust-chances.ts';
import { tabulatedBendRate } from './dust-classes.ts';
import type { DustConstants } from './dust-classes.ts';
import { STEP_COLUMNS, layMouths, laySteps, stepCount, stepTurning } from './dust-steps.ts';
import type { ShapeStream } from './dust-steps.ts';

const {
  DS,
  FACING,
  LOG_RATE,
  OPEN,
  PER_BORE,
  PER_TIME,
  POCKET,
  SHEAR,
  SIDE_X,
  SIDE_Y,
  SPEED,
  SPREAD,
  SQUARE,
  STEP,
  TIME,
  TURN_X,
  TURN_Y,
  WIDTH,
} = STEP_COLUMNS;

/** Where the dust of one shape went; the arrays serve again for the next shape. */
export interface DustLedger {
  /** Share of each class carried by the air, and skimming along a wall, at the outlet [classes]. */
  readonly carried: Float64Array;
  readonly skimming: Float64Array;
  /** Share of each class kept on bare walls [classes]. */
  readonly onWalls: Float64Array;
  /** Share of each class kept by each pocket [pockets x classes]. */
  inPockets: Float64Array;
  /** Turning of the channel from the inlet to each pocket's middle [pockets] [rad]. */
  turningBefore_rad: Float64Array;
  /** Turning of the whole channel [rad]. */
  turning_rad: number;
}

export function createLedger(classes: number): DustLedger {
  return {
    carried: new Float64Array(classes),
    skimming: new Float64Array(classes),
    onWalls: new Float64Array(classes),
    inPockets: new Float64Array(4 * classes),
    turningBefore_rad: new Float64Array(4),
    turning_rad: 0,
  };
}

/** Stokes number at which fit and geometry weigh the same; own heuristic. */
const BALLISTIC_STOKES = 0.5;
/** Weight of the geometry below which it is left out: it moves a loss by about this share of it. */
const FLYING = { fast: 0.01, exact: 0.001 } as const;
/** Friction velocity in a pocket over U sqrt(f/8): vortex at the floor .1-.3 U, from memory. */
export const POCKET_SHEAR = 0.2;

/**
 * Marches all size classes through a shape and leaves the result in the ledger.
 *
 * @param minimumFeature_mm shallower pockets fade out.
 * @param stride stations per step: 1 for the exact form, 2 inside the search loop.
 */
export function marchDust(
  samples: PlateSamples,
  shape: number,
  stream: ShapeStream,
  dust: DustConstants,
  minimumFeature_mm: number,
  stride: number,
  ledger: DustLedger,
): void {
  const count = stepCount(samples.stations, stride);
  if (steps.length < STEP * count) steps = new Float64Array(2 * STEP * count);
  clearLedger(ledger, samples.pockets[shape].length, dust.count);
  laySteps(samples, shape, stream, stride, steps, 0);
  ledger.turning_rad = stepTurning();
  layMouths(samples, shape, minimumFeature_mm, stride, steps, 0, ledger.turningBefore_rad);
  const turbulent = turbulence(stream);
  for (let i = 0; i < dust.count; i++) {
    marchClass(count, i, dust, turbulent, flyingShare(stride), ledger);
  }
}

let steps = new Float64Array(32 * STEP);

/** Weight of the turbulent loss rate in a stream [0..1]. */
export function turbulence({ reynolds }: ShapeStream): number {
  const t = Math.min(1, Math.max(0, (reynolds - 2300) / 1700));
  return t * t * (3 - 2 * t);
}

/** Weight of the geometry below which it is left out. */
export function flyingShare(stride: number): number {
  return stride === 1 ? FLYING.exact : FLYING.fast;
}

/** Makes room in a ledger and clears what a march adds to. */
export function clearLedger(ledger: DustLedger, pockets: number, classes: number): void {
  if (ledger.inPockets.length < pockets * classes) {
    ledger.inPockets = new Float64Array(2 * pockets * classes);
    ledger.turningBefore_rad = new Float64Array(2 * pockets);
  }
  ledger.inPockets.fill(0, 0, pockets * classes);
  ledger.turningBefore_rad.fill(0);
}

/** Moves one class through the steps. */
function marchClass(
  count: number,
  index: number,
  dust: DustConstants,
  turbulent: number,
  flying: number,
  ledger: DustLedger,
): void {
  const table = steps;
  const relaxation_s = dust.relaxation_s[index];
  const perRelaxation = 1 / relaxation_s;
  const lift = dust.lift[index];
  const rebound = dust.rebound[index];
  let carried = 1;
  let skimming = 0;
  let onWalls = 0;
  let slipX = 0;
  let slipY = 0;
  let driftX = 0;
  let driftY = 0;
  let lowX = 0;
  let highX = 0;
  let lowY = 0;
  let highY = 0;
  let left = 1;
  let logRate = NaN;
  let rate = 0;
  let ballistic = 0;
  let stopping_mm = 0;
  let fade = 0;
  let gain = 0;
  let wall = 0;
  let stroke = 0;
  let lastDs = NaN;
  for (let j = 0; j < count * STEP; j += STEP) {
    const ds = table[j + DS];
    if (table[j + LOG_RATE] !== logRate || ds !== lastDs) {
      logRate = table[j + LOG_RATE];
      lastDs = ds;
      stopping_mm = 1e3 * relaxation_s * table[j + SPEED];
      const stokes = stopping_mm * table[j + PER_BORE];
      rate = tabulatedBendRate(dust.logRelaxation[index] + logRate);
      rate += turbulent * (turbulentBendRate(stokes) - rate);
      // `decay` and the ballistic share by one division.
      const x = table[j + TIME] * perRelaxation;
      const power = 1 + x * (1 + x * (0.5 + x * (1 / 6 + x * (1 / 24))));
      const heavy = stokes * stokes + BALLISTIC_STOKES * BALLISTIC_STOKES;
      const both = 1 / (power * heavy);
      ballistic = stokes * stokes * power * both;
      fade = heavy * both;
      wall = table[j + SHEAR] * lift;
      stroke = table[j + SQUARE] * rebound;
      gain = (1 - fade) * relaxation_s * table[j + PER_TIME];
    }
    // The slip's equation solved over the step for constant k; its integral, the drift over lambda,
    // follows from the equation itself: turning minus the change of slip.
    const turnX = table[j + TURN_X];
    const turnY = table[j + TURN_Y];
    const nextX = fade * slipX + gain * turnX;
    const nextY = fade * slipY + gain * turnY;
    const goneX = turnX - nextX + slipX;
    const goneY = turnY - nextY + slipY;
    slipX = nextX;
    slipY = nextY;
    const gone = Math.sqrt(goneX * goneX + goneY * goneY);
    // Grains that hardly fly on need no geometry.
    let flown = 1;
    if (ballistic > flying) {
      driftX += stopping_mm * goneX;
      driftY += stopping_mm * goneY;
      if (driftX < lowX) lowX = driftX;
      else if (driftX > highX) highX = driftX;
      if (driftY < lowY) lowY = driftY;
      else if (driftY > highY) highY = driftY;
      const spanX = highX - lowX;
      const spanY = highY - lowY;
      const overlap = boreOverlap(Math.sqrt(spanX * spanX + spanY * spanY) * table[j + PER_BORE]);
      if (overlap < left) {
        flown = overlap / left;
        left = overlap;
      }
    }
    // 1/[(1 + wall)(1 + stroke sin2)], sin2 the square of the slip's sine, for an angle that may
    // exceed a right one p/(1 + p).
    const slip2 = slipX * slipX + slipY * slipY;
    const x = rate * gone;
    const power = 1 + x * (1 + x * (0.5 + x * (1 / 6 + x * (1 / 24))));
    const loose = (1 + wall) * (1 + slip2 + stroke * slip2);
    // `decay` and the sticking share by one division.
    const both = 1 / (power * loose);
    const stays = (1 + slip2) * power * both;
    const fitted = loose * both;
    const struck = carried * (1 - fitted - ballistic * (flown - fitted));
    const spread = table[j + SPREAD];
    let bare = struck;
    let skims = skimming * (1 - spread);
    carried += skimming - skims - struck;
    const pocket = table[j + POCKET];
    if (pocket >= 0) {
      const kept = table[j + OPEN] / (1 + SHEAR_4 * wall);
      const hit =
        gone > 1e-12
          ? struck *
            kept *
            mouthCover(
              (goneX * table[j + SIDE_X] + goneY * table[j + SIDE_Y]) / gone,
              table[j + WIDTH],
            )
          : 0;
      // Those that strike within the step skim over half of it on average.
      const skims0 = skimming + 0.5 * (struck - hit) * (1 - stays);
      const fallen = Math.min(skims, skims0 * spread * kept * table[j + FACING]);
      ledger.inPockets[pocket * dust.count + index] += hit + fallen;
      bare -= hit;
      skims -= fallen;
    }
    onWalls += bare * stays;
    skimming = skims + bare * (1 - stays);
  }
  ledger.carried[index] = carried;
  ledger.skimming[index] = skimming;
  ledger.onWalls[index] = onWalls;
}

const SHEAR_4 = POCKET_SHEAR * POCKET_SHEAR * POCKET_SHEAR * POCKET_SHEAR;
