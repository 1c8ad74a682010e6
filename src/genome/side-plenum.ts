/** A ring manifold: inlets into a plenum, exits from it to the rim. */
import type { Brief } from '../brief/index.ts';
import {
  cosDeg,
  insideDistance,
  normalTurn,
  outlineReach,
  sinDeg,
  steepestTop,
} from '../design/index.ts';
import type { Channel, Placement, Plate, Plenum } from '../design/index.ts';
import type { Decoded } from './decode.ts';
import { turnedRound } from './side-direction.ts';
import { spreadExits } from './side-exits.ts';
import { inletReach, sideRouteOf } from './side-genes.ts';
import { lyingReach, sideBores, sideSection } from './side-sections.ts';
import type { SideTraits } from './side-traits.ts';

/** Inner radius below this share of the outer one makes a disc. */
const DISC = 0.15;
const ROUND = 1e9;
/** Walls are drawn this much thicker than the least, against rounding [mm]. */
const SPARE_MM = 0.02;

/** The plate with a plenum that side traits describe, or why there is none. */
export function plenumDesign(brief: Brief, traits: SideTraits, plate: Plate): Decoded {
  const isInward = sideRouteOf(brief).direction === 'inward';
  const wall = brief.process.minimumWall_mm + SPARE_MM;
  const bore = traits.bore_mm * Math.max(traits.inletBore, traits.outletBore);
  const exitBore = traits.bore_mm * traits.exitBore;
  const [down, up] = lyingReach(traits, exitBore);
  const outer = traits.plenumOuter * inletReach(brief);
  const inner = traits.plenumInner < DISC ? 0 : traits.plenumInner * outer;
  const width = inner > 0 ? outer - inner : outer;
  if (width < bore + wall) {
    return { ok: false, reason: `A plenum ${width} mm wide is too narrow for its channels.` };
  }
  // From the closed face: one wall, then the plenum; channels to the open face take the rest.
  const spare = plate.thickness_mm - 2 * wall - (down + up);
  if (spare < 0) {
    return { ok: false, reason: 'The plate is too thin for a plenum with these exits.' };
  }
  // The roof leans towards the build's top, so an inward plate has it towards its open face, with
  // a flat top wide enough for the ports that leave through it.
  const steep = steepestTop(inner, outer) - (isInward ? 0.5 * bore + 0.3 * wall : 0);
  const floor = wall + (isInward ? 0 : traits.plenumFloor * spare);
  const left = spare + wall - floor;
  const lift = isInward ? traits.plenumWall * 0.7 * left : traits.plenumWall * left;
  const eaves = floor + down + up + lift;
  const top = Math.min(eaves + Math.max(0, steep), plate.thickness_mm - wall);
  const plenum: Plenum = {
    innerRadius_mm: inner,
    outerRadius_mm: outer,
    floor_mm: floor,
    eaves_mm: eaves,
    top_mm: top,
  };
  const ports = inletPorts(traits, plate, plenum, bore, wall, isInward);
  const exits = exitsOf(brief, traits, plate, plenum, exitBore);
  if (ports.length === 0 || exits.length === 0) {
    return { ok: false, reason: 'No channel fits beside the plenum, clear of rim and holes.' };
  }
  const shared = { section: sideSection(traits), pockets: [] };
  const roll = traits.section === 'slot' || traits.section === 'polygon' ? traits.roll_deg : 0;
  const shares = [traits.inletBore, traits.outletBore];
  // Drawn with the air from the face to the rim; an inward plate is turned over below.
  const depth = isInward ? plate.thickness_mm - top : floor;
  const inlet: Channel = {
    ...shared,
    points_mm: [
      [0, 0, 0],
      [0, 0, depth],
    ],
    inletDirection: [0, 0, 1],
    outletDirection: [0, 0, 1],
    bore_mm: sideBores(brief, traits.bore_mm, shares),
    roll_deg: roll,
    placements: ports,
    outlet: 'plenum',
  };
  const height = floor + down + 0.5 * lift;
  const z = isInward ? plate.thickness_mm - height : height;
  const channels = [inlet, ...exits.map((exit): Channel => ({
    ...shared,
    points_mm: [[outer, 0, z], [exit.length_mm, 0, z]],
    inletDirection: [1, 0, 0],
    outletDirection: [1, 0, 0],
    bore_mm: sideBores(brief, exitBore, [1]),
    roll_deg: roll - 90,
    placements: exit.placements,
    inlet: 'plenum',
    outlet: 'rim',
  }))]; // prettier-ignore
  return { ok: true, design: turnedRound(brief, { plate, channels, plenum }) };
}

/** Inlets on rings within the plenum, as many on each as its length holds of all. */
function inletPorts(
  traits: SideTraits,
  plate: Plate,
  plenum: Plenum,
  bore: number,
  wall: number,
  isInward: boolean,
): Placement[] {
  // In the floor a ledge of a wall stays beside the ports, and somewhat more where exits begin; a flat
  // top has room for an edge only.
  const margin = 0.5 * bore + (isInward ? 0.25 : 1) * wall;
  const lean = isInward ? plenum.top_mm - plenum.eaves_mm : 0;
  const low = plenum.innerRadius_mm > 0 ? plenum.innerRadius_mm + lean + margin : 0;
  const high = plenum.outerRadius_mm - lean - (isInward ? margin : 0.5 * bore + 1.4 * wall);
  if (high < low) return [];
  const rings = high - low < 0.9 * bore ? 1 : traits.rings;
  const radii = Array.from({ length: rings }, (_, k) =>
    rings === 1 ? 0.5 * (low + high) : low + ((high - low) * k) / (rings - 1),
  );
  const girth = radii.reduce((sum, r) => sum + r, 0);
  const placements: Placement[] = [];
  for (const [k, r] of radii.entries()) {
    const count = girth > 0 ? Math.round((traits.channels * r) / girth) : traits.channels;
    if (r < 1e-6) {
      placements.push({ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false });
      continue;
    }
    for (let j = 0; j < count; j++) {
      const angle = (360 * (j + 0.5 * (k % 2))) / count;
      const x_mm = r * cosDeg(angle);
      const y_mm = r * sinDeg(angle);
      if (insideDistance(plate.outline, x_mm, y_mm) < 0.5 * bore + plate.rim_mm) continue;
      if (isBlocked(plate, x_mm, y_mm, x_mm, y_mm, 0.5 * bore + wall)) continue;
      placements.push({ x_mm, y_mm, turn_deg: 0, mirrored: false });
    }
  }
  return placements;
}

interface Exit {
  readonly length_mm: number;
  readonly placements: Placement[];
}

/** Straight exits out of the outer wall, those of equal length as one channel. */
function exitsOf(
  brief: Brief,
  traits: SideTraits,
  plate: Plate,
  plenum: Plenum,
  bore: number,
): Exit[] {
  const { sectors } = sideRouteOf(brief);
  const found: Exit[] = [];
  for (const angle of spreadExits(sectors, traits.exits, traits.exitShift, 0).exit_deg) {
    const c = cosDeg(angle);
    const s = sinDeg(angle);
    const length_mm = Math.round(outlineReach(plate.outline, 0, 0, c, s) * ROUND) / ROUND;
    const r = plenum.outerRadius_mm;
    const clear = 0.5 * bore + brief.process.minimumWall_mm;
    if (isBlocked(plate, r * c, r * s, length_mm * c, length_mm * s, clear)) continue;
    const placement = { x_mm: 0, y_mm: 0, turn_deg: normalTurn(angle), mirrored: false };
    const like = found.find((exit) => exit.length_mm === length_mm);
    if (like) like.placements.push(placement);
    else found.push({ length_mm, placements: [placement] });
  }
  return found;
}

/** Whether a straight way comes nearer to a mounting hole than it must. */
function isBlocked(
  plate: Plate,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  clear_mm: number,
): boolean {
  const square = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
  return plate.holes.some((hole) => {
    const along = (hole.x_mm - ax) * (bx - ax) + (hole.y_mm - ay) * (by - ay);
    const share = square > 0 ? Math.min(1, Math.max(0, along / square)) : 0;
    const gx = hole.x_mm - ax - share * (bx - ax);
    const gy = hole.y_mm - ay - share * (by - ay);
    const least = clear_mm + 0.5 * hole.diameter_mm;
    return gx * gx + gy * gy < least * least;
  });
}
