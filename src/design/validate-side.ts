/** Sanity of side exits: ends that lie where they say, and a plenum that is one. */
import { cosDeg, sinDeg } from './angles.ts';
import type { Channel, ChannelEnd, Design, Plate, Plenum } from './model.ts';
import { insideDistance } from './outline.ts';
import { plenumDistance, plenumSection, steepestTop } from './plenum.ts';

/** An end lies on the rim or on the plenum's surface within this distance [mm]. */
const END_TOLERANCE_MM = 0.01;

export type Report = (path: string, found: string, allowed: string, remedy: string) => void;

/** Faults of the plenum, and of a plenum that channels do not use as one. */
export function plenumFaults(design: Design, report: Report): void {
  const { plenum, plate, channels } = design;
  const into = channels.some((channel) => channel.outlet === 'plenum');
  const outOf = channels.some((channel) => channel.inlet === 'plenum');
  if (plenum === undefined) {
    if (into || outOf) {
      const remedy = 'Give the plenum its radii and heights, or end the channels elsewhere.';
      report('plenum', 'missing', 'be there for channels that end in it', remedy);
    }
    return;
  }
  if (!into || !outOf) {
    const found = into ? 'a cavity that no channel leaves' : 'a cavity that no channel enters';
    report('plenum', found, 'have channels into it and out of it', 'Add them or drop the plenum.');
  }
  sizeFaults(plenum, plate, report);
}

function sizeFaults(plenum: Plenum, plate: Plate, report: Report): void {
  const { innerRadius_mm, outerRadius_mm, floor_mm, eaves_mm, top_mm } = plenum;
  const span = (name: string, value: number, low: number, high: number): void => {
    if (value >= low && value <= high) return;
    report(`plenum.${name}`, String(value), `lie between ${low} and ${high}`, '');
  };
  const depth = insideDistance(plate.outline, 0, 0);
  span('outerRadius_mm', outerRadius_mm, 0.1, Math.max(0.1, depth));
  span('innerRadius_mm', innerRadius_mm, 0, outerRadius_mm - 0.1);
  span('floor_mm', floor_mm, 0, plate.thickness_mm);
  span('eaves_mm', eaves_mm, floor_mm, plate.thickness_mm);
  const most = Math.min(plate.thickness_mm, eaves_mm + steepestTop(innerRadius_mm, outerRadius_mm));
  span('top_mm', top_mm, Math.max(eaves_mm, floor_mm + 0.1), most);
}

/** Faults of an end on the rim or on the plenum, at every place where the channel stands. */
export function sideEndFaults(
  channel: Channel,
  design: Design,
  end: 'inlet' | 'outlet',
  path: string,
  report: Report,
): void {
  const kind: ChannelEnd = channel[end] ?? 'face';
  if (kind === 'face') return;
  const index = end === 'inlet' ? 0 : channel.points_mm.length - 1;
  const point = channel.points_mm[index];
  const direction = end === 'inlet' ? channel.inletDirection : channel.outletDirection;
  const section = design.plenum ? plenumSection(design.plenum) : null;
  const way = new Float64Array(3);
  for (const [k, placement] of channel.placements.entries()) {
    const c = cosDeg(placement.turn_deg);
    const s = sinDeg(placement.turn_deg);
    const px = placement.mirrored ? -point[0] : point[0];
    const x = placement.x_mm + c * px - s * point[1];
    const y = placement.y_mm + s * px + c * point[1];
    const where = `${path}.points_mm[${index}]`;
    const at = channel.placements.length > 1 ? ` at placement ${k}` : '';
    if (kind === 'rim') {
      const off = insideDistance(design.plate.outline, x, y);
      if (Math.abs(off) > END_TOLERANCE_MM) {
        const found = `${Math.abs(off)} mm ${off > 0 ? 'inside' : 'outside'} the outline${at}`;
        const remedy = `The ${end} is on the rim: end the centreline on the outline.`;
        report(where, found, `lie within ${END_TOLERANCE_MM} mm of it`, remedy);
      }
      if (!(point[2] > 0 && point[2] < design.plate.thickness_mm)) {
        const allowed = `lie between the faces, 0 and ${design.plate.thickness_mm}`;
        report(where, `at z = ${point[2]}`, allowed, 'An end on the rim opens between the faces.');
      }
    } else if (section !== null) {
      const off = plenumDistance(section, x, y, point[2], way);
      if (Math.abs(off) > END_TOLERANCE_MM) {
        const found = `${Math.abs(off)} mm ${off > 0 ? 'away from' : 'inside'} the plenum${at}`;
        const remedy = `The ${end} is on the plenum: end the centreline on its surface.`;
        report(where, found, `lie within ${END_TOLERANCE_MM} mm of its surface`, remedy);
      }
    }
  }
  if (kind === 'rim' && direction !== null && Math.abs(direction[2]) > 0.9) {
    const found = `along the rim, z = ${direction[2]}`;
    report(`${path}.${end}Direction`, found, 'lead through the rim', 'Turn it into the plate.');
  }
}
