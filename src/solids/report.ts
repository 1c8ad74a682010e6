/** Judging a plate's mesh: is it one closed solid, and the one that the design describes? */
import { toothVolume } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { airVolume } from './air-volume.ts';
import { countCrossings } from './crossings.ts';
import { sidedAir } from './side-air.ts';
import type { Solids } from './kernel.ts';
import type { Mesh } from './mesh.ts';
import { plateRings } from './plate-rings.ts';

/**
 * Greatest part of a channel's air by which mesh and integral may differ: chords along bends and
 * around sections, and those that draw a pocket. Own measurement, random sound designs of three
 * briefs at 24 sides x 32 rings: 0.20 % at most in 102 plain ones, 0.66 % in 205 pocketed ones.
 */
export const AIR_TOLERANCE = { plain: 0.005, pocketed: 0.01 } as const;
/** Rounding to float32, as a part of the whole plate. */
const ROUNDING = 1e-5;

export type MeshFaultCode =
  | 'notSolid'
  | 'insideOut'
  | 'parts'
  | 'genus'
  | 'volume'
  | 'crossing'
  | 'merged';

export interface MeshFault {
  readonly code: MeshFaultCode;
  readonly message: string;
}

export interface MeshReport {
  /** stitched: walls and faces joined directly. boolean: the kernel cut the channels out. */
  readonly method: 'stitched' | 'boolean';
  readonly vertexCount: number;
  readonly triangleCount: number;
  /** One closed, outward-facing solid: it prints, whatever else is wrong. */
  readonly isClosed: boolean;
  readonly parts: number;
  readonly genus: number;
  /**
   * Channels plus mounting holes; channels that meet in a plenum of k ends add k (ring) or k - 1
   * (disc) instead.
   */
  readonly expectedGenus: number;
  readonly volume_mm3: number;
  /** Drawn outline (arcs stray inwards by 0.01 mm at most) less holes less the integrated air. */
  readonly expectedVolume_mm3: number;
  readonly volumeTolerance_mm3: number;
  readonly area_mm2: number;
  /** Pairs of triangles that pass through each other. */
  readonly crossings: number;
  /** Empty when the mesh is the solid that the design describes. */
  readonly faults: readonly MeshFault[];
}

/**
 * Judges a mesh of a plate.
 *
 * The kernel's word alone does not do: a tube that crosses itself or another still counts as one
 * closed part of the right genus. All its triangles are therefore searched for pairs that pass
 * through each other.
 *
 * @param merged why the plate could not be stitched, null when it was or need not be.
 * @param walls where to look for crossings; the tubes that were cut out, where the kernel's own
 *   rounding to float32 would show as crossings of the result.
 */
export function judgeMesh(
  solids: Solids,
  mesh: Mesh,
  samples: PlateSamples,
  merged: string | null,
  walls: Mesh = mesh,
): MeshReport {
  const facts = solids.inspect(mesh);
  const expected = expectedVolume(samples);
  const bare = {
    method:
      merged === null && samples.sides === null ? ('stitched' as const) : ('boolean' as const),
    vertexCount: mesh.vertices.length / 3,
    triangleCount: mesh.triangles.length / 3,
    isClosed: facts.status === 'NoError' && facts.volume_mm3 > 0 && facts.parts === 1,
    parts: facts.parts,
    genus: facts.genus,
    expectedGenus: expectedGenus(samples),
    volume_mm3: facts.volume_mm3,
    ...expected,
    area_mm2: facts.area_mm2,
    crossings: countCrossings(walls),
  };
  return { ...bare, faults: findFaults(bare, facts.status, merged) };
}

/**
 * Handles of the plate: one for each way through it.
 *
 * Euler's number: outer surface 2; a channel's two ends take out two discs and put in a tube, -2; the
 * plenum's own surface adds 2 (disc, a sphere) or 0 (ring, a torus), and each of its k channels again
 * takes 2. The genus is half of what is missing to 2: the channels, less one for a disc.
 */
function expectedGenus({ channelCount, plate, sides }: PlateSamples): number {
  const isDisc = sides?.plenum?.innerRadius_mm === 0;
  return channelCount + plate.holes.length - (isDisc ? 1 : 0);
}

function expectedVolume(samples: PlateSamples): {
  expectedVolume_mm3: number;
  volumeTolerance_mm3: number;
} {
  const rings = plateRings(samples.plate);
  const thickness = samples.plate.thickness_mm;
  const plate = rings.area_mm2 * thickness;
  if (samples.sides !== null) {
    const own = sidedAir(samples);
    return {
      expectedVolume_mm3: plate - own,
      volumeTolerance_mm3: AIR_TOLERANCE.pocketed * own + ROUNDING * plate,
    };
  }
  const airOfShape = Float64Array.from(
    { length: samples.shapeCount },
    (_, m) => airVolume(samples, m) - toothVolume(samples, m),
  );
  let air = 0;
  let allowed = 0;
  for (const shape of samples.shapeOf) {
    const kind = samples.pockets[shape].length === 0 ? 'plain' : 'pocketed';
    air += airOfShape[shape];
    allowed += AIR_TOLERANCE[kind] * airOfShape[shape];
  }
  return {
    expectedVolume_mm3: plate - air,
    volumeTolerance_mm3: allowed + ROUNDING * plate,
  };
}

function findFaults(
  report: Omit<MeshReport, 'faults'>,
  status: string,
  merged: string | null,
): MeshFault[] {
  const faults: MeshFault[] = [];
  const add = (code: MeshFaultCode, message: string): void => {
    faults.push({ code, message });
  };
  if (merged !== null) add('merged', `The channels do not keep apart: ${merged}.`);
  if (status !== 'NoError') {
    add('notSolid', `The mesh kernel refuses the mesh: ${status}.`);
    return faults;
  }
  const { volume_mm3: volume, expectedVolume_mm3: wanted } = report;
  if (volume <= 0) add('insideOut', `The mesh is inside out: its volume is ${volume} mm3.`);
  if (report.parts !== 1)
    add('parts', `The mesh falls into ${report.parts} parts; a plate is one.`);
  if (report.genus !== report.expectedGenus) {
    add(
      'genus',
      `The mesh has genus ${report.genus}; its channels and holes make ${report.expectedGenus}.`,
    );
  }
  if (report.crossings > 0) {
    add(
      'crossing',
      `${report.crossings} pairs of triangles pass through each other; a solid has none.`,
    );
  }
  if (Math.abs(volume - wanted) > report.volumeTolerance_mm3) {
    add(
      'volume',
      `The mesh holds ${volume} mm3 and the design ${wanted}; ` +
        `${report.volumeTolerance_mm3} mm3 of difference is allowed.`,
    );
  }
  return faults;
}
