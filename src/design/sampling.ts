/**
 * Sampling: from a design to the packed arrays that measures, rasters and meshes read.
 *
 * Every channel is fitted once; each of its distinct standings (mirror, turn) becomes one shape.
 */
import { atan2, cosDeg, degrees, normalTurn, sinDeg } from './angles.ts';
import { writeBores } from './bores.ts';
import { stepArc, writeStations } from './centreline-stations.ts';
import { createCentreline, fitCentreline } from './centreline.ts';
import type { Channel, Design, Pocket } from './model.ts';
import { HULL_CORNERS, pocketBump, windowHull } from './pockets.ts';
import type { PlateSamples } from './samples.ts';
import { carryAxis, crossAxes, raiseRoof, startAxis } from './section-frames.ts';
import { hasSideEnd, sideEndsOf } from './side-ends.ts';
import { circumradius, sectionArea, sectionPerimeter } from './sections.ts';
import { teethOf } from './teeth.ts';

/** Samples in the making: the pockets of a shape are still brought into its frame. */
interface Draft extends PlateSamples {
  readonly pockets: Pocket[][];
  sides: PlateSamples['sides'];
  teeth: PlateSamples['teeth'];
}

/** Stations per shape inside the search loop. */
export const FAST_STATIONS = 32;

const line = createCentreline();
const startTangent = new Float64Array(3);
const axis = new Float64Array(3);

/**
 * Samples a design at equal arc steps, both ends included.
 *
 * The design must be valid (see `designFaults`): this function checks nothing.
 *
 * @param stations samples per shape, at least 2.
 * @param reuse samples no longer needed, whose memory may serve again.
 */
export function sampleDesign(
  design: Design,
  stations: number = FAST_STATIONS,
  reuse?: PlateSamples,
): PlateSamples {
  const samples = layOut(design, stations, reuse);
  let shape = 0;
  for (let c = 0; c < design.channels.length; c++) {
    const channel = design.channels[c];
    const base = shape;
    for (; shape < samples.shapeCount && samples.channelOfShape[shape] === c; shape++) {
      if (shape === base) traceCentreline(samples, shape, channel);
      else copyShape(samples, base, shape);
    }
    // Shapes are stood only now: all were copied from the first before it moved.
    for (let m = base; m < shape; m++) standShape(samples, m, channel);
  }
  samples.sides = sideEndsOf(samples, design);
  samples.teeth = teethOf(samples, design);
  return samples;
}

/** Finds the distinct shapes and makes the arrays. */
function layOut(design: Design, stations: number, reuse?: PlateSamples): Draft {
  let count = 0;
  for (const channel of design.channels) count += channel.placements.length;
  const shapeOf = integers(count, reuse?.shapeOf);
  const offset = numbers(2 * count, reuse?.offset_mm);
  const channelOfShape: number[] = [];
  standings.length = 0;
  let placed = 0;
  for (let c = 0; c < design.channels.length; c++) {
    const from = standings.length;
    const isShared = !hasSideEnd(design.channels[c]);
    for (const placement of design.channels[c].placements) {
      const turn_deg = normalTurn(placement.turn_deg);
      // Where a channel meets the rim depends on its place: nobody shares its shape.
      let shape = isShared ? from : standings.length;
      while (
        shape < standings.length &&
        (standings[shape].turn_deg !== turn_deg || standings[shape].mirrored !== placement.mirrored)
      ) {
        shape++;
      }
      if (shape === standings.length) {
        standings.push({ turn_deg, mirrored: placement.mirrored });
        channelOfShape.push(c);
      }
      shapeOf[placed] = shape;
      offset[2 * placed] = placement.x_mm;
      offset[2 * placed + 1] = placement.y_mm;
      placed++;
    }
  }
  const shapes = channelOfShape.length;
  const pocketStart = integers(shapes + 1, reuse?.pocketStart);
  pocketStart[0] = 0;
  for (let m = 0; m < shapes; m++) {
    pocketStart[m + 1] = pocketStart[m] + design.channels[channelOfShape[m]].pockets.length;
  }
  const pocketCount = pocketStart[shapes];
  const rows = shapes * stations;
  const owners = integers(shapes, reuse?.channelOfShape);
  owners.set(channelOfShape);
  const hasRoofs = design.channels.some(({ section }) => section.kind === 'teardrop');
  const own = reuse && !plain.has(reuse.twist) ? reuse : undefined;
  if (!hasRoofs && rows > plainRoof.length) growPlain(rows);
  const twist = hasRoofs ? numbers(2 * rows, own?.twist) : plainTwist.subarray(0, 2 * rows);
  if (!hasRoofs) plain.add(twist);
  return {
    plate: design.plate,
    stations,
    shapeCount: shapes,
    channelCount: count,
    shapeOf,
    offset_mm: offset,
    channelOfShape: owners,
    sections: channelOfShape.map((c) => design.channels[c].section),
    pockets: channelOfShape.map((c) => [...design.channels[c].pockets]),
    length_mm: numbers(shapes, reuse?.length_mm),
    point_mm: numbers(3 * rows, reuse?.point_mm),
    tangent: numbers(3 * rows, reuse?.tangent),
    first: numbers(3 * rows, reuse?.first),
    second: numbers(3 * rows, reuse?.second),
    bore_mm: numbers(rows, reuse?.bore_mm),
    roof: hasRoofs ? numbers(rows, own?.roof) : plainRoof.subarray(0, rows),
    curvature_per_mm: numbers(3 * rows, reuse?.curvature_per_mm),
    area_mm2: numbers(rows, reuse?.area_mm2),
    perimeter_mm: numbers(rows, reuse?.perimeter_mm),
    reach_mm: numbers(rows, reuse?.reach_mm),
    twist,
    pocketStart,
    pocketAxis: numbers(2 * pocketCount, reuse?.pocketAxis),
    pocketHull: numbers(2 * HULL_CORNERS * pocketCount, reuse?.pocketHull),
    sides: null,
    teeth: null,
  };
}

/**
 * Twist and roof of plates without teardrops: the same numbers for all of them, written once and
 * never again.
 */
let plainTwist = new Float64Array(0);
let plainRoof = new Float64Array(0);
/** Twists that are views of these. */
const plain = new WeakSet<Float64Array>();

function growPlain(rows: number): void {
  plainRoof = new Float64Array(2 * rows);
  plainTwist = Float64Array.from({ length: 4 * rows }, (_, i) => (i % 2 === 0 ? 1 : 0));
}

const standings: { turn_deg: number; mirrored: boolean }[] = [];

function numbers(length: number, old?: Float64Array): Float64Array {
  if (old && old.buffer.byteLength >= 8 * length) return new Float64Array(old.buffer, 0, length);
  return new Float64Array(length);
}

function integers(length: number, old?: Int32Array): Int32Array {
  if (old && old.buffer.byteLength >= 4 * length) return new Int32Array(old.buffer, 0, length);
  return new Int32Array(length);
}

/** Writes points, tangents, curvature, first axes, bores and length of a channel as drawn. */
function traceCentreline(samples: PlateSamples, shape: number, channel: Channel): void {
  const { stations, point_mm: point, tangent, curvature_per_mm: curvature } = samples;
  fitCentreline(line, channel);
  samples.length_mm[shape] = line.length_mm;
  const begin = 3 * shape * stations;
  stepArc(line, stations);
  writeStations(line, stations, point, tangent, curvature, begin);
  // The ends lie on the faces exactly, whatever rounding says.
  const end = begin + 3 * (stations - 1);
  const last = channel.points_mm[channel.points_mm.length - 1];
  for (let d = 0; d < 3; d++) {
    point[begin + d] = channel.points_mm[0][d];
    point[end + d] = last[d];
    startTangent[d] = tangent[begin + d];
  }
  startAxis(startTangent, channel.roll_deg, axis);
  for (let d = 0; d < 3; d++) samples.first[begin + d] = axis[d];
  carryAxis(point, tangent, samples.first, begin, stations);
  writeBores(channel.bore_mm, samples.bore_mm, shape * stations, stations);
}

function copyShape(samples: Draft, from: number, to: number): void {
  const s = samples.stations;
  samples.length_mm[to] = samples.length_mm[from];
  for (const array of [
    samples.point_mm,
    samples.tangent,
    samples.first,
    samples.curvature_per_mm,
  ]) {
    array.copyWithin(3 * to * s, 3 * from * s, 3 * (from + 1) * s);
  }
  samples.bore_mm.copyWithin(to * s, from * s, (from + 1) * s);
}

/** Mirrors and turns a traced shape, then fits its section and pockets. */
function standShape(samples: Draft, shape: number, channel: Channel): void {
  const { stations } = samples;
  const standing = standings[shape];
  const begin = 3 * shape * stations;
  if (standing.mirrored || standing.turn_deg !== 0) {
    const c = cosDeg(standing.turn_deg);
    const s = sinDeg(standing.turn_deg);
    const flip = standing.mirrored ? -1 : 1;
    turnRows(samples.point_mm, begin, stations, c, s, flip);
    turnRows(samples.tangent, begin, stations, c, s, flip);
    turnRows(samples.first, begin, stations, c, s, flip);
    turnRows(samples.curvature_per_mm, begin, stations, c, s, flip);
  }
  crossAxes(samples.tangent, samples.first, samples.second, begin, stations);
  const row = shape * stations;
  if (channel.section.kind === 'teardrop') {
    const { tangent, first, second, roof, twist } = samples;
    raiseRoof(samples.plate.build, tangent, first, second, roof, twist, row, stations);
  } else if (!plain.has(samples.twist)) {
    samples.roof.fill(0, row, row + stations);
    for (let k = row; k < row + stations; k++) {
      samples.twist[2 * k] = 1;
      samples.twist[2 * k + 1] = 0;
    }
  }
  writeSizes(samples, shape, channel);
  if (channel.pockets.length > 0) standPockets(samples, shape, channel, standing.mirrored);
}

function turnRows(
  rows: Float64Array,
  begin: number,
  stations: number,
  c: number,
  s: number,
  flip: number,
): void {
  for (let i = begin; i < begin + 3 * stations; i += 3) {
    const x = flip * rows[i];
    const y = rows[i + 1];
    rows[i] = c * x - s * y;
    rows[i + 1] = s * x + c * y;
  }
}

function writeSizes(samples: Draft, shape: number, channel: Channel): void {
  const { stations, bore_mm, roof, area_mm2, perimeter_mm, reach_mm } = samples;
  const { section } = channel;
  const row = shape * stations;
  // Area goes with the square of the bore: only a roof that comes and goes needs the full formula.
  let roofed = -1;
  let unitArea = 0;
  let unitPerimeter = 0;
  let unitReach = 0;
  for (let k = row; k < row + stations; k++) {
    if (roof[k] !== roofed) {
      roofed = roof[k];
      unitArea = sectionArea(section, 1, roofed);
      unitPerimeter = sectionPerimeter(section, 1, roofed);
      unitReach = circumradius(section, 1, roofed);
    }
    const d = bore_mm[k];
    area_mm2[k] = unitArea * d * d;
    perimeter_mm[k] = unitPerimeter * d;
    reach_mm[k] = unitReach * d;
  }
}

/** Brings pockets into the shape's frame and adds their depth to the reach. */
function standPockets(samples: Draft, shape: number, channel: Channel, mirrored: boolean): void {
  const { stations } = samples;
  const length_mm = samples.length_mm[shape];
  const row = shape * stations;
  const stood = samples.pockets[shape];
  for (let p = 0; p < stood.length; p++) {
    const pocket = channel.pockets[p];
    const middle = row + Math.round(Math.min(Math.max(pocket.at, 0), 1) * (stations - 1));
    const carried = mirrored ? -pocket.side_deg : pocket.side_deg;
    const turned = atan2(samples.twist[2 * middle + 1], samples.twist[2 * middle]);
    const side_deg = carried - degrees(turned);
    if (side_deg !== pocket.side_deg) stood[p] = { ...pocket, side_deg };
    const at = samples.pocketStart[shape] + p;
    samples.pocketAxis[2 * at] = cosDeg(side_deg);
    samples.pocketAxis[2 * at + 1] = sinDeg(side_deg);
    windowHull(pocket.width_deg, samples.pocketHull, 2 * HULL_CORNERS * at);
  }
  for (let k = 0; k < stations; k++) {
    const arc_mm = (length_mm * k) / (stations - 1);
    let bump = 0;
    for (const pocket of stood) bump = Math.max(bump, pocketBump(pocket, arc_mm, length_mm));
    samples.reach_mm[row + k] += bump;
  }
}
