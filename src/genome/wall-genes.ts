/** Genes of what stands on a channel's wall: stirring teeth, lips and turns of pockets. */
import type { Brief } from '../brief/index.ts';
import { HIGHEST_LIP, HIGHEST_TOOTH, normalTurn, outerSides } from '../design/index.ts';
import type { Channel, Teeth } from '../design/index.ts';
import type { Traits } from './traits.ts';

type Real = (name: string, min: number, max: number, meaning: string) => void;

/** From tooth to tooth, over their height: closer ones leave no room for the air between. */
const SPACING = { min: 4, max: 40 } as const;

/** Genes of teeth and of pockets' lips and turns, where the brief allows them. */
export function wallGenes(brief: Brief, largestBore_mm: number, real: Real): void {
  const { routes, air } = brief;
  if (routes.pockets && routes.pocketLips === true) {
    real('pocketLip', 0, 0.5, "Lip at the mouth's downstream edge over the pocket's depth.");
  }
  if (routes.pockets && routes.pocketTurns === true) {
    real('pocketTurn_deg', -180, 180, 'Turn of the pockets away from the outer side of the bend.');
  }
  if (routes.teeth !== true || air.route.kind === 'side') return;
  if (routes.sections.every((section) => section === 'slot')) return;
  const highest = HIGHEST_TOOTH * largestBore_mm;
  real('toothHeight_mm', 0, highest, 'Height of stirring teeth; below a layer there are none.');
  real('toothSpacing', SPACING.min, SPACING.max, 'From tooth to tooth over their height.');
}

/**
 * The teeth that traits ask for on a channel; none in slots, beside pockets, or where they would be
 * lower than a layer. They are no higher than the bore allows.
 */
export function teethFor(brief: Brief, traits: Traits, channel: Channel): Teeth | undefined {
  if (traits.pockets > 0 || traits.section === 'slot') return undefined;
  const height_mm = Math.min(traits.toothHeight_mm, HIGHEST_TOOTH * Math.min(...channel.bore_mm));
  if (height_mm < brief.process.layerHeight_mm) return undefined;
  return { height_mm, pitch_mm: traits.toothSpacing * height_mm };
}

/** A pocket's side, turned away from the outer side of its bend [deg]. */
export function turnedSide(outer_deg: number, turn_deg: number): number {
  return turn_deg === 0 ? outer_deg : normalTurn(outer_deg + turn_deg);
}

/** The lip of a channel's pockets; lower than a tenth of a millimetre there is none. */
export function lipOf(
  traits: Pick<Traits, 'pocketLip' | 'pocketDepth_mm'>,
  channel: Channel,
): { readonly lip_mm?: number } {
  if (traits.pocketLip === 0) return {};
  const most = HIGHEST_LIP * Math.min(...channel.bore_mm);
  const lip_mm = Math.min(traits.pocketLip * traits.pocketDepth_mm, most);
  return lip_mm < LEAST_LIP_MM ? {} : { lip_mm };
}

const LEAST_LIP_MM = 0.1;

/** Genes of a channel's pockets, by the first of them, and of its teeth. */
export function genesOfWall(channel: Channel): Record<string, number> {
  const { pockets, teeth } = channel;
  const genes: Record<string, number> = {};
  if (teeth !== undefined) {
    genes.toothHeight_mm = teeth.height_mm;
    genes.toothSpacing = teeth.pitch_mm / teeth.height_mm;
  }
  const [pocket] = pockets;
  if (!pocket) return genes;
  genes.pockets = pockets.length;
  genes.pocketDepth_mm = pocket.depth_mm;
  genes.pocketLength_mm = pocket.length_mm;
  genes.pocketWidth_deg = pocket.width_deg;
  if (pocket.depth_mm > 0) genes.pocketLip = (pocket.lip_mm ?? 0) / pocket.depth_mm;
  const [outer] = outerSides(channel, [pocket.at]);
  const turn = normalTurn(pocket.side_deg - outer);
  genes.pocketTurn_deg = turn > 180 ? turn - 360 : turn;
  return genes;
}
