/** Cross-checks of side exits: sectors that make sense on this plate, a plenum that can be printed. */
import type { Check } from './check.ts';
import { fault, shownSum } from './faults.ts';
import type { Fault } from './faults.ts';
import { depthInside } from './outline.ts';

const ROUTE = 'air.route';
const TURN_DEG = 360;

const sectorSpans: Check = {
  reads: ['air.route'],
  run: ({ air: { route } }) => {
    if (route.kind !== 'side') return [];
    const faults: Fault[] = [];
    for (const [i, { from_deg: from, to_deg: to }] of route.sectors.entries()) {
      const path = `${ROUTE}.sectors[${i}].to_deg`;
      if (to <= from) {
        const allowed = `be greater than from_deg, which is ${from}`;
        faults.push(fault(path, String(to), allowed, `Write ${to + TURN_DEG} to go on past +x.`));
      } else if (to - from > TURN_DEG) {
        const allowed = `be at most ${from + TURN_DEG}, one turn past from_deg`;
        faults.push(fault(path, String(to), allowed, 'One sector of a whole turn is all around.'));
      }
    }
    if (faults.length > 0) return faults;
    const total = route.sectors.reduce((sum, { from_deg, to_deg }) => sum + to_deg - from_deg, 0);
    route.sectors.forEach((sector, i) => {
      const clash = route.sectors.findIndex((other, j) => j < i && meets(sector, other));
      if (clash < 0) return;
      const found = `${sector.from_deg} to ${sector.to_deg} degrees, ${shownSum(total)} degrees in all`;
      const allowed = `keep clear of ${ROUTE}.sectors[${clash}]`;
      faults.push(fault(`${ROUTE}.sectors[${i}]`, found, allowed, 'Join the two into one.'));
    });
    return faults;
  },
};

interface Sector {
  readonly from_deg: number;
  readonly to_deg: number;
}

/** Whether two sectors share more than an end. */
function meets(a: Sector, b: Sector): boolean {
  for (const turn of [-TURN_DEG, 0, TURN_DEG]) {
    if (a.from_deg + turn < b.to_deg - 1e-9 && b.from_deg < a.to_deg + turn - 1e-9) return true;
  }
  return false;
}

const middle: Check = {
  reads: ['air.route', 'plate.outline', 'routes.bore_mm'],
  run: ({ air: { route }, plate, routes }) => {
    if (route.kind !== 'side') return [];
    const faults: Fault[] = [];
    const depth = depthInside(plate.outline, 0, 0);
    if (!(depth > 0)) {
      const found = 'an outline that does not contain the origin';
      const remedy = 'Exits are laid out around the origin: move the outline over it.';
      return [fault('plate.outline', found, 'contain 0, 0 for side exits', remedy)];
    }
    route.sectors.forEach(({ from_deg, to_deg }, i) => {
      const arc = (depth * Math.PI * (to_deg - from_deg)) / 180;
      const bore = routes.bore_mm.min;
      if (arc >= bore) return;
      const found = `${shownSum(to_deg - from_deg)} degrees wide, ${shownSum(arc)} mm of rim at the least`;
      const allowed = `hold one bore of routes.bore_mm.min, ${bore} mm`;
      const remedy = 'Widen the sector or allow finer bores.';
      faults.push(fault(`${ROUTE}.sectors[${i}]`, found, allowed, remedy));
    });
    return faults;
  },
};

const thickness: Check = {
  reads: ['air.route', 'plate.thickness_mm', 'process.minimumWall_mm', 'routes.bore_mm'],
  run: ({ air: { route }, plate, process, routes }) => {
    if (route.kind !== 'side') return [];
    const range = plate.thickness_mm;
    const thickest = typeof range === 'number' ? range : range.max_mm;
    const bore = routes.bore_mm.min;
    const wall = process.minimumWall_mm;
    const needed = bore + 2 * wall;
    if (thickest >= needed) return [];
    const found = `${thickest}, with a bore of ${bore} mm and a wall of ${wall} mm on either side of it`;
    const allowed = `be at least ${shownSum(needed)} for channels that run inside the plate`;
    const remedy = 'Make the plate thicker, or allow finer bores (routes.bore_mm.min).';
    return [fault('plate.thickness_mm', found, allowed, remedy)];
  },
};

const plenum: Check = {
  reads: ['air.route', 'plate.build'],
  run: ({ air: { route }, plate }) => {
    if (route.kind !== 'side' || route.merge !== 'plenum' || plate.build !== 'edge') return [];
    const remedy = "The roof of a plenum supports itself only in a plate printed flat: use 'flat'.";
    return [fault('plate.build', "'edge'", "be 'flat' or 'any' with a plenum", remedy)];
  },
};

export const SIDE_CHECKS: readonly Check[] = [sectorSpans, middle, thickness, plenum];
