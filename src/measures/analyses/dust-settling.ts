/** Gravity on dust in a plate: what settles on floors and into pockets, what falls out at rest. */
import type { PlateSamples, Pocket } from '../../design/index.ts';
import { exp, radians } from '../../numeric/index.ts';
import { settlingVelocity } from '../../physics/index.ts';
import type { DustClass } from '../../physics/index.ts';
import { mouthCover, pocketHold } from './dust-chances.ts';
import type { DustAir, DustConstants } from './dust-classes.ts';
import { POCKET_SHEAR } from './dust-march.ts';
import type { DustLedger } from './dust-march.ts';
import type { ShapeStream } from './dust-steps.ts';
import { restShare } from './dust-rest.ts';
import type { Down } from './dust-rest.ts';

const SHEAR_4 = POCKET_SHEAR * POCKET_SHEAR * POCKET_SHEAR * POCKET_SHEAR;

/** Speeds at which the size classes fall [classes] [m/s]. */
export function fallSpeeds(
  dust: DustConstants,
  classes: readonly DustClass[],
  air: DustAir,
): Float64Array {
  return dust.relaxation_s.map((relaxation_s, i) =>
    settlingVelocity(
      relaxation_s,
      classes[i].diameter_um * 1e-6,
      air.density_kg_per_m3,
      air.viscosity_Pa_s,
    ),
  );
}

/**
 * Moves what gravity moves in the ledger of a shape.
 *
 * - Of what the air still carries the share 1 - exp(-4 v h/(pi D U)) settles, h the channel's run
 *   across the way down, D U bore and speed (well-mixed flow in a lying tube; from memory). It falls
 *   into pockets by the part of the floor that their mouths take (less where the stream reaches the
 *   bottom, or they are too shallow to print), the rest on the wall; there
 *   1/(1 + (u/u_t)^4) stays, in pockets with the shear of a pocket.
 * - Of what pockets caught, only the share that lies in them at rest (`restShare`) counts as kept; the
 *   rest falls back when the air stops.
 *
 * @param minimumFeature_mm shallower pockets fade out.
 * @param rest receives the share of each pocket that lies at rest [pockets].
 */
export function settleDust(
  samples: PlateSamples,
  shape: number,
  stream: ShapeStream,
  dust: DustConstants,
  fall_m_per_s: Float64Array,
  down: Down,
  minimumFeature_mm: number,
  ledger: DustLedger,
  rest: Float64Array,
): void {
  const pockets = samples.pockets[shape].length;
  const run_mm = crossRun(samples, shape, down);
  const floor = new Float64Array(pockets);
  for (let p = 0; p < pockets; p++) {
    rest[p] = restShare(samples, shape, p, down);
    const shelter = shelterOf(samples.pockets[shape][p], minimumFeature_mm);
    floor[p] = shelter * floorShare(samples, shape, p, down, run_mm);
  }
  const middle = shape * samples.stations + (samples.stations >> 1);
  const speed = stream.flow_m3_per_s / (samples.area_mm2[middle] * 1e-6);
  const perSpeed = (4 * run_mm) / (Math.PI * samples.bore_mm[middle] * speed);
  const shear = speed * speed * 0.125 * stream.friction;
  for (let i = 0; i < dust.count; i++) {
    const wall = shear * shear * dust.lift[i];
    const settled = ledger.carried[i] * (1 - exp(-fall_m_per_s[i] * perSpeed));
    let onFloor = settled;
    for (let p = 0; p < pockets; p++) {
      const at = p * dust.count + i;
      const into = Math.min(onFloor, settled * floor[p]);
      onFloor -= into;
      const caught = ledger.inPockets[at];
      const kept = (caught + into / (1 + SHEAR_4 * wall)) * rest[p];
      ledger.carried[i] += caught - kept;
      ledger.inPockets[at] = kept;
    }
    const stays = onFloor / (1 + wall);
    ledger.carried[i] -= stays;
    ledger.onWalls[i] += stays;
  }
}

/** How far the stream keeps out of a pocket, as in `pocketHold` without the chance of a rebound. */
function shelterOf(pocket: Pocket, minimumFeature_mm: number): number {
  const depth = Math.min(pocket.depth_mm, 0.5 * pocket.length_mm);
  if (!(depth > 0)) return 0;
  const hold = pocketHold(pocket.length_mm, pocket.depth_mm, minimumFeature_mm);
  return (hold * (depth + 0.5 * pocket.length_mm)) / depth;
}

/** Length of a channel's run across the way down [mm]. */
function crossRun(samples: PlateSamples, shape: number, down: Down): number {
  const { stations, tangent } = samples;
  const step = samples.length_mm[shape] / (stations - 1);
  let sum = 0;
  for (let k = 0; k < stations; k++) {
    const weight = k === 0 || k === stations - 1 ? 0.5 : 1;
    sum += weight * step * acrossDown(3 * (shape * stations + k), down, tangent);
  }
  // A plumb channel has no floor; what rounding leaves of it is none.
  return sum > 1e-9 * samples.length_mm[shape] ? sum : 0;
}

/** Sine of the angle between a tangent and the way down. */
function acrossDown(i: number, down: Down, tangent: Float64Array): number {
  const along = down[0] * tangent[i] + down[1] * tangent[i + 1] + down[2] * tangent[i + 2];
  return Math.sqrt(Math.max(0, 1 - along * along));
}

/** Part of the floor that a pocket's mouth takes [0..1]. */
function floorShare(
  samples: PlateSamples,
  shape: number,
  index: number,
  down: Down,
  run_mm: number,
): number {
  const pocket = samples.pockets[shape][index];
  const station = Math.round(Math.min(1, Math.max(0, pocket.at)) * (samples.stations - 1));
  const i = 3 * (shape * samples.stations + station);
  const axis = 2 * (samples.pocketStart[shape] + index);
  const across = acrossDown(i, down, samples.tangent);
  if (!(across > 1e-6) || !(run_mm > 0)) return 0;
  let into = 0;
  for (let d = 0; d < 3; d++) {
    const side =
      samples.pocketAxis[axis] * samples.first[i + d] +
      samples.pocketAxis[axis + 1] * samples.second[i + d];
    into += down[d] * side;
  }
  const cover = mouthCover(into / across, radians(pocket.width_deg));
  return Math.min(1, (pocket.length_mm * across) / run_mm) * cover;
}
