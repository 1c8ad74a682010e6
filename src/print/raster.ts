/**
 * The exact form: every layer of the plate drawn in pixels of half a line width or finer.
 *
 * 120 x 120 x 20 mm at 0.2 mm with 150 bent channels: see experiments/bench/raster.
 */
import type { Process } from '../brief/index.ts';
import { builtSamples, outlineArea } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { judgeSpans } from './bridges.ts';
import type { Spans } from './bridges.ts';
import { openCanvas } from './canvas-kernel.ts';
import type { Canvas } from './canvas.ts';
import { finestOpening } from './finest.ts';
import { drawPlate, layGrid } from './grid.ts';
import type { FullSections, Grid } from './grid.ts';
import { overhangSine, plateOverhang, wallOverhang } from './overhang.ts';
import { carvePlenum, plenumOverhang } from './plenum.ts';
import { addLayers, createPlan, hours, partPrice, printedMass } from './plan.ts';
import type { LayerTable, PrintReport } from './report.ts';
import { createRings, writeRings } from './rings.ts';
import { rasterRowCuts } from './row-raster.ts';
import { extentOf } from './runs.ts';
import type { Runs } from './runs.ts';
import { createSupportNeeds, dropSupport, noteNeeds } from './support.ts';
import { coveringDiscs } from './unsupported.ts';
import type { Touched } from './unsupported.ts';

// One worker rasters one design at a time; its memory serves the next.
const rings = createRings();
const needs = createSupportNeeds();
const touched: Touched = { firstRow: 0, lastRow: -1 };
const spans: Spans = { bridge_px: 0, support: 0 };
let marked = new Int32Array(0);
let pieceLoose = new Int32Array(0);

/**
 * Draws a plate layer by layer in its build direction and reports what printing it takes.
 *
 * Lengths and areas of the raster carry its pixel; the overhanging area comes from the wall's own
 * triangles and does not. Volume and mass are the plate's volume times the share of solid pixels.
 *
 * @param keep table to fill with per-layer figures, see `createLayerTable`.
 * @param open makes the canvas; the plain one comes to the same report.
 */
export function rasterPrint(
  drawn: PlateSamples,
  process: Process,
  keep: LayerTable | null = null,
  open: typeof openCanvas = openCanvas,
): PrintReport {
  const samples = builtSamples(drawn);
  const { plate } = samples;
  const grid = layGrid(plate, process);
  const canvas = open(grid, samples.stations, coveringDiscs(grid.step_px).two.length);
  const { solid } = canvas;
  if (marked.length < grid.layerWords) marked = new Int32Array(grid.layerWords);
  const full = drawPlate(plate, grid, solid);
  const overhang_mm2 = carveAll(samples, process, canvas) + plateOverhang(plate, process).area_mm2;
  const sums = sumLayers(canvas, process, full, keep);
  const pixel_mm2 = grid.pixel_mm * grid.pixel_mm;
  const voxel_mm3 = pixel_mm2 * grid.layer_mm;
  const dropped = dropSupport(grid, solid, needs, marked, keep ? keep.support_mm2 : null);
  if (keep) for (let k = 0; k < grid.layers; k++) keep.support_mm2[k] *= pixel_mm2;
  const volume_mm3 =
    outlineArea(plate.outline) * plate.thickness_mm * (sums.solid / Math.max(1, sums.full));
  const mass_g = printedMass(volume_mm3, process);
  return {
    form: 'raster',
    layers: grid.layers,
    overhangArea_mm2: overhang_mm2,
    bridge_mm: sums.bridge_px * grid.pixel_mm,
    newIslands: sums.newIslands,
    contoursPerLayer: sums.contours / grid.layers,
    supportArea_mm2: sums.support * pixel_mm2,
    supportFooting_mm2: needs.footing * pixel_mm2,
    supportVolume_mm3: dropped * voxel_mm3,
    finestFeature_mm: finestOpening(samples, process),
    smallestIsland_mm2: sums.smallest * pixel_mm2,
    weakestSection: Math.min(
      sums.weakest,
      rasterRowCuts(samples, grid, canvas.spreadRuns.bind(canvas)),
    ),
    solidVolume_mm3: volume_mm3,
    mass_g,
    travel_mm: sums.plan.travel_mm,
    retractions: sums.plan.retractions,
    printTime_h: hours(sums.plan.time_s),
    cost: partPrice(mass_g, sums.plan.time_s, process),
    bedArea_mm2: sums.bed * pixel_mm2,
    bedLength_mm: sums.bedLength * grid.pixel_mm,
  };
}

/**
 * The layers of a plate as bitmaps, solid where a bit is set; they stand in shared memory until the
 * next plate is drawn.
 */
export function drawLayers(
  drawn: PlateSamples,
  process: Process,
): { readonly grid: Grid; readonly solid: Int32Array } {
  const samples = builtSamples(drawn);
  const grid = layGrid(samples.plate, process);
  const canvas = openCanvas(grid, samples.stations, coveringDiscs(grid.step_px).two.length);
  drawPlate(samples.plate, grid, canvas.solid);
  carveAll(samples, process, canvas);
  return canvas;
}

/** Empty table of per-layer figures for a plate. */
export function createLayerTable(samples: PlateSamples, process: Process): LayerTable {
  const { layers, layer_mm } = layGrid(samples.plate, process);
  return {
    height_mm: Float64Array.from({ length: layers }, (_, k) => (k + 0.5) * layer_mm),
    area_mm2: new Float64Array(layers),
    contours: new Int32Array(layers),
    islands: new Int32Array(layers),
    newIslands: new Int32Array(layers),
    unsupported_mm2: new Float64Array(layers),
    support_mm2: new Float64Array(layers),
  };
}

/** Clears every channel from the layers; returns the overhanging wall area [mm2]. */
function carveAll(samples: PlateSamples, process: Process, canvas: Canvas): number {
  const { grid } = canvas;
  const limitSine = overhangSine(process);
  let area = 0;
  for (let shape = 0; shape < samples.shapeCount; shape++) {
    writeRings(samples, shape, rings);
    canvas.setWall(rings);
    const hanging = wallOverhang(rings, grid.edge, samples.plate.thickness_mm, limitSine);
    for (let c = 0; c < samples.channelCount; c++) {
      if (samples.shapeOf[c] !== shape) continue;
      area += hanging;
      const { offset_mm: offset } = samples;
      canvas.carve(offset[2 * c], offset[2 * c + 1]);
    }
  }
  const plenum = samples.sides?.plenum;
  if (plenum) {
    carvePlenum(grid, plenum, canvas.solid);
    area += plenumOverhang(plenum, grid.edge, limitSine);
  }
  return area;
}

interface LayerSums {
  plan: ReturnType<typeof createPlan>;
  solid: number;
  full: number;
  bridge_px: number;
  newIslands: number;
  contours: number;
  support: number;
  smallest: number;
  weakest: number;
  bed: number;
  bedLength: number;
}

// A cut plane counts when it meets at least this share of the largest full section: the last tip of
// a round plate carries nothing.
const LEAST_SECTION = 0.1;

function sumLayers(
  canvas: Canvas,
  process: Process,
  full: FullSections,
  keep: LayerTable | null,
): LayerSums {
  const { grid, solid, unsupported, runs, row, column, bridging } = canvas;
  const { rows, words, columns, layers, pixel_mm } = grid;
  const pixel_mm2 = pixel_mm * pixel_mm;
  const discs = coveringDiscs(grid.step_px);
  const leastIsland = (process.lineWidth_mm * process.lineWidth_mm) / pixel_mm2 - 1e-9;
  const limits = {
    spare: leastIsland - 1,
    // Deeper than two lines it is a floor, no hem.
    hem_px: (2 * process.lineWidth_mm) / pixel_mm + 1e-9,
    bridge_px: process.bridgeLimit_mm / pixel_mm + 1e-9,
    closing_px: process.bridgeLimit_mm / 2 / pixel_mm + 1e-9,
  };
  const layerArea = new Float64Array(layers);
  const sums: LayerSums = {
    plan: createPlan(),
    solid: 0,
    full: 0,
    bridge_px: 0,
    newIslands: 0,
    contours: 0,
    support: 0,
    smallest: Infinity,
    weakest: 1,
    bed: 0,
    bedLength: 0,
  };
  needs.count = 0;
  for (let layer = 0; layer < layers; layer++) {
    // Straight channels repeat a layer: its pieces stay, and nothing of it is new.
    const isSame = canvas.readLayer(layer);
    const area = canvas.addRuns();
    const { pieceSize } = canvas;
    layerArea[layer] = area;
    const contours = 2 * runs.pieces - runs.count + runs.touches;
    let isLoose = false;
    let isNew = 0;
    if (layer === 0) {
      sums.bed = area;
      sums.bedLength = extentOf(runs);
    } else if (!isSame) {
      canvas.findUnsupported(layer, discs, touched);
      if (touched.lastRow >= 0) {
        const judge = (direction: number): void =>
          canvas.judgeLines(layer, touched, limits, direction);
        judgeSpans(
          grid,
          solid,
          layer,
          unsupported,
          touched,
          limits,
          bridging,
          marked,
          spans,
          judge,
        );
        sums.bridge_px = Math.max(sums.bridge_px, spans.bridge_px);
        sums.support += spans.support;
        if (spans.support > 0) {
          noteNeeds(needs, marked, touched.firstRow * words, (touched.lastRow + 1) * words, layer);
        }
        isLoose = true;
      }
    }
    const looseArea = isLoose ? sizeLoose(rows, runs, bridging.runs) : 0;
    for (let i = 0; i < runs.count; i++) {
      if (runs.piece[i] !== i || pieceSize[i] < leastIsland) continue;
      if (pieceSize[i] < sums.smallest) sums.smallest = pieceSize[i];
      if (isLoose && pieceLoose[i] === pieceSize[i]) isNew++;
    }
    sums.newIslands += isNew;
    sums.contours += contours;
    sums.solid += area;
    sums.full += full.layer[layer];
    const span_mm2 = full.layer[layer] * pixel_mm2;
    addLayers(sums.plan, 1, area * pixel_mm2, span_mm2, contours, process);
    if (keep) {
      keep.area_mm2[layer] = area * pixel_mm2;
      keep.contours[layer] = contours;
      keep.islands[layer] = runs.pieces;
      keep.newIslands[layer] = isNew;
      keep.unsupported_mm2[layer] = looseArea * pixel_mm2;
    }
  }
  if (sums.smallest === Infinity) sums.smallest = 0;
  for (let i = 1; i < columns; i++) column[i] += column[i - 1];
  sums.weakest = Math.min(
    leastShare(column, full.column),
    leastShare(row, full.row),
    leastShare(layerArea, full.layer),
  );
  return sums;
}

/** Unsupported pixels of each piece; returns all of them. */
function sizeLoose(rows: number, runs: Runs, loose: Runs): number {
  const { to, rowStart, piece, count } = runs;
  if (pieceLoose.length < count) pieceLoose = new Int32Array(2 * count);
  pieceLoose.fill(0, 0, count);
  let total = 0;
  for (let r = 0; r < rows; r++) {
    let i = rowStart[r];
    for (let l = loose.rowStart[r]; l < loose.rowStart[r + 1]; l++) {
      // Every unsupported run lies within one run of the solid.
      while (to[i] <= loose.from[l]) i++;
      const length = loose.to[l] - loose.from[l];
      pieceLoose[piece[i]] += length;
      total += length;
    }
  }
  return total;
}

function leastShare(section: Float64Array, full: Float64Array): number {
  let most = 0;
  for (let i = 0; i < full.length; i++) most = Math.max(most, full[i]);
  let least = 1;
  for (let i = 0; i < full.length; i++) {
    if (full[i] > LEAST_SECTION * most) least = Math.min(least, section[i] / full[i]);
  }
  return least;
}
