/** Every measure anfract knows, in the order people read them: air, walls, print, dust, sight, cost. */
import { nearestName } from '../brief/index.ts';
import { bridgeSpan } from './bridge-span.ts';
import { contoursPerLayer } from './contours-per-layer.ts';
import { finestFeature } from './finest-feature.ts';
import { mass } from './mass.ts';
import type { Measure } from './measure.ts';
import { newIslands } from './new-islands.ts';
import { overhangArea } from './overhang-area.ts';
import { overlapDepth } from './overlap-depth.ts';
import { partCost } from './part-cost.ts';
import { printTime } from './print-time.ts';
import { supportVolume } from './support-volume.ts';
import { thinnestWall } from './thinnest-wall.ts';
import { weakestSection } from './weakest-section.ts';

export const MEASURES: readonly Measure[] = [
  thinnestWall,
  overlapDepth,
  overhangArea,
  supportVolume,
  bridgeSpan,
  newIslands,
  contoursPerLayer,
  finestFeature,
  weakestSection,
  mass,
  printTime,
  partCost,
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
