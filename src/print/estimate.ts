/**
 * The fast form for the search loop: printing from closed forms at the stations.
 *
 * It sees channels one by one and does not see what they make together (islands, walls that meet).
 * How it ranks designs against the raster: experiments/bench/raster.
 */
import type { Process } from '../brief/index.ts';
import { END, outlineArea, outlineBounds, plenumVolume, toothVolume } from '../design/index.ts';
import type { Plate, PlateSamples } from '../design/index.ts';
import { finestOpening } from './finest.ts';
import { outlineSpans } from './outline-spans.ts';
import { overhangSine, plateOverhang } from './overhang.ts';
import { weakestShare } from './plane-sums.ts';
import { flatSpan_mm, plenumOverhang } from './plenum.ts';
import { addLayers, createPlan, hours, partPrice, printedMass } from './plan.ts';
import { ownMouth, pocketOverhang, pocketVolume } from './pocket-print.ts';
import type { PrintReport } from './report.ts';
import { weakestRow } from './row-cuts.ts';
import { sectionRoof } from './section-roof.ts';
import type { Roof } from './section-roof.ts';

/** What one shape adds for each of its placements. */
interface ShapeSums {
  void_mm3: number;
  overhang_mm2: number;
  supportArea_mm2: number;
  support_mm3: number;
  bridge_mm: number;
  /** Layers' worth of contours [mm of build height]. */
  contour_mm: number;
  port_mm2: number;
}

const roof: Roof = { length_mm: 0, width_mm: 0, flat_mm: 0, up: 0 };
const sums: ShapeSums = {
  void_mm3: 0,
  overhang_mm2: 0,
  supportArea_mm2: 0,
  support_mm3: 0,
  bridge_mm: 0,
  contour_mm: 0,
  port_mm2: 0,
};
let placements = new Int32Array(0);

/** Estimates what printing a plate takes; same fields and meaning as `rasterPrint`. */
export function estimatePrint(samples: PlateSamples, process: Process): PrintReport {
  const { plate, shapeCount } = samples;
  const edge = plate.build === 'edge';
  const box = outlineBounds(plate.outline);
  const height_mm = edge ? box.maxY_mm - box.minY_mm : plate.thickness_mm;
  const layers = Math.max(1, Math.round(height_mm / process.layerHeight_mm - 1e-9));
  const area_mm2 = outlineArea(plate.outline);
  const outer = plateOverhang(plate, process);
  let voids_mm3 = 0;
  for (const { diameter_mm: d } of plate.holes) {
    voids_mm3 += (Math.PI / 4) * d * d * plate.thickness_mm;
  }
  const holes_mm2 = voids_mm3 / plate.thickness_mm;
  let overhang_mm2 = outer.area_mm2;
  let supportArea_mm2 = edge ? outer.area_mm2 * Math.SQRT1_2 : 0;
  let footing_mm2 = 0;
  let support_mm3 = outer.support_mm3;
  let bridge_mm = 0;
  let contours = 1 + (edge ? holeHeights(plate) / height_mm : plate.holes.length);
  let ports_mm2 = 0;
  countPlacements(samples);
  const limitSine = overhangSine(process);
  for (let shape = 0; shape < shapeCount; shape++) {
    addShape(samples, shape, edge, process, limitSine);
    const n = placements[shape];
    voids_mm3 += n * sums.void_mm3;
    overhang_mm2 += n * sums.overhang_mm2;
    supportArea_mm2 += n * sums.supportArea_mm2;
    footing_mm2 += n * sums.supportArea_mm2;
    support_mm3 += n * sums.support_mm3;
    contours += (n * sums.contour_mm) / height_mm;
    ports_mm2 += n * sums.port_mm2;
    if (sums.bridge_mm > bridge_mm) bridge_mm = sums.bridge_mm;
  }
  const plenum = samples.sides?.plenum;
  if (plenum) {
    const hanging_mm2 = plenumOverhang(plenum, edge, limitSine);
    const flat_mm = edge
      ? 2 * plenum.outerRadius_mm
      : flatSpan_mm(samples, plenum, process.layerHeight_mm);
    voids_mm3 += plenumVolume(plenum);
    overhang_mm2 += hanging_mm2;
    // Without a flat top the flanks meet in a ridge that a line or two bridge.
    bridge_mm = Math.max(bridge_mm, flat_mm, edge ? 0 : process.lineWidth_mm);
    if (flat_mm > process.bridgeLimit_mm) {
      supportArea_mm2 += hanging_mm2;
      support_mm3 += hanging_mm2 * (plenum.top_mm - plenum.floor_mm);
    }
    const loops = plenum.innerRadius_mm > 0 ? 2 : 1;
    contours += (loops * (plenum.top_mm - plenum.floor_mm)) / height_mm;
  }
  const full_mm3 = area_mm2 * plate.thickness_mm;
  const volume_mm3 = Math.max(0, full_mm3 - voids_mm3);
  const plan = createPlan();
  let weakest: number | undefined;
  const layer_mm2 = volume_mm3 / height_mm;
  addLayers(plan, layers, layer_mm2, full_mm3 / height_mm, contours, process);
  const mass_g = printedMass(volume_mm3, process);
  const bed = edge ? footLength(plate, process.layerHeight_mm) : box.maxX_mm - box.minX_mm;
  return {
    form: 'estimate',
    layers,
    overhangArea_mm2: overhang_mm2,
    bridge_mm,
    newIslands: edge ? extraFeet(plate) : 0,
    contoursPerLayer: contours,
    supportArea_mm2,
    // Inside a channel support stands on the channel's own floor.
    supportFooting_mm2: footing_mm2,
    supportVolume_mm3: support_mm3,
    finestFeature_mm: finestOpening(samples, process),
    smallestIsland_mm2: null,
    // Nearly half of the whole estimate's time, and not every brief asks for it.
    get weakestSection() {
      weakest ??= Math.min(weakestShare(samples), weakestRow(samples));
      return weakest;
    },
    solidVolume_mm3: volume_mm3,
    mass_g,
    travel_mm: plan.travel_mm,
    retractions: plan.retractions,
    printTime_h: hours(plan.time_s),
    cost: partPrice(mass_g, plan.time_s, process),
    bedArea_mm2: edge ? bed * plate.thickness_mm : Math.max(0, area_mm2 - holes_mm2 - ports_mm2),
    bedLength_mm: bed,
  };
}

function countPlacements(samples: PlateSamples): void {
  if (placements.length < samples.shapeCount) placements = new Int32Array(2 * samples.shapeCount);
  placements.fill(0, 0, samples.shapeCount);
  for (let c = 0; c < samples.channelCount; c++) placements[samples.shapeOf[c]]++;
}

function addShape(
  samples: PlateSamples,
  shape: number,
  edge: boolean,
  process: Process,
  limitSine: number,
): void {
  const { stations, tangent, first, second, bore_mm, area_mm2, point_mm: point } = samples;
  const section = samples.sections[shape];
  const step = samples.length_mm[shape] / (stations - 1);
  const up = edge ? 1 : 2;
  const base = shape * stations;
  let volume = 0;
  let hanging = 0;
  let climbed = 0;
  let widest = 0;
  let low = Infinity;
  let high = -Infinity;
  sums.bridge_mm = 0;
  sums.support_mm3 = 0;
  sums.supportArea_mm2 = 0;
  for (let k = 0; k < stations; k++) {
    const row = base + k;
    const ds = k === 0 || k === stations - 1 ? 0.5 * step : step;
    const rise = tangent[3 * row + up];
    // A bore that narrows upwards leans its wall in: normal . up = c cos(phi) - R' t . up.
    const before = k === 0 ? row : row - 1;
    const after = k === stations - 1 ? row : row + 1;
    const taper = (0.5 * (bore_mm[after] - bore_mm[before])) / ((after - before) * step);
    const limit = limitSine * Math.sqrt(1 + taper * taper) + taper * rise;
    const here = point[3 * row + up];
    if (here < low) low = here;
    if (here > high) high = here;
    if (bore_mm[row] > widest) widest = bore_mm[row];
    volume += area_mm2[row] * ds;
    climbed += Math.abs(rise) * ds;
    if (limit * Math.abs(limit) >= 1 - rise * rise) continue;
    if (limit > 0) {
      sectionRoof(
        section,
        bore_mm[row],
        samples.roof[row],
        first[3 * row + up],
        second[3 * row + up],
        limit,
        roof,
      );
    } else closeIn(samples.perimeter_mm[row], bore_mm[row], rise, limit);
    if (roof.length_mm === 0) continue;
    hanging += roof.length_mm * ds;
    addSpan(bore_mm[row], Math.abs(rise), ds, limit, process);
  }
  sums.void_mm3 = samples.teeth === null ? volume : volume - toothVolume(samples, shape);
  sums.overhang_mm2 = hanging;
  // Flat, a layer meets a channel once per pass; on edge, over the height of its bore or its climb.
  // A lying channel that opens in the rim parts the layers over its bore.
  const parted = samples.sides === null ? climbed : Math.max(climbed, widest);
  sums.contour_mm = edge ? Math.max(widest, high - low) : parted;
  const isPort = samples.sides === null || samples.sides.kind[2 * shape] === END.face;
  sums.port_mm2 = !isPort ? 0 : area_mm2[base] / Math.max(0.1, Math.abs(tangent[3 * base + 2]));
  if (samples.pockets[shape].length > 0) addPockets(samples, shape, up, limitSine);
}

/** Roof of a bore that narrows upwards faster than its wall may lean: most of the perimeter or all. */
function closeIn(perimeter_mm: number, bore_mm: number, rise: number, limit: number): void {
  const across = Math.sqrt(Math.max(0, 1 - rise * rise));
  const share = across > -limit ? 0.5 - 0.5 * (limit / across) : 1;
  roof.length_mm = share * perimeter_mm;
  roof.width_mm = bore_mm;
  roof.flat_mm = 0;
  roof.up = across;
}

/**
 * Bridge and support of one station's roof.
 *
 * Lying, a curved roof closes in from both sides: carried up to half the bridge limit, its last
 * layers bridge about 2 sqrt(R h). Inclined, each layer's step spans the roof's width and is carried
 * up to the bridge limit. Between, a share by the rise.
 */
function addSpan(
  bore_mm: number,
  rise: number,
  ds: number,
  limitSine: number,
  process: Process,
): void {
  // Just beyond the limit the steps are too fine to part from the wall.
  const part = Math.min(1, (roof.up - limitSine) * PARTED - PARTED_FROM);
  if (part <= 0) return;
  const r = 0.5 * bore_mm;
  const inclined = Math.min(1, Math.max(0, (rise - LYING) / (INCLINED - LYING)));
  const curved = roof.width_mm - roof.flat_mm;
  const crown = Math.min(curved, 2 * Math.sqrt(r * process.layerHeight_mm));
  const bridge = part * (roof.flat_mm + crown + inclined * (curved - crown));
  if (bridge > sums.bridge_mm) sums.bridge_mm = bridge;
  const flat = roof.flat_mm > 0 ? 1 : inclined;
  const limit = process.bridgeLimit_mm * (0.5 + 0.5 * flat);
  if (roof.width_mm <= limit) return;
  const width = part * (roof.width_mm - (1 - flat) * limit);
  sums.supportArea_mm2 += width * ds;
  sums.support_mm3 += width * bore_mm * MEAN_DEPTH * ds;
}

// A roof parts from the wall between these normals beyond the limit (0.02 and 0.07: about 2 and 6
// degrees at 45), where two layers' steps begin to outrun the raster's covering discs.
const PARTED = 20;
const PARTED_FROM = 0.4;
// Rise of the centreline below which a channel counts as lying, above which as inclined.
const LYING = 0.2;
const INCLINED = 0.5;
// Mean depth of the void under a roof, as a share of the bore.
const MEAN_DEPTH = 0.9;

function addPockets(samples: PlateSamples, shape: number, up: number, limitSine: number): void {
  const { stations, tangent, first, second, bore_mm } = samples;
  const [pockets, length_mm] = [samples.pockets[shape], samples.length_mm[shape]];
  pockets.forEach((pocket, p) => {
    const axis = 2 * (samples.pocketStart[shape] + p);
    const [c, s] = [samples.pocketAxis[axis], samples.pocketAxis[axis + 1]];
    const half = 0.5 * (pocket.length_mm - Math.min(pocket.depth_mm, 0.5 * pocket.length_mm));
    for (let part = 0; part < POCKET_PARTS; part++) {
      const at = pocket.at + ((part - 1) * half) / length_mm;
      const row = shape * stations + Math.round(Math.min(1, Math.max(0, at)) * (stations - 1));
      const side = c * first[3 * row + up] + s * second[3 * row + up];
      const r = 0.5 * bore_mm[row];
      const rise = tangent[3 * row + up];
      const hanging = pocketOverhang(pocket, part - 1, r, rise, side, limitSine);
      sums.overhang_mm2 += hanging;
      if (hanging > 0) {
        const width = Math.min(pocket.length_mm, r * pocket.width_deg * (Math.PI / 360));
        if (width > sums.bridge_mm) sums.bridge_mm = width;
      }
      if (pocket.lip_mm !== undefined && part !== 1) {
        const lip = { ...pocket, length_mm: 2 * pocket.lip_mm, depth_mm: pocket.lip_mm };
        sums.overhang_mm2 += pocketOverhang(lip, part - 1, r, rise, side, limitSine);
      }
      if (part === 1) sums.void_mm3 += ownMouth(pockets, p, length_mm) * pocketVolume(pocket, r);
    }
  });
}

// Opening ramp, plateau, closing ramp.
const POCKET_PARTS = 3;

/** Total height of the mounting holes of a plate on edge [mm]. */
function holeHeights(plate: Plate): number {
  let sum = 0;
  for (const hole of plate.holes) sum += hole.diameter_mm;
  return sum;
}

const spans: number[] = [];

/** Length on which a plate on edge stands in its first layer [mm]. */
function footLength(plate: Plate, layer_mm: number): number {
  const y = outlineBounds(plate.outline).minY_mm + layer_mm / 2;
  const count = outlineSpans(plate.outline, y, spans);
  return count === 0 ? 0 : spans[2 * count - 1] - spans[0];
}

/** Lowest corners of a polygonal outline that hang above the bed: each begins as an island. */
function extraFeet(plate: Plate): number {
  const { outline } = plate;
  if (outline.kind !== 'polygon') return 0;
  const ys = outline.points_mm.map(([, y]) => y);
  const bottom = Math.min(...ys);
  let feet = 0;
  let turn = 0;
  const points = outline.points_mm;
  points.forEach(([x, y], i) => {
    const [px, py] = points[(i + points.length - 1) % points.length];
    turn += px * y - x * py;
  });
  for (let i = 0; i < ys.length; i++) {
    const y = ys[i];
    const before = points[(i + points.length - 1) % points.length];
    let next = (i + 1) % ys.length;
    while (ys[next] === y && next !== i) next = (next + 1) % ys.length;
    const after = points[next];
    const last = points[(next + ys.length - 1) % ys.length];
    if (y <= bottom || before[1] <= y || after[1] <= y) continue;
    // A corner turned outwards: the outline's solid lies above it.
    const cross =
      (last[0] - before[0]) * (after[1] - before[1]) -
      (last[1] - before[1]) * (after[0] - before[0]);
    if (cross * turn > 0) feet++;
  }
  return feet;
}
