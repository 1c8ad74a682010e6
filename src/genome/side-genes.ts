/** The genes of a brief with openings in the rim. */
import type { Brief, SideRoute } from '../brief/index.ts';
import { insideDistance, outlinePolygon } from '../design/index.ts';
import { boreRange, thicknessRange } from './genes.ts';
import type { Gene } from './genes.ts';
import { sidePocketGenes } from './side-pockets.ts';

/** Rings of inlets at most; the channels of each ring run at a height of their own. */
export const MOST_RINGS = 3;
/** Channels with offsets of their own in a free motif; beyond them the offsets repeat. */
export const SIDE_SLOTS = 16;
const LONGEST_SLOT = 6;
const MOST_SIDES = 8;
const FEWEST = 3;

/** The side route of a brief. @throws Error for a brief whose air goes through. */
export function sideRouteOf(brief: Brief): SideRoute {
  const { route } = brief.air;
  if (route.kind !== 'side') throw new Error('This brief has no side exits.');
  return route;
}

/** Length of the outline [mm]. */
function girthOf(brief: Brief): number {
  const points = outlinePolygon(brief.plate.outline, 0.1);
  let sum = 0;
  points.forEach(([x, y], i) => {
    const [px, py] = points[(i + points.length - 1) % points.length];
    sum += Math.sqrt((x - px) * (x - px) + (y - py) * (y - py));
  });
  return sum;
}

/** Radius about the plate centre within which inlets may stand [mm]. */
export function inletReach(brief: Brief): number {
  const [least] = boreRange(brief);
  const depth = insideDistance(brief.plate.outline, 0, 0);
  return Math.max(least, depth - brief.plate.rim_mm - 0.5 * least);
}

/** Most channels that could open in the rim: a bore and a wall each, in as many storeys as rings. */
function mostChannels(brief: Brief): number {
  const [least] = boreRange(brief);
  const step = least + brief.process.minimumWall_mm;
  const fitting = Math.floor((MOST_RINGS * girthOf(brief)) / step);
  return Math.max(FEWEST + 1, Math.min(brief.routes.maxChannels, fitting));
}

/**
 * The genes of a brief with side exits, in the order of a row: where the inlets stand, at which
 * heights the channels run, how they turn and swing, and the plenum where channels may merge.
 */
export function listSideGenes(brief: Brief): Gene[] {
  const genes: Gene[] = [];
  const real = (name: string, min: number, max: number, meaning: string): void => {
    if (max > min) genes.push({ name, kind: 'real', min, max, meaning });
  };
  const integer = (name: string, min: number, max: number, meaning: string): void => {
    if (max > min) genes.push({ name, kind: 'integer', min, max, meaning });
  };
  const choice = (name: string, options: readonly string[], meaning: string): void => {
    const max = options.length - 1;
    if (max > 0) genes.push({ name, kind: 'choice', min: 0, max, options, meaning });
  };
  const { routes, plate } = brief;
  const { sectors, merge } = sideRouteOf(brief);
  const most = mostChannels(brief);
  if (merge === 'any') choice('merge', ['none', 'plenum'], 'Own exits, or a plenum for all.');
  choice('section', [...new Set(routes.sections)], 'Cross-section of every channel.');
  if (plate.build === 'any') choice('build', ['flat', 'edge'], 'Build direction.');
  real('thickness_mm', ...thicknessRange(brief), 'Plate thickness.');
  real('bore_mm', ...boreRange(brief), 'Nominal bore.');
  if (routes.sections.includes('slot')) {
    real('slotAspect', 1, LONGEST_SLOT, 'Length of a slot over its width.');
  }
  if (routes.sections.includes('polygon')) {
    integer('sides', 3, MOST_SIDES, 'Sides of a polygonal section.');
  }
  if (routes.sections.includes('slot') || routes.sections.includes('polygon')) {
    real('roll_deg', -90, 90, 'Turn of the section; 90 lays a slot down where it runs out.');
  }
  integer('sideChannels', FEWEST, most, 'Channels that begin at the face.');
  integer('inletRings', 1, MOST_RINGS, 'Rings on which they begin, in turn.');
  for (let k = 1; k <= MOST_RINGS; k++) {
    real(`ring${k}Radius`, 0, 1, `Radius of ring ${k}, as a share of what the rim leaves.`);
    real(`ring${k}Height`, 0, 1, `Height at which its channels run, from floor to front wall.`);
  }
  real('turn', 0.6, 3, 'Radius of the turn from the face into the plate, in bores.');
  real('climb', -0.35, 0.35, 'Rise of a channel over its way out.');
  real('swing', -0.5, 0.5, 'Sideways swing on the way out, over its length.');
  real('sweep_deg', -60, 60, 'Inlets turned against their exits about the plate centre.');
  real('exitShift', -0.5, 0.5, 'Exits moved along the rim, in steps.');
  if (sectors.some(({ from_deg, to_deg }) => to_deg - from_deg < 359)) {
    real('gather', 0, 1, 'Inlets only before the open sectors (0), or all around (1).');
  }
  real('inletBore', 0.6, 1.5, 'Bore at the inlet over the nominal bore.');
  real('middleBore', 0.6, 1.5, 'Bore halfway over the nominal bore.');
  real('outletBore', 0.6, 1.5, 'Bore at the outlet over the nominal bore.');
  if (merge !== 'none') plenumGenes(most, real, integer);
  sidePocketGenes(brief, real, integer);
  if (routes.motifs.includes('free')) freeGenes(real, choice, routes.motifs.length > 1);
  return genes;
}

type Real = (name: string, min: number, max: number, meaning: string) => void;
type Choice = (name: string, options: readonly string[], meaning: string) => void;

function plenumGenes(most: number, real: Real, integer: Real): void {
  integer('plenumExits', FEWEST, most, 'Exits from the plenum.');
  real('exitBore', 0.6, 2, 'Their bore over the nominal bore.');
  real('plenumInner', 0, 0.9, 'Inner radius of the plenum, as a share of the outer one; below 0.15 a disc.'); // prettier-ignore
  real('plenumOuter', 0.3, 1, 'Outer radius, as a share of what the rim leaves.');
  real('plenumFloor', 0, 1, 'Height of its floor, as a share of what is left.');
  real('plenumWall', 0, 1, 'Height of its walls, as a share of what is left.');
}

function freeGenes(real: Real, choice: Choice, isChoice: boolean): void {
  if (isChoice) choice('freedom', ['alike', 'free'], 'Channels of a ring alike, or each its own.');
  for (let i = 1; i <= SIDE_SLOTS; i++) {
    real(`own${i}Exit`, -1, 1, `Own shift of exit ${i} along the rim, in half steps.`);
    real(`own${i}Radius`, -1, 1, `Own shift of inlet ${i} from the centre, in bores.`);
    real(`own${i}Height`, -1, 1, `Own height of channel ${i}, in half bores.`);
  }
}
