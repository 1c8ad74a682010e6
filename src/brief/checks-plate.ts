/** Cross-checks of the plate: thickness range, outline, rim, mounting holes. */
import type { Check } from './check.ts';
import { fault, shownSum } from './faults.ts';
import type { Fault } from './faults.ts';
import { mountingHoles } from './frames.ts';
import { crossingEdges, depthInside, inscribedRadius, signedArea } from './outline.ts';

/** Least area of a polygon outline [mm2]; the smallest square plate has 100. */
const AREA_MIN_MM2 = 50;

const thickness: Check = {
  reads: ['plate.thickness_mm', 'process.layerHeight_mm'],
  run: ({ plate, process }) => {
    const range = plate.thickness_mm;
    const [min, max] = typeof range === 'number' ? [range, range] : [range.min_mm, range.max_mm];
    const at = typeof range === 'number' ? 'plate.thickness_mm' : 'plate.thickness_mm.min_mm';
    const faults: Fault[] = [];
    if (min > max) {
      const allowed = `be at most plate.thickness_mm.max_mm, which is ${max}`;
      faults.push(fault(at, String(min), allowed, 'Swap the two or give one value.'));
    }
    if (min < process.layerHeight_mm) {
      const allowed = `be at least one layer, and process.layerHeight_mm is ${process.layerHeight_mm}`;
      faults.push(fault(at, String(min), allowed, 'Make the plate thicker or the layers thinner.'));
    }
    return faults;
  },
};

const outlineShape: Check = {
  reads: ['plate.outline'],
  run: ({ plate: { outline } }) => {
    if (outline.kind === 'rectangle') {
      const most = Math.min(outline.width_mm, outline.height_mm) / 2;
      if (outline.cornerRadius_mm <= most) return [];
      const allowed = `be at most half the shorter side, ${most}`;
      const found = String(outline.cornerRadius_mm);
      return [fault('plate.outline.cornerRadius_mm', found, allowed, 'Round the corners less.')];
    }
    if (outline.kind !== 'polygon') return [];
    const points = outline.points_mm;
    const crossing = crossingEdges(points);
    if (crossing !== null) {
      const [i, j] = crossing;
      const found = `a polygon whose edges from corner ${i} and from corner ${j} meet`;
      const remedy =
        'List the corners in order around the plate, each once (the first is corner 0).';
      return [fault('plate.outline.points_mm', found, 'not cross or touch itself', remedy)];
    }
    const area = Math.abs(signedArea(points));
    if (area >= AREA_MIN_MM2) return [];
    const found = `a polygon of ${shownSum(area)} mm2`;
    const allowed = `enclose at least ${AREA_MIN_MM2} mm2`;
    return [fault('plate.outline.points_mm', found, allowed, 'Check that the corners are in mm.')];
  },
};

const rim: Check = {
  reads: ['plate.outline', 'plate.rim_mm', 'routes.bore_mm'],
  run: ({ plate, routes }) => {
    if (isCrossed(plate.outline)) return [];
    const radius = inscribedRadius(plate.outline);
    const room = 2 * (radius - plate.rim_mm);
    if (room <= 0) {
      const allowed = `be less than ${shownSum(radius)}, the radius of the largest circle in the outline`;
      const remedy = 'Nothing is left for channels: use a narrower rim or a larger plate.';
      return [fault('plate.rim_mm', String(plate.rim_mm), allowed, remedy)];
    }
    const faults: Fault[] = [];
    for (const end of ['min', 'max'] as const) {
      const bore = routes.bore_mm[end];
      if (bore <= room) continue;
      const allowed = `be at most ${shownSum(room)}, the widest circle inside the rim of ${plate.rim_mm} mm`;
      const remedy =
        'A port must fit in the plate: use smaller bores, a narrower rim or a larger plate.';
      faults.push(fault(`routes.bore_mm.${end}`, String(bore), allowed, remedy));
    }
    return faults;
  },
};

function isCrossed(outline: Parameters<typeof inscribedRadius>[0]): boolean {
  return outline.kind === 'polygon' && crossingEdges(outline.points_mm) !== null;
}

const holes: Check = {
  reads: ['plate.outline', 'plate.mounting', 'process.minimumWall_mm'],
  run: ({ plate, process }) => {
    if (isCrossed(plate.outline)) return [];
    const frame = plate.mounting.kind === 'frame';
    const list = mountingHoles(plate.mounting);
    const faults: Fault[] = [];
    const edge = process.minimumWall_mm;
    for (const [i, hole] of list.entries()) {
      const path = frame ? 'plate.mounting.frame_mm' : `plate.mounting.holes[${i}]`;
      const solid = depthInside(plate.outline, hole.x_mm, hole.y_mm) - hole.diameter_mm / 2;
      if (solid < edge - 1e-9) {
        const what = `a ${hole.diameter_mm} mm hole at x ${hole.x_mm}, y ${hole.y_mm}`;
        const lies = `${what} with ${shownSum(solid)} mm of solid to the edge of the plate`;
        const found =
          plate.mounting.kind === 'frame' ? `${plate.mounting.frame_mm}, ${lies}` : lies;
        const allowed = `leave at least process.minimumWall_mm, ${edge} mm`;
        const remedy = frame
          ? 'Use a smaller frame or a larger plate.'
          : 'Move the hole inwards, make it smaller or the plate larger.';
        faults.push(fault(path, found, allowed, remedy));
        if (frame) break;
      }
      for (let j = 0; j < i; j++) {
        const dx = hole.x_mm - list[j].x_mm;
        const dy = hole.y_mm - list[j].y_mm;
        const gap = Math.sqrt(dx * dx + dy * dy) - (hole.diameter_mm + list[j].diameter_mm) / 2;
        if (gap >= edge - 1e-9) continue;
        const found = `a hole ${shownSum(gap)} mm from plate.mounting.holes[${j}]`;
        const allowed = `leave at least process.minimumWall_mm, ${edge} mm, between holes`;
        faults.push(fault(path, found, allowed, 'Move the two holes apart or remove one.'));
      }
    }
    return faults;
  },
};

export const PLATE_CHECKS: readonly Check[] = [thickness, outlineShape, rim, holes];
