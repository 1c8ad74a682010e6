/** Pockets of channels that turn and leave through the rim: at the turn, then along the way out. */
import type { Brief } from '../brief/index.ts';
import { outerSides } from '../design/index.ts';
import type { Channel, Pocket } from '../design/index.ts';
import { boreRange } from './genes.ts';
import { lipOf, turnedSide } from './wall-genes.ts';

type Real = (name: string, min: number, max: number, meaning: string) => void;
type Point = readonly [number, number, number];

/** Pockets a channel has at most. */
const MOST = 2;

export interface SidePockets {
  readonly pockets: number;
  readonly pocketDepth_mm: number;
  readonly pocketLength_mm: number;
  readonly pocketWidth_deg: number;
  readonly pocketShift: number;
  readonly pocketLip: number;
  readonly pocketTurn_deg: number;
}

/** Genes of pockets, where the brief allows them beside side exits. */
export function sidePocketGenes(brief: Brief, real: Real, integer: Real): void {
  const { routes } = brief;
  if (!routes.pockets || routes.sidePockets !== true) return;
  const [least, largest] = boreRange(brief);
  integer('pockets', 0, MOST, 'Pockets of a channel with an exit of its own: at its turn, then along its way out.'); // prettier-ignore
  real('pocketDepth_mm', 0.1 * least, 0.6 * largest, 'Depth of a pocket.');
  real('pocketLength_mm', 0.5 * least, 3 * largest, 'Mouth of a pocket along the channel.');
  real('pocketWidth_deg', 40, 180, 'Mouth of a pocket around the channel.');
  real('pocketShift', -0.15, 0.15, 'Place of a pocket after (+) or before its bend, in lengths.');
  if (routes.pocketLips === true) {
    real('pocketLip', 0, 0.5, "Lip at the mouth's downstream edge over the pocket's depth.");
  }
  if (routes.pocketTurns === true) {
    real('pocketTurn_deg', -180, 180, 'Turn of the pockets away from the outer side of the turn.');
  }
}

/** What the genes say of pockets; none where the brief allows none. */
export function readSidePockets(value: (name: string, otherwise: number) => number): SidePockets {
  return {
    pockets: value('pockets', 0),
    pocketDepth_mm: value('pocketDepth_mm', 0),
    pocketLength_mm: value('pocketLength_mm', 1),
    pocketWidth_deg: value('pocketWidth_deg', 90),
    pocketShift: value('pocketShift', 0),
    pocketLip: value('pocketLip', 0),
    pocketTurn_deg: value('pocketTurn_deg', 0),
  };
}

/** How much further than the bore pockets reach [mm]. */
export function pocketReach({ pockets, pocketDepth_mm }: SidePockets): number {
  return pockets > 0 ? pocketDepth_mm : 0;
}

/**
 * The channel with its pockets. All bulge to the outer side of the turn, unless turned away from it;
 * mouths lie within the channel.
 *
 * @param channel as built, its air turned round where the brief lets it in at the rim.
 * @param course its points from the face outwards, which say where the turn is.
 */
export function withSidePockets(
  traits: SidePockets,
  channel: Channel,
  course: readonly Point[],
): Channel {
  if (traits.pockets === 0) return channel;
  const { middle, length } = turnOf(course);
  const along = [middle, 0.5 * (1 + middle)].slice(0, traits.pockets);
  const isInward = channel.inlet === 'rim';
  const at = isInward ? along.map((share) => 1 - share) : along;
  const [side] = outerSides(channel, at);
  const room = Math.min(0.5, (0.5 * traits.pocketLength_mm) / length);
  const pockets = at.map((share): Pocket => ({
    at: Math.min(1 - room, Math.max(room, share + traits.pocketShift)),
    length_mm: traits.pocketLength_mm,
    depth_mm: traits.pocketDepth_mm,
    width_deg: traits.pocketWidth_deg,
    side_deg: turnedSide(side, traits.pocketTurn_deg),
    ...lipOf(traits, channel),
  }));
  return { ...channel, pockets };
}

/** Where a course has turned half-way from upright to level, as a share of its length [mm]. */
function turnOf(course: readonly Point[]): { middle: number; length: number } {
  let length = 0;
  let middle = 0;
  for (let i = 1; i < course.length; i++) {
    const [dx, dy, dz] = [0, 1, 2].map((d) => course[i][d] - course[i - 1][d]);
    const step = Math.sqrt(dx * dx + dy * dy + dz * dz);
    // The first piece that runs more outwards than upwards begins half-way round the turn.
    if (middle === 0 && Math.sqrt(dx * dx + dy * dy) >= Math.abs(dz)) middle = length;
    length += step;
  }
  return { middle: middle / length, length };
}
