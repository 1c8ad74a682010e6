/** A small sweep over plates that one would draw without a search: straight holes, slots, tilted slots. */
import { InputError, fault } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import { pow } from '../numeric/index.ts';
import { boreRange, ligamentRange, listGenes, thicknessRange } from './genes.ts';
import { writeRow } from './row.ts';
import type { NamedGenes } from './row.ts';

/** Kinds of plates in the sweep, in the order they are shown. */
export const PLAIN_FAMILIES = ['straight holes', 'slots', 'tilted slots'] as const;
export type PlainFamily = (typeof PLAIN_FAMILIES)[number];

export interface PlainPlate {
  readonly family: PlainFamily;
  readonly row: Float64Array;
}

const BORES = 7;
const LIGAMENTS = 4;
/** Widest ligament tried, over the narrowest allowed. */
const LIGAMENT_SPAN = 4;
const THICKNESSES = 3;
const SLOT_ASPECTS = [3, 6, 10];
/** Sideways run of a tilted slot over the thickness: 19, 35 and 45 degrees. */
const TILTS = [0.35, 0.7, 1];

/**
 * The brief with its routes cut down to what the sweep draws: round holes and slots, all alike. Plate,
 * air, process, goals and the ranges of bore and ligament stay; sections that the search may not use
 * are allowed here, since one would have drawn them all the same.
 *
 * @throws InputError for a brief with side exits, which straight holes cannot answer.
 */
export function plainBrief(brief: Brief): Brief {
  if (brief.air.route.kind === 'side') {
    const remedy = 'The front itself lists plain side bends among its starting designs.';
    throw new InputError([
      fault('air.route.kind', "'side'", "be 'through' for plates of straight holes", remedy),
    ]);
  }
  return {
    ...brief,
    routes: {
      ...brief.routes,
      lattices: ['square', 'hexagonal'],
      sections: ['round', 'slot'],
      motifs: ['alike'],
      pockets: false,
    },
  };
}

/**
 * Rows of the sweep for the genome of `plainBrief(brief)`: bores and ligaments in geometric steps
 * over their ranges, thicknesses and build directions as the brief leaves them open.
 */
export function plainPlates(brief: Brief): PlainPlate[] {
  const plain = plainBrief(brief);
  const genes = listGenes(plain);
  const [narrow, wide] = ligamentRange(plain);
  const [thinnest, thickest] = thicknessRange(plain);
  const builds = plain.plate.build === 'any' ? ['flat', 'edge'] : [plain.plate.build];
  const plates: PlainPlate[] = [];
  const draw = (family: PlainFamily, named: NamedGenes): void => {
    plates.push({ family, row: writeRow(genes, named) });
  };
  for (const build of builds) {
    for (const thickness_mm of spread(thinnest, thickest, THICKNESSES)) {
      for (const bore_mm of spread(...boreRange(plain), BORES)) {
        for (const ligament_mm of spread(
          narrow,
          Math.min(wide, LIGAMENT_SPAN * narrow),
          LIGAMENTS,
        )) {
          const sizes = { build, thickness_mm, bore_mm, ligament_mm };
          for (const lattice of ['hexagonal', 'square']) {
            draw('straight holes', { ...sizes, lattice, section: 'round' });
          }
          for (const slotAspect of SLOT_ASPECTS) {
            const slots = {
              ...sizes,
              lattice: 'square',
              section: 'slot',
              slotAspect,
              stagger: 0.5,
            };
            draw('slots', slots);
            for (const tilt of TILTS) {
              // Across the slots, so that their long flanks lean.
              draw('tilted slots', { ...slots, ends: 'lean', leanY_mm: tilt * thickness_mm });
            }
          }
        }
      }
    }
  }
  return plates;
}

/** `count` values from low to high in equal ratios; one value when both are the same. */
function spread(low: number, high: number, count: number): number[] {
  if (!(high > low)) return [low];
  return Array.from({ length: count }, (_, i) => low * pow(high / low, i / (count - 1)));
}
