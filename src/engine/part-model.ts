/** A part as triangles to look at, and what they are coloured by. */
import type { Brief } from '../brief/index.ts';
import { outlinePolygon, sampleDesign } from '../design/index.ts';
import type { Design } from '../design/index.ts';
import { dustAnalysis, flowAnalysis } from '../measures/index.ts';
import type { Assessment } from '../measures/index.ts';
import { asin, degrees } from '../numeric/index.ts';
import { createLayerBook } from '../print/index.ts';
import type { LayerBook } from '../print/index.ts';
import {
  airBody,
  createWallFinder,
  rayThickness,
  refineMesh,
  sharpEdges,
  unitNormals,
} from '../solids/index.ts';
import type { Mesh } from '../solids/index.ts';
import { STATIONS, assessDesign } from './evaluator.ts';
import { solid } from './solid.ts';

/** A body as loose triangles, small enough to carry one colour each. */
export interface ShownBody {
  /** x y z of the three corners [t x 9] [mm]. */
  readonly corners: Float32Array;
  /** Ends of the edges worth drawing [e x 6] [mm]. */
  readonly edges: Float32Array;
}

export interface PartModel {
  readonly part: ShownBody;
  /** Channels, pockets and plenum; null when they could not be told from the plate. */
  readonly air: ShownBody | null;
  /** Corners of the plate's outline, x y each [mm]. */
  readonly outline: Float32Array;
  /** What is wrong with the mesh, in words. */
  readonly faults: readonly string[];
}

/** What the triangles of a body can be coloured by. */
export type ShadeKind = 'velocity' | 'thickness' | 'overhang' | 'dust';
export type BodyKind = 'part' | 'air';

/** Steps of a round bore: as the printed mesh. */
const SIDES = 24;
/** Longest edge that shows a field at all; shorter ones to try while triangles are few enough [mm]. */
const COARSEST_MM = 6;
const FINER_MM = [4, 2.8, 2, 1.4, 1];
const MOST_TRIANGLES = 160_000;
const OUTLINE_TOLERANCE_MM = 0.02;

/** @throws RunError when no solid can be made of a design. */
export async function modelPart(name: string, design: Design): Promise<PartModel> {
  const { mesh, report } = await solid(name, design, { sides: SIDES });
  const air = await airBody(sampleDesign(design, 2), mesh);
  return {
    part: shown(mesh),
    air: air === null ? null : shown(air),
    outline: Float32Array.from(
      outlinePolygon(design.plate.outline, OUTLINE_TOLERANCE_MM).flatMap(([x, y]) => [x, y]),
    ),
    faults: report.faults.map((fault) => fault.message),
  };
}

function shown(mesh: Mesh): ShownBody {
  const { vertices, triangles } = fineEnough(mesh);
  const corners = new Float32Array(3 * triangles.length);
  for (let k = 0; k < triangles.length; k++) {
    corners.set(vertices.subarray(3 * triangles[k], 3 * triangles[k] + 3), 3 * k);
  }
  return { corners, edges: sharpEdges(mesh) };
}

/** Split as finely as the number of triangles allows. */
function fineEnough(mesh: Mesh): Mesh {
  let fine = refineMesh(mesh, COARSEST_MM);
  for (const longest_mm of FINER_MM) {
    const finer = refineMesh(fine, longest_mm);
    if (finer.triangles.length > 3 * MOST_TRIANGLES) break;
    fine = finer;
  }
  return fine;
}

/**
 * A value per triangle of a body; NaN where the quantity has none, such as velocity on the rim.
 *
 * - velocity: flow over the channel's section without pockets at the design flow [m/s].
 * - thickness: way straight into the part until it ends [mm]; the part only.
 * - overhang: how far a surface that faces the bed leans out from plumb, 90 for a ceiling [deg];
 *   NaN for plumb walls, surfaces that face up, and the bed itself.
 * - dust: share of its channel's dust that a pocket keeps, or else that all bare walls of the
 *   channel keep together [0..1].
 *
 * @param corners of `ShownBody`.
 */
export function shadeBody(
  brief: Brief,
  design: Design,
  body: BodyKind,
  corners: Float32Array,
  shade: ShadeKind,
): Float32Array {
  const mesh: Mesh = {
    vertices: corners,
    triangles: Uint32Array.from({ length: corners.length / 3 }, (_, k) => k),
  };
  switch (shade) {
    case 'thickness':
      return body === 'part' ? rayThickness(mesh) : new Float32Array(corners.length / 9).fill(NaN);
    case 'overhang':
      return overhangs(mesh, design, body, brief.process.layerHeight_mm);
    case 'velocity':
    case 'dust': {
      const assessment = assessDesign(brief, design, 'exact');
      return onWalls(
        assessment,
        corners,
        shade === 'dust' ? dustOf(assessment) : speedOf(assessment),
      );
    }
    default: {
      const never: never = shade;
      return never;
    }
  }
}

/** A value by shape, station and pocket (-1: bare wall). */
type WallValue = (shape: number, station: number, pocket: number) => number;

function onWalls(assessment: Assessment, corners: Float32Array, value: WallValue): Float32Array {
  const { samples } = assessment;
  const finder = createWallFinder(samples);
  const place = { channel: -1, shape: 0, station: 0, pocket: -1 };
  const out = new Float32Array(corners.length / 9).fill(NaN);
  const middle = new Float64Array(3);
  for (let t = 0; t < out.length; t++) {
    for (let d = 0; d < 3; d++) {
      const i = 9 * t + d;
      middle[d] = (corners[i] + corners[i + 3] + corners[i + 6]) / 3;
    }
    finder.find(middle[0], middle[1], middle[2], place);
    if (place.channel >= 0) out[t] = value(place.shape, place.station, place.pocket);
  }
  return out;
}

function speedOf(assessment: Assessment): WallValue {
  const { samples } = assessment;
  const flow = assessment.get(flowAnalysis);
  return (shape, station) =>
    flow.shapeFlow_m3_per_s[shape] / (samples.area_mm2[shape * samples.stations + station] * 1e-6);
}

function dustOf(assessment: Assessment): WallValue {
  const { samples } = assessment;
  const flow = assessment.get(flowAnalysis);
  const dust = assessment.get(dustAnalysis);
  const weight = new Float64Array(samples.shapeCount);
  let total = 0;
  for (const shape of samples.shapeOf) {
    weight[shape] += flow.shapeFlow_m3_per_s[shape];
    total += flow.shapeFlow_m3_per_s[shape];
  }
  const { pocketStart } = samples;
  // `pocketShare` is of all the plate's dust: a channel gets its dust by its share of the flow.
  const own = (shape: number, pocket: number): number =>
    (dust.pocketShare[pocketStart[shape] + pocket] * total) / weight[shape];
  const bare = Float64Array.from({ length: samples.shapeCount }, (_, shape) => {
    let left = dust.shapeCapture[shape];
    for (let p = 0; p < samples.pockets[shape].length; p++) left -= own(shape, p);
    return Math.max(0, left);
  });
  return (shape, _station, pocket) => (pocket < 0 ? bare[shape] : own(shape, pocket));
}

/** Sine of half a degree: a plumb wall leans by what 32-bit corners round. */
const LEAST_LEAN = 0.0087;

function overhangs(mesh: Mesh, design: Design, body: BodyKind, layer_mm: number): Float32Array {
  const up = design.plate.build === 'edge' ? 1 : 2;
  const { vertices } = mesh;
  const normals = unitNormals(mesh);
  let bed = Infinity;
  let top = -Infinity;
  for (let k = up; k < vertices.length; k += 3) {
    bed = Math.min(bed, vertices[k]);
    top = Math.max(top, vertices[k]);
  }
  return Float32Array.from({ length: vertices.length / 9 }, (_, t) => {
    const down = (body === 'part' ? -1 : 1) * normals[3 * t + up];
    if (!(down > LEAST_LEAN)) return NaN;
    const height = (vertices[9 * t + up] + vertices[9 * t + 3 + up] + vertices[9 * t + 6 + up]) / 3;
    // The bed carries the lowest layer; the air's topmost faces are its ports.
    if (height < bed + layer_mm || (body === 'air' && height > top - layer_mm)) return NaN;
    return degrees(asin(Math.min(1, down)));
  });
}

/** The layers of a design as it prints, to leaf through. */
export function layersOf(brief: Brief, design: Design): LayerBook {
  return createLayerBook(sampleDesign(design, STATIONS.exact), brief.process);
}
