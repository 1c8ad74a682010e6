/** Every measure anfract knows, in the order people read them: air, walls, print, dust, sight, cost. */
import { nearestName } from '../brief/index.ts';
import type { Measure } from './measure.ts';
import { accessDigit } from './access-digit.ts';
import { airTemperatureRise } from './air-temperature-rise.ts';
import { batchCost } from './batch-cost.ts';
import { bridgeSpan } from './bridge-span.ts';
import { captureWhenFull } from './capture-when-full.ts';
import { channelVelocity } from './channel-velocity.ts';
import { contoursPerLayer } from './contours-per-layer.ts';
import { diffuseLight } from './diffuse-light.ts';
import { dustCapture } from './dust-capture.ts';
import { fastestOutlet } from './fastest-outlet.ts';
import { finestFeature } from './finest-feature.ts';
import { flowEvenness } from './flow-evenness.ts';
import { flowNoise } from './flow-noise.ts';
import { heatRemoved } from './heat-removed.ts';
import { hotFaceTemperature } from './hot-face-temperature.ts';
import { ligamentEfficiencyMeasure } from './ligament-efficiency.ts';
import { ligamentSlenderness } from './ligament-slenderness.ts';
import { lightLeak } from './light-leak.ts';
import { mass } from './mass.ts';
import { newIslands } from './new-islands.ts';
import { openArea } from './open-area.ts';
import { operatingFlow } from './operating-flow.ts';
import { outletUniformity } from './outlet-uniformity.ts';
import { overhangArea } from './overhang-area.ts';
import { overlapDepth } from './overlap-depth.ts';
import { packingDensity } from './packing-density.ts';
import { partCost } from './part-cost.ts';
import { pocketCapacity } from './pocket-capacity.ts';
import { pocketFillTime } from './pocket-fill-time.ts';
import { pressureDrop } from './pressure-drop.ts';
import { printTime } from './print-time.ts';
import { probeOpening } from './probe-opening.ts';
import { pushDeflection } from './push-deflection.ts';
import { pushStressShare } from './push-stress.ts';
import { purge } from './purge.ts';
import { reachMargin } from './reach-margin.ts';
import { retractions } from './retractions.ts';
import { reynolds } from './reynolds.ts';
import { sectorEvenness } from './sector-evenness.ts';
import { sightMargin } from './sight-margin.ts';
import { slowestOutlet } from './slowest-outlet.ts';
import { soundLoss } from './sound-loss.ts';
import { straightRod } from './straight-rod.ts';
import { stirringIndex } from './stirring-index.ts';
import { stringing } from './stringing.ts';
import { supportContact } from './support-contact.ts';
import { supportVolume } from './support-volume.ts';
import { sweptOpening } from './swept-opening.ts';
import { tearShare } from './tear-share.ts';
import { thermalResistance } from './thermal-resistance.ts';
import { thinnestWall } from './thinnest-wall.ts';
import { travel } from './travel.ts';
import { wallExchange } from './wall-exchange.ts';
import { wallHeatShare } from './wall-heat-share.ts';
import { weakestSection } from './weakest-section.ts';

export const MEASURES: readonly Measure[] = [
  pressureDrop,
  operatingFlow,
  channelVelocity,
  reynolds,
  flowEvenness,
  sectorEvenness,
  slowestOutlet,
  fastestOutlet,
  outletUniformity,
  sweptOpening,
  thinnestWall,
  overlapDepth,
  overhangArea,
  supportVolume,
  supportContact,
  bridgeSpan,
  newIslands,
  contoursPerLayer,
  retractions,
  travel,
  stringing,
  finestFeature,
  dustCapture,
  pocketCapacity,
  pocketFillTime,
  captureWhenFull,
  purge,
  thermalResistance,
  heatRemoved,
  hotFaceTemperature,
  airTemperatureRise,
  wallHeatShare,
  stirringIndex,
  wallExchange,
  lightLeak,
  sightMargin,
  diffuseLight,
  soundLoss,
  flowNoise,
  probeOpening,
  reachMargin,
  accessDigit,
  straightRod,
  openArea,
  packingDensity,
  weakestSection,
  ligamentEfficiencyMeasure,
  ligamentSlenderness,
  tearShare,
  pushDeflection,
  pushStressShare,
  mass,
  printTime,
  partCost,
  batchCost,
];

const byId: ReadonlyMap<string, Measure> = new Map(
  MEASURES.map((measure) => [measure.id, measure]),
);

/** The measure of this id, or null. */
export function findMeasure(id: string): Measure | null {
  return byId.get(id) ?? null;
}

/** The id its writer most likely meant, or null when none is near. */
export function nearestMeasure(id: string): string | null {
  return nearestName(id, [...byId.keys()]);
}
