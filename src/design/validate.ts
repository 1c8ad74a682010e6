/** Geometric sanity of a design, checked at the door: design files and hand-made plates. */
import { fault } from '../brief/index.ts';
import type { Fault } from '../brief/index.ts';
import type { Channel, Design, Plate, Section } from './model.ts';
import { insideDistance } from './outline.ts';
import { POLYGON_SIDES } from './sections.ts';
import { lipFaults, toothFaults } from './validate-walls.ts';
import { plenumFaults, sideEndFaults } from './validate-side.ts';
import type { Report } from './validate-side.ts';

/** A face is met when the centreline ends within this distance of it [mm]. */
const FACE_TOLERANCE_MM = 1e-6;
const MOST_CHANNELS = 2000;
const MOST_POINTS = 200;
const MOST_POCKETS = 20;
/** Points closer than this give a spline no direction [mm]. */
const LEAST_STEP_MM = 0.001;

/**
 * All faults of a design: numbers that are not finite, channels that do not run from face to face,
 * bores and sizes out of range. An empty list means that it can be sampled. Whether it is a good
 * design (walls, overlaps) is for the measures to say.
 */
export function designFaults(design: Design): Fault[] {
  const faults: Fault[] = [];
  const report: Report = (path, found, allowed, remedy) => {
    faults.push(fault(path, found, allowed, remedy));
  };
  plateFaults(design.plate, report);
  plenumFaults(design, report);
  let placed = 0;
  design.channels.forEach((channel, i) => {
    channelFaults(channel, design, `channels[${i}]`, report);
    placed += channel.placements.length;
  });
  if (placed === 0 || placed > MOST_CHANNELS) {
    const remedy = placed === 0 ? 'A vent plate needs an opening.' : 'Use fewer, larger channels.';
    report('channels', `${placed} channels in all`, `hold 1 to ${MOST_CHANNELS}`, remedy);
  }
  return faults;
}

function between(
  path: string,
  value: number,
  low: number,
  high: number,
  report: Report,
  remedy = '',
): void {
  if (value >= low && value <= high) return;
  report(path, String(value), `lie between ${low} and ${high}`, remedy);
}

function plateFaults(plate: Plate, report: Report): void {
  between('plate.thickness_mm', plate.thickness_mm, 0.8, 60, report);
  between('plate.rim_mm', plate.rim_mm, 0, 100, report);
  plate.holes.forEach((hole, i) => {
    const path = `plate.holes[${i}]`;
    between(`${path}.diameter_mm`, hole.diameter_mm, 0.5, 50, report);
    const room = insideDistance(plate.outline, hole.x_mm, hole.y_mm) - 0.5 * hole.diameter_mm;
    if (!(room > 0)) {
      report(path, `${-room} mm through the outline`, 'lie within it', 'Move or shrink the hole.');
    }
  });
}

function channelFaults(channel: Channel, design: Design, path: string, report: Report): void {
  const isSound = courseFaults(channel, design.plate, `${path}.points_mm`, report);
  for (const end of ['inlet', 'outlet'] as const) {
    const isFace = (channel[end] ?? 'face') === 'face';
    directionFaults(channel[`${end}Direction`], isFace, `${path}.${end}Direction`, report);
    if (isSound) sideEndFaults(channel, design, end, path, report);
  }
  sectionFaults(channel.section, `${path}.section`, report);
  const bores = channel.bore_mm.length;
  if (bores === 0 || bores > MOST_POINTS) {
    report(`${path}.bore_mm`, `a list of ${bores}`, `hold 1 to ${MOST_POINTS} bores`, '');
  }
  channel.bore_mm.forEach((bore, i) => between(`${path}.bore_mm[${i}]`, bore, 0.2, 200, report));
  between(`${path}.roll_deg`, channel.roll_deg, -3600, 3600, report);
  pocketFaults(channel, path, report);
  lipFaults(channel, path, report);
  toothFaults(channel, `${path}.teeth`, report);
  channel.placements.forEach((placement, i) => {
    const at = `${path}.placements[${i}]`;
    between(`${at}.x_mm`, placement.x_mm, -1000, 1000, report);
    between(`${at}.y_mm`, placement.y_mm, -1000, 1000, report);
    between(`${at}.turn_deg`, placement.turn_deg, -3600, 3600, report);
  });
}

/** @returns whether the points can be looked at any further. */
function courseFaults(channel: Channel, plate: Plate, path: string, report: Report): boolean {
  const points = channel.points_mm;
  if (points.length < 2 || points.length > MOST_POINTS) {
    report(path, `a list of ${points.length}`, `hold 2 to ${MOST_POINTS} points`, '');
    return false;
  }
  let finite = true;
  points.forEach((point, i) => {
    point.forEach((value, d) => {
      if (Math.abs(value) <= 1000) return;
      finite = false;
      between(`${path}[${i}][${d}]`, value, -1000, 1000, report);
    });
  });
  if (!finite) return false;
  for (let i = 1; i < points.length; i++) {
    const [dx, dy, dz] = points[i].map((value, k) => value - points[i - 1][k]);
    const gap = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (gap < LEAST_STEP_MM) {
      const found = `${gap} mm from the point before`;
      report(`${path}[${i}]`, found, `lie at least ${LEAST_STEP_MM} mm from it`, 'Drop one.');
    }
  }
  const end = points.length - 1;
  for (const [i, z] of [
    [0, 0],
    [end, plate.thickness_mm],
  ]) {
    if (((i === 0 ? channel.inlet : channel.outlet) ?? 'face') !== 'face') continue;
    if (Math.abs(points[i][2] - z) > FACE_TOLERANCE_MM) {
      const face = i === 0 ? 'inlet' : 'outlet';
      const remedy = `A channel ${i === 0 ? 'starts' : 'ends'} on the ${face} face.`;
      report(`${path}[${i}]`, `at z = ${points[i][2]}`, `lie at z = ${z}`, remedy);
    }
  }
  return true;
}

function directionFaults(
  direction: readonly [number, number, number] | null,
  isFace: boolean,
  path: string,
  report: Report,
): void {
  if (direction === null) return;
  const [x, y, z] = direction;
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(Math.abs(length - 1) <= 1e-6)) {
    report(path, `of length ${length}`, 'be a unit vector', 'Divide it by its length.');
  } else if (isFace && z <= 0) {
    report(path, `against the air stream, z = ${z}`, 'point along it, z > 0', 'Turn it round.');
  }
}

function sectionFaults(section: Section, path: string, report: Report): void {
  if (section.kind === 'slot') between(`${path}.aspect`, section.aspect, 1, 100, report);
  if (section.kind !== 'polygon') return;
  const { min, max } = POLYGON_SIDES;
  if (section.sides >= min && section.sides <= max && Number.isInteger(section.sides)) return;
  report(`${path}.sides`, String(section.sides), `be a whole number from ${min} to ${max}`, '');
}

function pocketFaults(channel: Channel, path: string, report: Report): void {
  const count = channel.pockets.length;
  if (count > MOST_POCKETS) {
    report(`${path}.pockets`, `a list of ${count}`, `hold at most ${MOST_POCKETS}`, '');
  }
  channel.pockets.forEach((pocket, i) => {
    const at = `${path}.pockets[${i}]`;
    between(`${at}.at`, pocket.at, 0, 1, report);
    between(`${at}.length_mm`, pocket.length_mm, 0.1, 200, report);
    between(`${at}.depth_mm`, pocket.depth_mm, 0, 100, report);
    between(`${at}.width_deg`, pocket.width_deg, 5, 360, report);
    between(`${at}.side_deg`, pocket.side_deg, -3600, 3600, report);
  });
}
