/** From a design to a checked, print-ready mesh. */
import { plenumDistance, plenumSection, sampleDesign, toothedSamples } from '../design/index.ts';
import type { Design, PlateSamples, Plenum } from '../design/index.ts';
import { channelCutters, plateBody } from './cutters.ts';
import { withSolids } from './kernel.ts';
import type { KernelOptions, Solids } from './kernel.ts';
import type { Mesh } from './mesh.ts';
import { plenumBody } from './plenum-body.ts';
import { judgeMesh } from './report.ts';
import type { MeshReport } from './report.ts';
import { strideFor } from './ring-stations.ts';
import { stitchShell } from './shell.ts';

export interface MeshOptions extends KernelOptions {
  /** Steps per turn of a round section; even, at least 8. */
  readonly sides?: number;
  /** Rings along a bent channel, both ends included, and more in tight bends; at least 4. */
  readonly stations?: number;
}

export const MESH_DEFAULTS = { sides: 24, stations: 32 } as const;

/** What lies deeper than this in the plenum is no wall [mm]. */
const WITHIN_MM = 0.01;

/** Samples per ring step where pockets ask for rings between, and at most in bends. */
const FINEST_STRIDE = 8;

export interface MeshedDesign {
  readonly mesh: Mesh;
  readonly report: MeshReport;
}

/** No solid can be made of a design at all. */
export class MeshError extends Error {
  override readonly name = 'MeshError';
}

/**
 * Watertight mesh of a design, with the kernel's check.
 *
 * Stitched directly where openings keep apart; otherwise, and where the check finds walls that
 * cross, the kernel cuts the channels out of the plate and the report carries a `merged` fault with
 * the reason. Plates with exits in the rim or a plenum are always cut. A mesh whose report has no faults is the solid the design describes.
 *
 * @throws MeshError when neither way gives a solid; RangeError for options out of range.
 */
export async function meshDesign(design: Design, options: MeshOptions = {}): Promise<MeshedDesign> {
  const { sides, stations } = { ...MESH_DEFAULTS, ...options };
  if (!Number.isInteger(sides) || sides < 8 || sides % 2 !== 0) {
    throw new RangeError(`sides is ${sides}; it must be an even whole number of at least 8.`);
  }
  if (!Number.isInteger(stations) || stations < 4) {
    throw new RangeError(`stations is ${stations}; it must be a whole number of at least 4.`);
  }
  const coarse = sampleDesign(design, stations);
  const hasPockets = design.channels.some((channel) => channel.pockets.length > 0);
  const stride = hasPockets ? FINEST_STRIDE : strideFor(coarse, FINEST_STRIDE);
  const samples = stride === 1 ? coarse : sampleDesign(design, (stations - 1) * stride + 1);
  return withSolids(options, (solids) => meshSamples(solids, samples, sides, stride));
}

function meshSamples(
  solids: Solids,
  samples: PlateSamples,
  sides: number,
  stride: number,
): MeshedDesign {
  if (samples.sides !== null) return cutSided(solids, samples, sides, stride);
  // Teeth bring rows of their own; then every row is a ring.
  const rows = toothedSamples(samples);
  const step = rows === samples ? stride : 1;
  const shell = stitchShell(rows, sides, step);
  let reason: string;
  if (shell.kind === 'shell') {
    const report = judgeMesh(solids, shell.mesh, samples, null);
    const crossing = report.faults.find((fault) => fault.code === 'crossing');
    if (crossing === undefined) return { mesh: shell.mesh, report };
    reason = `walls cross inside the plate (${report.crossings} pairs of triangles)`;
  } else {
    reason = shell.reason;
  }
  const body = plateBody(samples);
  const cutters = channelCutters(rows, sides, step);
  const mesh = body === null || cutters === null ? null : solids.difference(body, cutters);
  if (mesh === null) {
    throw new MeshError(
      `No solid can be made of this design: ${reason}; cutting the channels out failed as well. ` +
        'Move the channels apart and away from the edge.',
    );
  }
  return { mesh, report: judgeMesh(solids, mesh, samples, reason) };
}

/** A plate with ends in the rim or in a plenum: walls and faces do not share rings, so it is cut. */
function cutSided(
  solids: Solids,
  samples: PlateSamples,
  sides: number,
  stride: number,
): MeshedDesign {
  const body = plateBody(samples);
  const tubes = channelCutters(samples, sides, stride);
  const plenum = samples.sides?.plenum ?? null;
  const mesh =
    body === null || tubes === null
      ? null
      : solids.difference(body, plenum ? [...tubes, plenumBody(plenum)] : tubes);
  if (mesh === null) {
    throw new MeshError(
      'No solid can be made of this design: cutting the channels out failed. ' +
        'Move the channels apart and let their ends cross the rim squarely.',
    );
  }
  const walls = tubesOutside(tubes ?? [], plenum);
  return { mesh, report: judgeMesh(solids, mesh, samples, null, walls) };
}

/**
 * The tubes as one mesh, without what they reach into the plenum: there they may cross.
 */
function tubesOutside(tubes: readonly Mesh[], plenum: Plenum | null): Mesh {
  const section = plenum ? plenumSection(plenum) : null;
  const way = new Float64Array(3);
  const vertices: number[] = [];
  const triangles: number[] = [];
  for (const tube of tubes) {
    const from = vertices.length / 3;
    for (const value of tube.vertices) vertices.push(value);
    const isWithin = (index: number): boolean => {
      const [x, y, z] = tube.vertices.subarray(3 * index, 3 * index + 3);
      return section !== null && plenumDistance(section, x, y, z, way) < -WITHIN_MM;
    };
    for (let t = 0; t < tube.triangles.length; t += 3) {
      const corners = tube.triangles.subarray(t, t + 3);
      if (section !== null && corners.some((index) => isWithin(index))) continue;
      for (const index of corners) triangles.push(from + index);
    }
  }
  return { vertices: Float32Array.from(vertices), triangles: Uint32Array.from(triangles) };
}
