/** The genes of a brief: names, kinds, bounds, and what each means. */
import type { Brief } from '../brief/index.ts';
import { wallGenes } from './wall-genes.ts';

export interface Gene {
  readonly name: string;
  readonly kind: 'real' | 'integer' | 'choice';
  readonly min: number;
  readonly max: number;
  /** Names of the options of a choice, in order of its values 0, 1, ... */
  readonly options?: readonly string[];
  readonly meaning: string;
}

/** Most bends (free interior points of the centreline) of a channel. */
export const MOST_BENDS = 4;
/** Channels with offsets of their own in a free motif; beyond them the offsets repeat. */
export const FREE_SLOTS = 32;
/** Largest offset of a free channel, in pitches. */
export const FREE_REACH = 0.75;
const LONGEST_SLOT = 10;
const MOST_SIDES = 8;

/** Thinnest and thickest plate a brief allows [mm]. */
export function thicknessRange(brief: Brief): readonly [number, number] {
  const { thickness_mm } = brief.plate;
  return typeof thickness_mm === 'number'
    ? [thickness_mm, thickness_mm]
    : [thickness_mm.min_mm, thickness_mm.max_mm];
}

/** Smallest and largest bore: the brief's, but no finer than the process prints [mm]. */
export function boreRange(brief: Brief): readonly [number, number] {
  const { min, max } = brief.routes.bore_mm;
  return [Math.min(Math.max(min, brief.process.minimumFeature_mm), max), max];
}

/** Least and greatest nominal ligament: the brief's, but no thinner than the minimum wall [mm]. */
export function ligamentRange(brief: Brief): readonly [number, number] {
  const { min, max } = brief.routes.ligament_mm;
  return [Math.min(Math.max(min, brief.process.minimumWall_mm), max), max];
}

/**
 * The genes of a brief, in the order of a row. Whatever the brief leaves no choice about has no
 * gene: about 20 for a plain brief, 45 with every section and pockets, and 2 x 32 more when free
 * motifs are allowed.
 */
export function listGenes(brief: Brief): Gene[] {
  const genes: Gene[] = [];
  const real = (name: string, min: number, max: number, meaning: string): void => {
    if (max > min) genes.push({ name, kind: 'real', min, max, meaning });
  };
  const integer = (name: string, min: number, max: number, meaning: string): void => {
    genes.push({ name, kind: 'integer', min, max, meaning });
  };
  const choice = (name: string, options: readonly string[], meaning: string): void => {
    const max = options.length - 1;
    if (max > 0) genes.push({ name, kind: 'choice', min: 0, max, options, meaning });
  };
  const { routes } = brief;
  const [thinnest, thickest] = thicknessRange(brief);

  choice('lattice', [...new Set(routes.lattices)], 'Pattern of the ports.');
  choice('section', [...new Set(routes.sections)], 'Cross-section of every channel.');
  choice('motif', [...new Set(routes.motifs)], 'How neighbouring channels differ.');
  if (brief.plate.build === 'any') choice('build', ['flat', 'edge'], 'Build direction.');
  real('thickness_mm', thinnest, thickest, 'Plate thickness.');
  real('bore_mm', ...boreRange(brief), 'Nominal bore.');
  real('ligament_mm', ...ligamentRange(brief), 'Nominal solid between neighbouring ports.');
  real('stagger', 0, 0.5, 'Shift of every other row, or of each ring, in steps.');
  real('rotation_deg', 0, 90, 'Turn of the whole pattern.');
  if (routes.lattices.includes('rings')) {
    choice('facing', ['fixed', 'radial'], 'Ring ports all face one way, or outwards.');
  }
  if (routes.sections.includes('slot')) {
    real('slotAspect', 1, LONGEST_SLOT, 'Length of a slot over its width.');
  }
  if (routes.sections.includes('polygon')) {
    integer('sides', 3, MOST_SIDES, 'Sides of a polygonal section.');
  }
  if (routes.sections.includes('slot') || routes.sections.includes('polygon')) {
    real('roll_deg', -90, 90, 'Turn of the section against the rows.');
  }
  bendGenes(thickest, real, integer, choice);
  sizeGenes(real);
  if (routes.motifs.includes('stepped') || routes.motifs.includes('free')) {
    integer('steps', 2, 3, 'Number of depths between which neighbours alternate.');
    real('stepDepth', 0, 0.8, 'How far apart in depth the steps bend (0.8: 0.4 of the thickness).');
  }
  if (routes.pockets) pocketGenes(brief, thickest, real, integer);
  wallGenes(brief, boreRange(brief)[1], real);
  if (routes.motifs.includes('free')) {
    for (let i = 1; i <= FREE_SLOTS; i++) {
      real(
        `free${i}X`,
        -1,
        1,
        `Own sideways offset of channel ${i}, x (1 = ${FREE_REACH} pitches).`,
      );
      real(`free${i}Y`, -1, 1, `Own sideways offset of channel ${i}, y.`);
    }
  }
  return genes;
}

type Real = (name: string, min: number, max: number, meaning: string) => void;
type Choice = (name: string, options: readonly string[], meaning: string) => void;

function bendGenes(thickest: number, real: Real, integer: Real, choice: Choice): void {
  const swing = 0.6 * thickest;
  integer('bends', 0, MOST_BENDS, 'Free points of the centreline between the faces.');
  for (let i = 1; i <= MOST_BENDS; i++) {
    real(`bend${i}X_mm`, -swing, swing, `Sideways offset of bend ${i}, along the rows.`);
    real(`bend${i}Y_mm`, -swing, swing, `Sideways offset of bend ${i}, across the rows.`);
    real(`bend${i}Depth`, -0.8, 0.8, `Shift of bend ${i} in depth; 1 would meet the next bend.`);
  }
  real('leanX_mm', -thickest, thickest, 'Outlet port against inlet port, along the rows.');
  real('leanY_mm', -thickest, thickest, 'Outlet port against inlet port, across the rows.');
  choice('ends', ['faces', 'lean'], 'Channel ends normal to the faces, or along the lean.');
}

function sizeGenes(real: Real): void {
  real('inletBore', 0.6, 1.5, 'Bore at the inlet over the nominal bore.');
  real('middleBore', 0.6, 1.5, 'Bore halfway over the nominal bore.');
  real('outletBore', 0.6, 1.5, 'Bore at the outlet over the nominal bore.');
  real('grading', -0.45, 0.45, 'Bore at the edge against the centre; within +-0.05 all are alike.');
}

function pocketGenes(brief: Brief, thickest: number, real: Real, integer: Real): void {
  const [least, largest] = boreRange(brief);
  integer('pockets', 0, 3, 'Side pockets per channel, on the outer side of its bends.');
  real('pocketDepth_mm', 0.1 * least, 0.6 * largest, 'Depth of a pocket.');
  real('pocketLength_mm', 0.1 * thickest, 0.7 * thickest, 'Mouth of a pocket along the channel.');
  real('pocketWidth_deg', 40, 180, 'Mouth of a pocket around the channel.');
  real('pocketShift', -0.15, 0.15, 'Place of a pocket after (+) or before its bend, in lengths.');
}
