/** The fast form of heat in a plate: layers parallel to the hot face, each of one temperature. */
import { outlineArea, outlineBounds, plenumVolume } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { cbrt, log } from '../../numeric/index.ts';
import {
  addStream,
  createLayerHeat,
  readTable,
  solveLayers,
  startLayers,
  tabulate,
} from '../../physics/index.ts';
import type { PlateStreams } from './heat-stream.ts';

/** Layers, and how much thicker each is than the one before it, seen from the hot face. */
const LAYERS = 20;
const GROWTH = 1.06;
/**
 * Solid further than this from every channel, in plate thicknesses, does not count: heat in it would
 * go sideways further than down. Own heuristic, looked at against the solved conduction.
 */
const SIDE_REACH = 0.5;
/** Least solid share of a layer, where channels fill it. */
const LEAST_SOLID = 0.02;

/** Bounds of the layers as shares of the thickness [LAYERS + 1]. */
const BOUNDS = layerBounds();
/** Place in layers over depth as a share of the thickness; 0 = middle of the first layer. */
const SPAN = BOUNDS.scale;
const PLACE = tabulate((u) => log(1 + u * SPAN) / log(GROWTH) - 0.5, 0, 1, 128);

function layerBounds(): { readonly at: Float64Array; readonly scale: number } {
  const at = new Float64Array(LAYERS + 1);
  let size = 1;
  for (let i = 0; i < LAYERS; i++) {
    at[i + 1] = at[i] + size;
    size *= GROWTH;
  }
  const all = at[LAYERS];
  for (let i = 0; i <= LAYERS; i++) at[i] /= all;
  return { at, scale: size - 1 };
}

interface LaidPlate {
  readonly conductance_W_per_K: number;
  readonly faceShare: number;
  readonly biot: number;
  /** Temperature share at equal depths from the hot face, both ends included. */
  readonly layerShare: (depth: number) => number;
}

const heat = createLayerHeat(LAYERS);
const solid = new Float64Array(LAYERS);
let place = new Float64Array(0);

/**
 * Solves the layers of a plate.
 *
 * Each layer's solid area is the area within reach of the channels less what the channels take in
 * it; between layers heat crosses half of each. Heat enters over the solid of the hot face through
 * the joint.
 *
 * Source: fin theory with one temperature per section (Harper & Brown 1922), air warming by
 * effectiveness (Kays & London 1984); reach sideways and the way to the wall: own heuristics, looked
 * at against the solved conduction (experiments/bench/heat).
 */
export function layPlate(
  samples: PlateSamples,
  streams: PlateStreams,
  isInlet: boolean,
  k_W_per_m_K: number,
  contact_m2K_per_W: number,
): LaidPlate {
  const { stations, shapeCount, plate } = samples;
  const steps = stations - 1;
  const thickness_m = plate.thickness_mm * 1e-3;
  if (place.length < shapeCount * steps) place = new Float64Array(shapeCount * steps);
  findPlaces(samples, isInlet);
  const served_m2 = servedArea(samples) * 1e-6;
  const wetted_m2 = takeVoids(samples, streams, served_m2, thickness_m, isInlet);
  let solid_m3 = 0;
  for (let i = 0; i < LAYERS; i++) {
    solid_m3 += solid[i] * (BOUNDS.at[i + 1] - BOUNDS.at[i]) * thickness_m;
  }
  let transfer = 0;
  for (let m = 0; m < shapeCount; m++) {
    for (let j = 0; j < steps; j++) {
      transfer += streams.count[m] * streams.capacity_W_per_K[m] * streams.units[m * steps + j];
    }
  }
  const biot = ((transfer / wetted_m2) * solid_m3) / (wetted_m2 * k_W_per_m_K);
  const { between_W_per_K: between } = heat;
  for (let i = 0; i + 1 < LAYERS; i++) {
    const { at } = BOUNDS;
    const above = (0.5 * (at[i + 1] - at[i])) / solid[i];
    const below = (0.5 * (at[i + 2] - at[i + 1])) / solid[i + 1];
    between[i] = k_W_per_m_K / ((above + below) * thickness_m);
  }
  const half_m = 0.5 * BOUNDS.at[1] * thickness_m;
  const face = solid[0] / (contact_m2K_per_W + half_m / k_W_per_m_K);
  startLayers(heat, face);
  for (const m of streams.order) {
    addStream(heat, {
      way: streams.way[m],
      count: streams.count[m],
      capacity_W_per_K: streams.capacity_W_per_K[m],
      steps,
      units: streams.units.subarray(m * steps, (m + 1) * steps),
      scale: slowing(samples, m, biot),
      place: place.subarray(m * steps, (m + 1) * steps),
    });
  }
  const conductance_W_per_K = solveLayers(heat, face);
  const share = Float64Array.from(heat.share);
  return {
    conductance_W_per_K,
    faceShare: 1 - (conductance_W_per_K * contact_m2K_per_W) / solid[0],
    biot,
    layerShare: (depth) => {
      const t = Math.min(LAYERS - 1, Math.max(0, readTable(PLACE, depth)));
      const low = Math.min(LAYERS - 2, Math.trunc(t));
      return share[low] + (t - low) * (share[low + 1] - share[low]);
    },
  };
}

/**
 * Share of a shape's heat transfer left by the way from a layer's middle to the wall.
 *
 *   1/(1 + Bi u^2)^(1/3),  u = mean of |dz/ds|
 *
 * A slab would ask for 1/(1 + Bi/3); wide walls of a poor conductor do better near the hot face,
 * hence the root. To channels that run along the hot face heat comes straight.
 */
function slowing(samples: PlateSamples, shape: number, biot: number): number {
  const { stations, point_mm, length_mm } = samples;
  let climbed = 0;
  for (let j = shape * stations; j < (shape + 1) * stations - 1; j++) {
    climbed += Math.abs(point_mm[3 * j + 5] - point_mm[3 * j + 2]);
  }
  const upright = climbed / length_mm[shape];
  return 1 / cbrt(1 + biot * upright * upright);
}

/**
 * How much nearer to the hot face a lying channel takes its heat than its middle, in radii: 2/pi
 * would be the mean of its near half alone. Own heuristic, set by experiments/bench/heat/rank.
 */
const NEAR_HALF = 0.25;

/**
 * Where every step takes its heat, in layers from the hot face: at its middle where it runs straight
 * down, nearer by some of its radius where it runs along: most comes in on the near side.
 */
function findPlaces(samples: PlateSamples, isInlet: boolean): void {
  const { stations, shapeCount, point_mm, tangent, area_mm2, plate } = samples;
  const perThickness = 1 / plate.thickness_mm;
  for (let m = 0, out = 0; m < shapeCount; m++) {
    for (let j = 0; j < stations - 1; j++, out++) {
      const row = m * stations + j;
      const depth = 0.5 * (point_mm[3 * row + 2] + point_mm[3 * row + 5]) * perThickness;
      const lying = 1 - tangent[3 * row + 2] * tangent[3 * row + 2];
      const nearer =
        lying > 1e-9 ? NEAR_HALF * lying * Math.sqrt(area_mm2[row] / Math.PI) * perThickness : 0;
      place[out] = readTable(PLACE, Math.max(0, (isInlet ? depth : 1 - depth) - nearer));
    }
  }
}

/**
 * Plate area that the channels can draw heat from [mm2]: no more than the outline holds, than the
 * box about the ports and a margin holds, and than the margins of the single ports together.
 */
function servedArea(samples: PlateSamples): number {
  const { plate, stations, offset_mm: offset } = samples;
  const box = outlineBounds(plate.outline);
  const outline = outlineArea(plate.outline);
  let whole = outline;
  for (const hole of plate.holes) {
    whole -= 0.25 * Math.PI * hole.diameter_mm * hole.diameter_mm;
  }
  const reach = SIDE_REACH * plate.thickness_mm;
  let near = 0;
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let n = 0; n < samples.channelCount; n++) {
    const first = samples.shapeOf[n] * stations;
    const middle = first + (stations >> 1);
    const last = first + stations - 1;
    const { area_mm2, perimeter_mm, point_mm } = samples;
    const radius = Math.sqrt(area_mm2[middle] / Math.PI);
    near += area_mm2[middle] + reach * (perimeter_mm[middle] + Math.PI * reach);
    // A channel that ends elsewhere than it begins (in the rim, say) lies over what is between.
    const dx = point_mm[3 * last] - point_mm[3 * first];
    const dy = point_mm[3 * last + 1] - point_mm[3 * first + 1];
    near += 2 * (reach + radius) * Math.sqrt(dx * dx + dy * dy);
    for (const row of [first, middle, last]) {
      const x = offset[2 * n] + point_mm[3 * row];
      const y = offset[2 * n + 1] + point_mm[3 * row + 1];
      minX = Math.min(minX, x - reach - radius);
      maxX = Math.max(maxX, x + reach + radius);
      minY = Math.min(minY, y - reach - radius);
      maxY = Math.max(maxY, y + reach + radius);
    }
  }
  const width = Math.min(maxX, box.maxX_mm) - Math.max(minX, box.minX_mm);
  const height = Math.min(maxY, box.maxY_mm) - Math.max(minY, box.minY_mm);
  // The ports are taken to fill their box as the plate fills its own.
  const filled = outline / ((box.maxX_mm - box.minX_mm) * (box.maxY_mm - box.minY_mm));
  return Math.min(whole, near, width * height * filled);
}

/** Adds a volume, even over the depths between two places, to the layers it passes. */
function spread(from: number, to: number, volume: number, isInlet: boolean): void {
  const a = Math.min(1, Math.max(0, isInlet ? from : 1 - from));
  const b = Math.min(1, Math.max(0, isInlet ? to : 1 - to));
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  const first = Math.min(LAYERS - 1, Math.trunc(readTable(PLACE, low) + 0.5));
  if (high - low < 1e-9) {
    solid[first] += volume;
    return;
  }
  const perDepth = volume / (high - low);
  let done = low;
  for (let i = first; done < high && i < LAYERS; i++) {
    const end = i === LAYERS - 1 ? high : Math.max(done, Math.min(high, BOUNDS.at[i + 1]));
    solid[i] += perDepth * (end - done);
    done = end;
  }
}

/** Fills `solid` with the solid area of each layer [m2]; returns the wetted area [m2]. */
function takeVoids(
  samples: PlateSamples,
  streams: PlateStreams,
  served_m2: number,
  thickness_m: number,
  isInlet: boolean,
): number {
  const { stations, shapeCount, area_mm2, perimeter_mm, length_mm, point_mm, plate } = samples;
  const steps = stations - 1;
  solid.fill(0);
  let wetted_mm2 = 0;
  for (let m = 0; m < shapeCount; m++) {
    const step = length_mm[m] / steps;
    for (let j = 0; j < steps; j++) {
      const row = m * stations + j;
      const volume = 0.5 * (area_mm2[row] + area_mm2[row + 1]) * step * streams.count[m];
      wetted_mm2 += 0.5 * (perimeter_mm[row] + perimeter_mm[row + 1]) * step * streams.count[m];
      const z = 3 * row + 2;
      spread(
        point_mm[z] / plate.thickness_mm,
        point_mm[z + 3] / plate.thickness_mm,
        volume,
        isInlet,
      );
    }
  }
  const plenum = samples.sides?.plenum;
  if (plenum) {
    const perThickness = 1 / plate.thickness_mm;
    const volume = plenumVolume(plenum);
    spread(plenum.floor_mm * perThickness, plenum.top_mm * perThickness, volume, isInlet);
  }
  for (let i = 0; i < LAYERS; i++) {
    const void_m2 = (solid[i] * 1e-9) / ((BOUNDS.at[i + 1] - BOUNDS.at[i]) * thickness_m);
    solid[i] = Math.max(LEAST_SOLID * served_m2, served_m2 - void_m2);
  }
  return wetted_mm2 * 1e-6;
}
