/** Geometric sanity of a design, checked at the door: design files and hand-made plates. */
import { insideDistance } from './outline.ts';
import type { Channel, Design, Plate, Section } from './model.ts';
import { POLYGON_SIDES } from './sections.ts';

/** What is wrong, where, and what would be right. */
export interface DesignFault {
  /** Path within the design, such as `channels[2].bore_mm[0]`. */
  readonly path: string;
  readonly message: string;
}

/** A face is met when the centreline ends within this distance of it [mm]. */
const FACE_TOLERANCE_MM = 1e-6;
const MOST_CHANNELS = 2000;

/**
 * All faults of a design: numbers that are not finite, channels that do not run from face to face,
 * bores and sizes out of range. An empty list means that it can be sampled. Whether it is a good
 * design (walls, overlaps) is for the measures to say.
 */
export function designFaults(design: Design): DesignFault[] {
  const faults: DesignFault[] = [];
  const fault = (path: string, message: string): void => {
    faults.push({ path, message });
  };
  plateFaults(design.plate, fault);
  let placed = 0;
  design.channels.forEach((channel, i) => {
    channelFaults(channel, design.plate, `channels[${i}]`, fault);
    placed += channel.placements.length;
  });
  if (placed === 0) fault('channels', 'No channel is placed; a vent plate needs at least one.');
  if (placed > MOST_CHANNELS) {
    fault('channels', `${placed} channels are placed; at most ${MOST_CHANNELS} are allowed.`);
  }
  return faults;
}

type Report = (path: string, message: string) => void;

function between(path: string, value: number, low: number, high: number, fault: Report): void {
  if (!(value >= low && value <= high)) {
    fault(path, `${path} is ${value}; it must lie between ${low} and ${high}.`);
  }
}

function plateFaults(plate: Plate, fault: Report): void {
  between('plate.thickness_mm', plate.thickness_mm, 0.8, 60, fault);
  between('plate.rim_mm', plate.rim_mm, 0, 100, fault);
  plate.holes.forEach((hole, i) => {
    const path = `plate.holes[${i}]`;
    between(`${path}.diameter_mm`, hole.diameter_mm, 0.5, 50, fault);
    const room = insideDistance(plate.outline, hole.x_mm, hole.y_mm) - 0.5 * hole.diameter_mm;
    if (!(room > 0)) {
      fault(path, `${path} breaks through the outline by ${-room} mm; move or shrink it.`);
    }
  });
}

function channelFaults(channel: Channel, plate: Plate, path: string, fault: Report): void {
  const points = channel.points_mm;
  if (points.length < 2 || points.length > 200) {
    fault(`${path}.points_mm`, `${path} has ${points.length} points; it needs 2 to 200.`);
    return;
  }
  const finite = points.every((point) => point.every((value) => Math.abs(value) <= 1000));
  if (!finite) {
    fault(`${path}.points_mm`, `${path} has a coordinate that is not a number within +-1000 mm.`);
    return;
  }
  for (let i = 1; i < points.length; i++) {
    const [dx, dy, dz] = points[i].map((value, k) => value - points[i - 1][k]);
    if (dx * dx + dy * dy + dz * dz < 1e-6) {
      fault(
        `${path}.points_mm[${i}]`,
        `${path}: points ${i - 1} and ${i} lie closer than 0.001 mm; drop one.`,
      );
    }
  }
  const start = points[0][2];
  const end = points[points.length - 1][2];
  if (Math.abs(start) > FACE_TOLERANCE_MM) {
    fault(
      `${path}.points_mm[0]`,
      `${path} starts at z = ${start}; it must start on the inlet face, z = 0.`,
    );
  }
  if (Math.abs(end - plate.thickness_mm) > FACE_TOLERANCE_MM) {
    fault(
      `${path}.points_mm[${points.length - 1}]`,
      `${path} ends at z = ${end}; it must end on the outlet face, z = ${plate.thickness_mm}.`,
    );
  }
  directionFaults(channel.inletDirection, `${path}.inletDirection`, fault);
  directionFaults(channel.outletDirection, `${path}.outletDirection`, fault);
  sectionFaults(channel.section, `${path}.section`, fault);
  if (channel.bore_mm.length === 0 || channel.bore_mm.length > 200) {
    fault(`${path}.bore_mm`, `${path} has ${channel.bore_mm.length} bores; it needs 1 to 200.`);
  }
  channel.bore_mm.forEach((bore, i) => between(`${path}.bore_mm[${i}]`, bore, 0.2, 200, fault));
  between(`${path}.roll_deg`, channel.roll_deg, -3600, 3600, fault);
  pocketFaults(channel, path, fault);
  channel.placements.forEach((placement, i) => {
    const at = `${path}.placements[${i}]`;
    between(`${at}.x_mm`, placement.x_mm, -1000, 1000, fault);
    between(`${at}.y_mm`, placement.y_mm, -1000, 1000, fault);
    between(`${at}.turn_deg`, placement.turn_deg, -3600, 3600, fault);
  });
}

function directionFaults(
  direction: readonly [number, number, number] | null,
  path: string,
  fault: Report,
): void {
  if (direction === null) return;
  const [x, y, z] = direction;
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(Math.abs(length - 1) <= 1e-6)) {
    fault(path, `${path} has length ${length}; it must be a unit vector.`);
  } else if (z <= 0) {
    fault(path, `${path} has z = ${z}; it must point along the air stream, z > 0.`);
  }
}

function sectionFaults(section: Section, path: string, fault: Report): void {
  if (section.kind === 'slot') between(`${path}.aspect`, section.aspect, 1, 100, fault);
  if (section.kind !== 'polygon') return;
  const { min, max } = POLYGON_SIDES;
  between(`${path}.sides`, section.sides, min, max, fault);
  if (section.sides !== Math.trunc(section.sides)) {
    fault(`${path}.sides`, `${path}.sides is ${section.sides}; it must be a whole number.`);
  }
}

function pocketFaults(channel: Channel, path: string, fault: Report): void {
  if (channel.pockets.length > 20) {
    fault(
      `${path}.pockets`,
      `${path} has ${channel.pockets.length} pockets; at most 20 are allowed.`,
    );
  }
  channel.pockets.forEach((pocket, i) => {
    const at = `${path}.pockets[${i}]`;
    between(`${at}.at`, pocket.at, 0, 1, fault);
    between(`${at}.length_mm`, pocket.length_mm, 0.1, 200, fault);
    between(`${at}.depth_mm`, pocket.depth_mm, 0, 100, fault);
    between(`${at}.width_deg`, pocket.width_deg, 5, 360, fault);
    between(`${at}.side_deg`, pocket.side_deg, -3600, 3600, fault);
  });
}
