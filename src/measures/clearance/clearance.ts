/** Clearance of a whole plate: thinnest wall and overlap, for every section. */
import type { PlateSamples } from '../../design/index.ts';
import type { Analysis } from '../assessment.ts';
import { compiledPasses } from './compiled.ts';
import { visitEdges } from './edge-walls.ts';
import { plainPasses } from './passes.ts';
import type { Passes } from './passes.ts';
import { visitDips } from './port-dips.ts';
import { visitSides } from './side-walls.ts';
import { createTally } from './tally.ts';
import type { Overlaps, Tally, WallKind } from './tally.ts';
import { packTubes } from './pack-tubes.ts';
import { createTubes } from './tubes.ts';
import type { Tubes } from './tubes.ts';

/** Walls thicker than this are reported as this [mm]; twice the process's minimum wall if more. */
export const WALL_CAP_mm = 8;

export interface ClearanceReport {
  /**
   * Thinnest solid anywhere, at most `cap_mm` [mm]; negative where surfaces overlap. NaN, like the
   * overlap, when the samples hold anything that is not a finite number.
   */
  readonly thinnestWall_mm: number;
  readonly cap_mm: number;
  /** Between what the thinnest wall stands; null when none is thinner than the cap. */
  readonly kind: WallKind | null;
  /** Middle of the thinnest wall in plate coordinates [mm]; null with `kind`. */
  readonly at_mm: readonly [number, number, number] | null;
  /** Placed channels at the thinnest wall; a channel and itself for 'self' and 'bend'. */
  readonly channels: readonly number[];
  /** Sum of all overlap depths [mm]: 0 for a sound plate. */
  readonly overlapDepth_mm: number;
  /** The same by kind. */
  readonly overlaps_mm: Readonly<Overlaps>;
}

/** Forms of the passes; the compiled one is null where the engine cannot run it. */
export type ClearanceForm = 'compiled' | 'plain';

let plainTubes: Tubes | null = null;
let compiledTubes: Tubes | null = null;

/**
 * Walls and overlaps of a sampled plate.
 *
 * @param bores_mm the bores each shape was given, to find widenings between stations.
 * @param minimumWall_mm process limit: lips are edges over twice this length (see `visitFaces`).
 * @param form compiled where the engine can run it, which gives the same report.
 */
export function measureClearance(
  samples: PlateSamples,
  bores_mm: readonly (readonly number[])[],
  minimumWall_mm: number,
  blockSize = 8,
  form: ClearanceForm = 'compiled',
): ClearanceReport {
  const compiled = form === 'compiled' ? compiledPasses() : null;
  if (compiled !== null) {
    compiledTubes ??= createTubes(samples);
    return measure(compiledTubes, compiled, samples, bores_mm, minimumWall_mm, blockSize);
  }
  plainTubes ??= createTubes(samples);
  return measure(plainTubes, plainPasses, samples, bores_mm, minimumWall_mm, blockSize);
}

function measure(
  tubes: Tubes,
  passes: Passes,
  samples: PlateSamples,
  bores_mm: readonly (readonly number[])[],
  minimumWall_mm: number,
  blockSize: number,
): ClearanceReport {
  packTubes(tubes, samples, bores_mm, blockSize, passes);
  const cap_mm = Math.max(WALL_CAP_mm, 2 * minimumWall_mm);
  const tally = createTally(cap_mm);
  // Comparisons with NaN are false, so a plate that is not made of numbers would pass as sound.
  if (!tubes.finite) {
    tally.thinnest_mm = NaN;
    return report(tally, cap_mm);
  }
  // Bends cost least and mostly leave a thin wall somewhere, which spares the rest much of its work.
  passes.visitBends(tubes, tally);
  const { sides } = samples;
  if (sides === null) visitEdges(tubes, tally);
  else visitSides(tubes, tally, sides, 2 * minimumWall_mm);
  passes.visitWalls(tubes, tally, 2 * minimumWall_mm);
  // Looked at last: most plates of a young search have been turned down by now.
  const { overlaps_mm } = tally;
  if (sides === null && totalOf(overlaps_mm) === 0) {
    const { standing, example } = tubes;
    for (let m = 0; m < tubes.channelShapes; m++) {
      if (standing[m] === 0) continue;
      overlaps_mm.face += standing[m] * visitDips(tubes, tally, m, example[m]);
    }
  }
  return report(tally, cap_mm);
}

function report(tally: Tally, cap_mm: number): ClearanceReport {
  const o = tally.overlaps_mm;
  const { kind } = tally;
  const isNumber = tally.thinnest_mm === tally.thinnest_mm;
  return {
    thinnestWall_mm: tally.thinnest_mm,
    cap_mm,
    kind,
    at_mm: kind === null ? null : [tally.x_mm, tally.y_mm, tally.z_mm],
    channels: [tally.channel, tally.other].filter((c) => c >= 0),
    overlapDepth_mm: isNumber ? totalOf(o) : NaN,
    overlaps_mm: o,
  };
}

/** All kinds that spoil a part; pockets that meet are noted only. */
function totalOf(o: Readonly<Overlaps>): number {
  return o.between + o.self + o.bend + o.face + o.edge + o.hole;
}

/** Thinnest wall, its kind and place, and the overlap a search can follow. */
export const clearanceAnalysis: Analysis<ClearanceReport> = {
  name: 'clearance',
  run({ samples, design, brief }) {
    const bores: (readonly number[])[] = [];
    for (let m = 0; m < samples.shapeCount; m++) {
      bores.push(design.channels[samples.channelOfShape[m]].bore_mm);
    }
    return measureClearance(samples, bores, brief.process.minimumWall_mm);
  },
};
