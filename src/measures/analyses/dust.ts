/** Dust in the plate: what stays in it, how much it can hold, how well reversed air empties it. */
import { exp, log2 } from '../../numeric/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { FINE_TEST_DUST } from '../../physics/index.ts';
import type { DustClass } from '../../physics/index.ts';
import type { Analysis, Assessment } from '../assessment.ts';
import { dustConstants, joinClasses, tabulatedBendRate } from './dust-classes.ts';
import type { DustConstants } from './dust-classes.ts';
import { lipLee } from './dust-lips.ts';
import type { DustLedger } from './dust-march.ts';
import { createPlateMarch } from './dust-plate.ts';
import { ownPocketVolume, purgeAngle, purgedShare } from './dust-pockets.ts';
import { downOf } from './dust-rest.ts';
import { fallSpeeds, settleDust } from './dust-settling.ts';
import type { ShapeStream } from './dust-steps.ts';
import { flowAnalysis } from './flow.ts';

export interface DustReport {
  /** Share of the dust mass that stays in the plate, on walls and in pockets. */
  readonly capture: number;
  /** Of that, the share of the dust mass kept by pockets. */
  readonly inPockets: number;
  /** Dust that the pockets hold when full [g]; pockets that catch nothing do not count. */
  readonly capacity_g: number;
  /** Share of the kept dust that a purge with reversed air carries out. */
  readonly purge: number;
  /**
   * Share of the mass of each size class that stays in the plate; classes joined two by two in the
   * fast form.
   */
  readonly captureOfClass: Float64Array;
  /** Diameter and mass share of each of these classes [um], [-]. */
  readonly classes: readonly DustClass[];
  /** Of `captureOfClass`, the share that pockets keep. */
  readonly inPocketsOfClass: Float64Array;
  /** Share of the dust mass that each pocket of each shape keeps in all its standings [P]. */
  readonly pocketShare: Float64Array;
  /** Share of a channel's own dust that stays in it, by shape [M]. */
  readonly shapeCapture: Float64Array;
  /** Dust that fills each pocket in all its standings [P] [g]. */
  readonly pocketRoom_g: Float64Array;
}

/** Bulk density of settled dust over that of its grains; common practice, no source: 0.3-0.6. */
export const BULK_SHARE = 0.45;
/** A pocket's volume counts half when it keeps this share of its channel's dust; own heuristic. */
const USEFUL_SHARE = 0.03;
/**
 * Of the dust that lies on bare walls this share counts as kept: a wall has no room, its layer is
 * shed in flakes as it grows. Own heuristic.
 */
const WALL_ROOM = 0.5;
/** Keeps `purge` from praising a plate that holds no dust at all; own heuristic. */
const PURGE_FLOOR = 0.02;

/** Result of one shape, per channel of it. */
interface ShapeDust {
  capture: number;
  inPockets: number;
  purged: number;
  volume_mm3: number;
  /** Share of the channel's dust that each pocket keeps, and the volume it fills [pockets]. */
  readonly share: Float64Array;
  readonly room_mm3: Float64Array;
  /** Share of each pocket that dust fills at rest [pockets]. */
  readonly rest: Float64Array;
  /** Share of a radian's turning that each class loses in reversed air [classes]. */
  readonly loss: Float64Array;
}

const angle = { angle: 0, reach: 0 };

export const dustAnalysis: Analysis<DustReport> = { name: 'dust', run: analyseDust };

function analyseDust(assessment: Assessment): DustReport {
  const { brief, samples } = assessment;
  const flow = assessment.get(flowAnalysis);
  const classes = brief.dust.classes ?? FINE_TEST_DUST;
  const { density_kg_per_m3 } = brief.dust;
  const used = assessment.exact ? classes : joinClasses(classes);
  const dust = dustConstants({ density_kg_per_m3, classes: used }, flow.air);
  const down = downOf(brief);
  const least_mm = brief.process.minimumFeature_mm;
  const fall = down === null ? null : fallSpeeds(dust, used, flow.air);
  const standing = new Int32Array(samples.shapeCount);
  for (let n = 0; n < samples.channelCount; n++) standing[samples.shapeOf[n]]++;
  const captureOfClass = new Float64Array(dust.count);
  const inPocketsOfClass = new Float64Array(dust.count);
  const pocketCount = samples.pocketStart[samples.shapeCount];
  const pocketShare = new Float64Array(pocketCount);
  const pocketRoom_g = new Float64Array(pocketCount);
  const shapeCapture = new Float64Array(samples.shapeCount);
  const result = createShapeDust(samples, dust.count);
  const roomDensity_g_per_mm3 = BULK_SHARE * density_kg_per_m3 * 1e-6;
  let total = 0;
  let capture = 0;
  let inPockets = 0;
  let purged = 0;
  let volume_mm3 = 0;
  // One object for all shapes in turn: hundreds of them are the most that an assessment of dust allocates.
  const stream = { flow_m3_per_s: 0, reynolds: 0, friction: 0 };
  const streamOf = (m: number): ShapeStream => {
    stream.flow_m3_per_s = flow.shapeFlow_m3_per_s[m];
    stream.reynolds = flow.shapeReynolds[m];
    stream.friction = flow.friction[m];
    return stream;
  };
  const march = createPlateMarch({
    samples,
    dust,
    minimumFeature_mm: least_mm,
    stride: assessment.exact ? 1 : 2,
    stream: streamOf,
  });
  for (let m = 0; m < samples.shapeCount; m++) {
    const ledger = march(m);
    streamOf(m);
    if (down !== null && fall !== null) {
      settleDust(samples, m, stream, dust, fall, down, least_mm, ledger, result.rest);
    }
    sumShape(assessment, m, stream, dust, ledger, result);
    const weight = standing[m] * stream.flow_m3_per_s;
    shapeCapture[m] = result.capture;
    total += weight;
    capture += weight * result.capture;
    inPockets += weight * result.inPockets;
    purged += weight * result.purged;
    volume_mm3 += standing[m] * result.volume_mm3;
    for (let i = 0; i < dust.count; i++) {
      const shed = (1 - WALL_ROOM) * ledger.onWalls[i];
      captureOfClass[i] += weight * (1 - ledger.carried[i] - ledger.skimming[i] - shed);
    }
    const first = samples.pocketStart[m];
    for (let p = 0; first + p < samples.pocketStart[m + 1]; p++) {
      pocketShare[first + p] = weight * result.share[p];
      pocketRoom_g[first + p] = standing[m] * result.room_mm3[p] * roomDensity_g_per_mm3;
      for (let i = 0; i < dust.count; i++) {
        inPocketsOfClass[i] += weight * ledger.inPockets[p * dust.count + i];
      }
    }
  }
  if (!(total > 0)) {
    const none = { capture: 0, inPockets: 0, capacity_g: 0, purge: 0 };
    return {
      ...none,
      captureOfClass,
      classes: used,
      inPocketsOfClass,
      pocketShare,
      shapeCapture,
      pocketRoom_g,
    };
  }
  for (let i = 0; i < dust.count; i++) {
    captureOfClass[i] /= total;
    inPocketsOfClass[i] /= total;
  }
  for (let p = 0; p < pocketCount; p++) pocketShare[p] /= total;
  return {
    capture: capture / total,
    inPockets: inPockets / total,
    capacity_g: volume_mm3 * BULK_SHARE * brief.dust.density_kg_per_m3 * 1e-6,
    purge: purged / (capture + PURGE_FLOOR * total),
    captureOfClass,
    classes: used,
    inPocketsOfClass,
    pocketShare,
    shapeCapture,
    pocketRoom_g,
  };
}

function createShapeDust(samples: PlateSamples, classes: number): ShapeDust {
  let most = 0;
  for (const pockets of samples.pockets) most = Math.max(most, pockets.length);
  return {
    capture: 0,
    inPockets: 0,
    purged: 0,
    volume_mm3: 0,
    share: new Float64Array(most),
    room_mm3: new Float64Array(most),
    // As without gravity.
    rest: new Float64Array(most).fill(1),
    loss: new Float64Array(classes),
  };
}

/** Sums the ledger of a shape over classes and pockets. */
function sumShape(
  assessment: Assessment,
  shape: number,
  stream: ShapeStream,
  dust: DustConstants,
  ledger: DustLedger,
  out: ShapeDust,
): void {
  const { samples } = assessment;
  const reverse = assessment.brief.air.reverseShare;
  const pockets = samples.pockets[shape].length;
  const middle = shape * samples.stations + (samples.stations >> 1);
  const rate_per_s = speedAt(assessment, stream, middle) / (samples.bore_mm[middle] * 1e-3);
  const logRate = log2(Math.max(1e-9, reverse * rate_per_s));
  const shear = reverse * Math.sqrt(stream.friction / 8);
  const wall_m_per_s = shear * speedAt(assessment, stream, middle);
  out.capture = 0;
  out.inPockets = 0;
  out.purged = 0;
  out.volume_mm3 = 0;
  for (let i = 0; i < dust.count; i++) {
    // Grains from bare walls come on average from the middle and are met edgeways.
    const loss = tabulatedBendRate(dust.logRelaxation[i] + logRate);
    out.loss[i] = loss;
    const kept = WALL_ROOM * dust.share[i] * ledger.onWalls[i];
    out.capture += kept;
    if (kept > 0) {
      const freed = purgedShare(0.1, wall_m_per_s, dust.lift[i]);
      out.purged += kept * freed * exp(-0.5 * loss * ledger.turning_rad);
    }
  }
  for (let p = 0; p < pockets; p++) {
    purgeAngle(samples, shape, p, angle);
    const station = Math.round(samples.pockets[shape][p].at * (samples.stations - 1));
    const speed_m_per_s = speedAt(assessment, stream, shape * samples.stations + station);
    const friction_m_per_s = shear * angle.reach * speed_m_per_s;
    const open = 1 - lipLee(samples.pockets[shape][p]);
    let inPocket = 0;
    for (let i = 0; i < dust.count; i++) {
      const kept = dust.share[i] * ledger.inPockets[p * dust.count + i];
      if (kept === 0) continue;
      inPocket += kept;
      const freed = open * purgedShare(angle.angle, friction_m_per_s, dust.lift[i]);
      out.purged += kept * freed * exp(-out.loss[i] * ledger.turningBefore_rad[p]);
    }
    out.inPockets += inPocket;
    const room_mm3 = ownPocketVolume(samples, shape, p) * out.rest[p];
    out.share[p] = inPocket;
    out.room_mm3[p] = room_mm3;
    out.volume_mm3 += (room_mm3 * inPocket) / (inPocket + USEFUL_SHARE);
  }
  out.capture += out.inPockets;
}

function speedAt(assessment: Assessment, stream: ShapeStream, row: number): number {
  return stream.flow_m3_per_s / (assessment.samples.area_mm2[row] * 1e-6);
}
